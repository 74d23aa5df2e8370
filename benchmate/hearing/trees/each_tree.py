"""Several trees in one statement, read tree by tree: "moved the olive and the ficus inside", "wired the pine, fed the
elm and turned the beech"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from benchmate.value import replace

from ..done.doing import DONE, LATER
from ..lattice.spotting import Token
from ..reading import Fact, Reading, Several, Span, Spot
from ..vocabulary.words import Word

_BEFORE = frozenset({"DET", "POSS", "TREEWORD"})  # what may stand before a tree's name
_JOINS = frozenset({",", "and", "&", "+"})
_ALONE = frozenset({","})  # what parts two trees without joining them
_TELLS = frozenset({"AUX", "VED", "BE", "HAVE"})
_DECIDED = frozenset({"decide"})

Hears = Callable[[str], Reading]
Listed = tuple[tuple[Fact, ...], Span]  # the trees in the order said; the characters of all but the last


def lists_of(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> list[tuple[Token, ...]]:
    """Trees named one behind the other with nothing but "and" or a comma between them: lists of two or more."""
    out: list[tuple[Token, ...]] = []
    at = 0
    while at < len(words):
        found: list[Token] = []
        here = at
        while (tree := tree_at(lattice, here)) is not None:
            found.append(tree)
            here = tree.end
            while here < len(words) and words[here].text in _JOINS:
                here += 1
            if here == tree.end:
                break
        names = [str(token.value) for token in found]
        if len(found) > 1 and not any(_same(one, other) for one in names for other in names if one is not other):
            out.append(tuple(_from_word(token, words) for token in found))
        at = max(here, at + 1) if found else at + 1
    return out


def tree_at(lattice: Sequence[Sequence[Token]], at: int) -> Token | None:
    """The tree named here, with the small words before its name."""
    first = at
    while at < len(lattice):
        trees = [token for token in lattice[at] if token.kind in ("SPECIES", "NAME") and not token.guesses]
        if trees:
            return replace(max(trees, key=lambda token: (token.end, token.kind == "NAME")), first=first)
        if not any(token.kind in _BEFORE and token.end == at + 1 for token in lattice[at]):
            return None
        at += 1
    return None


def _from_word(token: Token, words: Sequence[Word]) -> Token:
    """The token with its place in characters."""
    return replace(token, first=words[token.first].start, end=words[token.end - 1].end)


def _same(one: str, other: str) -> bool:
    return one == other or one.startswith(f"{other} ") or other.startswith(f"{one} ")


def of_all_listed(
    words: Sequence[Word], lattice: Sequence[Sequence[Token]], lists: Sequence[tuple[Token, ...]]
) -> list[tuple[Token, ...]]:
    """Those of the lists that what follows is said of as a whole: the last two trees joined by "and", and no verb
    behind them that tells of the last alone ("fed the pine and the elm is weak"), unless the list opens
    the statement."""
    out = []
    for one in lists:
        between = [word.text for word in words if one[-2].end <= word.start and word.end <= one[-1].first]
        behind = next((n for n, word in enumerate(words) if word.start >= one[-1].end), len(words))
        tells = behind < len(words) and any(token.kind in _TELLS for token in lattice[behind])
        if _ALONE.isdisjoint(between) and between and (not tells or one[0].first <= words[0].end):
            out.append(one)
    return out


def with_lists(
    reading: Reading, lists: Sequence[tuple[Token, ...]], hear: Hears, whole: Sequence[tuple[Token, ...]] = ()
) -> Reading:
    """The reading of a statement in which a list of trees parts a verb from what belongs to it. Read with the last tree
    of each list alone it must make more of the words; what it says is said of all of the list. whole: the lists that
    what follows is said of as a whole: where all the trees stand in one of these none has something of its own."""
    text = reading.said
    lost = [one for one in lists if any(m.span[0] < one[-1].end and one[0].first < m.span[1] for m in reading.missed)]
    apart = reading.several is not None and not reading.several.shared and not reading.several.every
    own = set(reading.several.named) if reading.several is not None and apart else set()
    together = [one for one in whole if own and own <= {str(token.value) for token in one}]
    if reading.several is None and reading.work:  # "gave the olive and the elm a soak": one of them is lost
        together = [one for one in whole if " " not in text[: one[0].first].strip()]
    if together:
        lost = together[:1]
    if not lost:
        return reading
    blanked = text
    for one in lost:
        blanked = blanked[: one[0].first] + " " * (one[-1].first - one[0].first) + blanked[one[-1].first :]
    read = hear(blanked)
    lost_more = letters(read) > letters(reading) or (not together and letters(read) == letters(reading))
    if not read.acts or lost_more or (together and not read.work):
        return reading
    said = {str(one[-1].value): [str(token.value) for token in one] for one in lost}
    before = read.several or Several(tuple(said))
    named = tuple(dict.fromkeys(tree for name in before.named for tree in said.get(name, [name])))
    kinds = {str(token.value): token.kind for one in lost for token in one}
    told = {fact.value for fact in read.facts}
    facts = tuple(Fact("species", name) for name in named if kinds.get(name) == "SPECIES" and name not in told)
    several = before if before.every else replace(before, named=named)
    return replace(read, said=text, facts=(*read.facts, *facts), several=several)


def letters(reading: Reading) -> int:
    return sum(len(missed.words) for missed in reading.missed)


def each_read(reading: Reading, hear: Hears, on: str) -> Reading:
    """The reading with what is told of each tree, where that is not the same of all: each piece of the words read by
    itself. A day at the very beginning, or the only one at the very end, is that of all."""
    several = reading.several
    if several is None or several.shared or len(several.pieces) < 2:
        return reading
    shared_day = _day_of_all(reading, several.pieces, hear)
    each: list[Reading] = []
    for first, end in several.pieces:
        words = reading.said[first:end]
        alone = hear(words)
        if shared_day and not alone.when:
            alone = hear(f"{words.rstrip(' ?')} {shared_day}{'?' if words.endswith('?') else ''}")
        alone = _as_meant(alone, reading, (first, end))
        alone = _at_its_place(alone, reading, len(each))
        told = next((one for one in reversed(each) if any(work.work for work in one.work)), None)
        if told is not None and (as_before := _the_same_work(told, alone, on)) is not None:
            alone = as_before
        names_one = alone.tree or alone.several or any(fact.kind == "species" for fact in alone.facts)
        if not alone.acts or not names_one:
            return reading
        each.append(alone)
    return replace(reading, several=replace(several, each=tuple(each)))


def _as_meant(alone: Reading, whole: Reading, piece: Span) -> Reading:
    """A piece with what the whole statement makes of its works: "going to wire the pine and feed the elm" is a plan for
    both, though "feed the elm" alone would be none."""
    told = [work for work in whole.work if piece[0] <= work.span[0] < piece[1]]
    if [work.work for work in told] == [work.work for work in alone.work]:
        works = tuple(replace(work, done=as_told.done) for work, as_told in zip(alone.work, told, strict=True))
        alone = replace(alone, work=works)
    if len(whole.acts) == 1 and set(alone.acts) <= _DECIDED:
        alone = replace(alone, acts=whole.acts, topic=whole.topic)
    return alone


def _at_its_place(alone: Reading, whole: Reading, number: int) -> Reading:
    """ "This morning I wired the top of the elm and the lowest branch of the beech": a piece without a verb has the
    one work of the statement, at the place that it names. number: which of the pieces it is."""
    several = whole.several
    if alone.work or alone.topic or not alone.when or several is None or len(whole.work) != len(several.pieces):
        return alone
    work = whole.work[number]
    if work.spot == Spot() or len({one.work for one in whole.work}) != 1:
        return alone
    return replace(alone, acts=whole.acts, work=(replace(work, span=(0, len(alone.said))),))


def _day_of_all(reading: Reading, pieces: Sequence[Span], hear: Hears) -> str:
    """The words of the day that holds for all pieces, or ""."""
    if not reading.when:
        return ""
    (first, end), (last, over) = pieces[0], pieces[-1]
    words = reading.said[first:end].split()
    for count in range(min(4, len(words) - 1), 0, -1):
        head = " ".join(words[:count])
        if _is_day(head.rstrip(","), reading.when, hear):
            return head
    words = reading.said[last:over].split()
    if _later_only(reading, last):
        return ""  # "repotted the maple, the hornbeam can wait till next year"
    if any(hear(reading.said[one:other]).when for one, other in pieces[:-1]):
        return ""
    for count in range(min(4, len(words) - 1), 0, -1):
        tail = " ".join(words[-count:]).rstrip(".!? ")
        if _is_day(tail, reading.when, hear):
            return tail
    return ""


def _later_only(reading: Reading, last: int) -> bool:
    """Whether all before the last piece was done, and nothing in that piece was."""
    before = [work.done for work in reading.work if work.span[0] < last]
    behind = [work.done for work in reading.work if work.span[0] >= last]
    return bool(before) and set(before) == {DONE} and DONE not in behind


def _the_same_work(before: Reading, alone: Reading, on: str) -> Reading | None:
    """ "Repotted the maple today, the beech next week": the same work on another day, where only the day is told."""
    named = all(fact.kind == "species" for fact in alone.facts)
    works = [work for work in before.work if work.work]
    said = alone.work or alone.topic or alone.measures or alone.missed
    if said or not alone.when or not named or not works:
        return None
    done = LATER if alone.when > on[: len(alone.when)] else works[0].done
    told = tuple(replace(work, done=done, span=(0, len(alone.said))) for work in works)
    return replace(alone, acts=before.acts, work=told)


def _is_day(words: str, when: str, hear: Hears) -> bool:
    """Whether the words name that day and nothing else. It may lie ahead or behind, as what is told of it does."""
    heard = hear(f"fed it {words}")
    ahead = hear(f"I will feed it {words}")
    plain = not heard.missed and not heard.facts and len(heard.work) == 1 and not heard.work[0].measures
    plain = plain and heard.work[0].spot == Spot()
    return plain and when in (heard.when, ahead.when)
