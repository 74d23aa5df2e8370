"""Several trees in one statement: "fed the beech and the hornbeam", "watered everything except the jade"."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause
from ..lattice.search import Found
from ..reading import Reading, Several, Span
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_NAMING = frozenset({"SPECIES", "NAME", "DET", "POSS", "TREEWORD", "AT", "OF", "DATE", "MANNER", "SEP", "PARTICLE"})
_STOPS = frozenset({",", ".", ";", ":", "-", "&"})
_VERBS = frozenset({"V", "VED", "VING"})
_ONE_TREE = frozenset({"correct", "turn", "new", "note", "strike"})


def several_of(
    reading: Reading, clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon
) -> Several | None:
    """The trees that a statement is about where they are several, else None. clauses: all of the statement's."""
    if _ONE_TREE & set(reading.acts):
        return None
    texts = [word.text for word in words]
    left_out = next((at for at in range(len(texts)) if _begins(texts, at, lexicon.several["except"])), len(texts))
    kept = {str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied}
    trees = [[(at, name) for at, name, kind in _named(c, found) if kind == "NAME" or name in kept] for c in clauses]
    named = [[name for at, name in own if at < left_out] for own in trees]
    out = tuple(dict.fromkeys(name for own in trees for at, name in own if at > left_out))
    # a second tree in the same clause is a place ("next to the elm"), one in a clause of its own is meant as well
    firsts = [(clause, own[0]) for clause, own in zip(clauses, named, strict=True) if own]
    if (at := _says_every(reading, texts, found, lexicon, any(named))) is not None:
        own = [(clause, name) for clause, name in firsts if not clause.span[0] <= at < clause.span[1]]
        if any(clause.work and clause.span[1] <= at for clause, _ in own):  # "fed the elm and watered everything"
            both = [*own, *((clause, "") for clause in clauses if clause.span[0] <= at < clause.span[1])]
            told = tuple(dict.fromkeys(name for _, name in own))
            return Several(told, shared=False, pieces=_pieces(clauses, both, found, words))
        return Several(every=True, but=out)
    apart = tuple(dict.fromkeys(name for _, name in firsts))
    if len(apart) < 2 or any(_same(one, other) for one in apart for other in apart if one is not other):
        return None
    telling = {name for clause, name in firsts if _says_its_own(clauses, clause, found)}
    if len(telling) < 2:
        return Several(named=apart, but=out)
    return Several(named=apart, but=out, shared=False, pieces=_pieces(clauses, firsts, found, words))


def _pieces(
    clauses: Sequence[Clause], named: Sequence[tuple[Clause, str]], found: Found, words: Sequence[Word]
) -> tuple[Span, ...]:
    """Where in the text something of its own is told of one or more of the trees. A clause that only names a further
    tree goes with the telling one before it, or with the one behind where none stands before."""
    begins = [0]
    names: set[str] = set()
    tells = False
    bare: int | None = None  # where the trees that are only named begin, behind what was told before
    for clause in clauses:
        name = next((name for own, name in named if own is clause), None)
        if name is None:
            tells = tells or bool(clause.work or clause.topic)
            continue
        telling = not name or _says_its_own(clauses, clause, found)
        if names and name not in names and tells and telling:
            seen = clause.kind == "observe" and "and" in clause.joined  # "..., the beech and the pine are strong"
            begins.append(bare if seen and bare is not None else clause.span[0])
            names, tells = set(), False
        bare = None if telling else clause.span[0] if bare is None else bare
        names.add(name)
        tells = tells or telling
    joins = {place for token in found.tokens if token.kind == "SEP" for place in range(token.first, token.end)}
    joins |= {place for place, word in enumerate(words) if word.text in _STOPS}
    spans = []
    for first, end in zip(begins, [*begins[1:], len(words)], strict=True):
        last = end
        while last - 1 > first and last - 1 in joins and words[last - 1].text != "?":
            last -= 1
        spans.append((words[first].start, words[last - 1].end))
    return tuple(spans)


def _named(clause: Clause, found: Found) -> list[tuple[int, str, str]]:
    """(place, name or taxon, kind of word) of each tree that a clause names."""
    first, end = clause.span
    tokens = [t for t in found.tokens if first <= t.first < end and t.kind in ("SPECIES", "NAME")]
    return [(t.first, str(t.value), t.kind) for t in tokens]


def _tells(clause: Clause, found: Found) -> bool:
    """Whether a clause says anything of its tree but its name, even something that no fact was made of."""
    first, end = clause.span
    kinds = {token.kind for token in found.tokens if first <= token.first < end}
    return bool(clause.work or clause.topic or clause.measures or kinds - _NAMING)


def _says_its_own(clauses: Sequence[Clause], clause: Clause, found: Found) -> bool:
    return _tells(clause, found) or _tells_behind(clauses, clause, found) or _on_another_day(clauses, clause)


def _on_another_day(clauses: Sequence[Clause], clause: Clause) -> bool:
    """ "Repotted the maple today, the beech next week": the day makes it another time of the same work."""
    before = [one for one in clauses[: next(n for n, one in enumerate(clauses) if one is clause)] if one.work]
    alone = clause.kind == "observe" and not clause.work and clause.when is not None
    return alone and bool(before) and before[-1].kind == "decide" and before[-1].when != clause.when


def _tells_behind(clauses: Sequence[Clause], clause: Clause, found: Found) -> bool:
    """ "The larch | got a handful of feed", "Crag: yellow needles. Ratchet: fine": what a tree is only named before is
    told of it in the same breath, or behind a stop where no other tree is named."""
    at = next(n for n, one in enumerate(clauses) if one is clause) + 1
    behind = clauses[at] if at < len(clauses) else None
    if behind is None or clause.kind != "observe" or _named(behind, found):
        return False
    if set(behind.joined) == {","}:
        return _tells(behind, found) or not behind.facts
    first = next((token for token in found.tokens if token.first >= behind.span[0] and token.kind != "SEP"), None)
    told = bool(behind.work) and first is not None and first.kind == "VED"
    return set(behind.joined) == {"pause"} and (told or bool(behind.facts))


def _same(one: str, other: str) -> bool:
    """Whether two names may be of one tree: a genus and a species of it ("the elm, a Chinese elm")."""
    return one.startswith(f"{other} ") or other.startswith(f"{one} ")


def _says_every(reading: Reading, texts: Sequence[str], found: Found, lexicon: Lexicon, one_named: bool) -> int | None:
    """Where all trees are meant: said outright, or "everything" where the work is one that a whole tree is given; "the
    trees" only right behind the verb that tells such work ("watered the trees", but not "moved it under the trees").
    one_named: whether a tree is named that is not left out."""
    whole = set(lexicon.several["works"])
    works = [work.work for work in reading.work]
    if not works or any(work.spot.part for work in reading.work):
        return None
    phrases, told = list(lexicon.several["trees"]), []
    if whole.issuperset(work for work in works if work):
        phrases += lexicon.several["vague"]
        told = lexicon.several["told"] if reading.acts == ("decide",) and not one_named else []
    verbs = {token.end for token in found.tokens if token.kind in _VERBS}
    return next(
        (n for n in range(len(texts)) if _begins(texts, n, phrases) or (n in verbs and _begins(texts, n, told))), None
    )


def _begins(texts: Sequence[str], at: int, phrases: Sequence[str]) -> bool:
    """Whether one of the phrases begins at `at`."""
    return any(list(texts[at : at + len(phrase.split())]) == phrase.split() for phrase in phrases)
