"""Young plants from a tree: "took three cuttings off the ficus", "potted up the air layer from the maple".
The work goes into the parent's record, and a record for the new tree is offered, to be begun by a yes or by a name."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import NOWHERE, Fact, Reading
from benchmate.practice.advice import Ask
from benchmate.talk.context import Pending
from benchmate.talk.dates import last_day
from benchmate.talk.trees.tree_said import tree_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.talk.bench import Bench
    from benchmate.talk.turns import Turn

PROPAGATE = "propagate"
_MOST_TREE = 5  # words that name a tree
_POTS = frozenset({"repot", "wait", "water"})  # what may be told of the young plants behind


def offspring_told(bench: Bench, words: str) -> Reading | None:
    """The reading of words that tell of young plants taken from a tree, or None. `term` is their origin, the
    count in `series` how many there are: 2 for an unknown number of several."""
    house = bench.house
    sense = house.lexicon.sense["offspring"]
    split = house.ear.words(words)
    texts = [word.text for word in split]
    signs = {word.split()[-1] for says in sense["young"].values() for word in says}
    if "?" in texts or not signs & set(texts):
        return None
    first = next((n for n, text in enumerate(texts) if text not in sense["leads"]), len(texts))
    for template in sense["says"]:
        for kind, count, whose, rest in _found(bench, template, texts, first):
            heard = tree_said(bench, words, split[whose.start : whose.stop])
            if heard is None or not _goes_with(bench, words, split[rest:], kind):
                continue
            if not (heard.tree or heard.facts) and _is_itself(bench.here, kind):
                return None  # "potted up the cutting", said of the one at hand
            when = house.hear(words, bench.on).when
            many = (("count", float(count)),)
            return Reading(words, (PROPAGATE,), facts=heard.facts, tree=heard.tree, term=kind, series=many, when=when)
    return None


def _found(bench: Bench, template: str, texts: Sequence[str], first: int) -> Iterator[tuple[str, int, range, int]]:
    """(origin, how many, place of the words for the tree, where the rest begins) for each way in which it fits, the
    longest words for the tree first."""
    sense, numbers = bench.house.lexicon.sense["offspring"], bench.house.lexicon.numbers.get("number", {})
    head = template.partition(" {tree}")[0]
    said = " ".join(texts[first:])
    young = tuple(word for says in sense["young"].values() for word in says)
    match = _pattern(head, tuple(sense["verbs"]), young).match(said)
    if match is None:
        return
    before = match["about"].split()
    if any(word not in sense["about"] and not word.isdecimal() and word not in numbers for word in before):
        return
    kind = next(origin for origin, says in sense["young"].items() if match["young"] in says)
    if kind != "layer" and match["verb"] in sense["only_layer"]:
        return
    told = [int(numbers.get(word, word)) for word in before if word.isdecimal() or word in numbers]
    count = told[0] if told else 2 if match["young"].split()[-1] in sense["many"] else 1
    at = first + len(match.group().split())
    if not template.endswith("{tree}"):
        yield kind, count, range(at, at), at
        return
    for end in range(min(len(texts), at + _MOST_TREE), at, -1):
        yield kind, count, range(at, end), end


@lru_cache(64)
def _pattern(head: str, verbs: tuple[str, ...], young: tuple[str, ...]) -> re.Pattern[str]:
    def either(words: tuple[str, ...]) -> str:
        return "|".join(map(re.escape, sorted(words, key=len, reverse=True)))

    one = re.escape(head).replace(r"\{verb\}", f"(?P<verb>{either(verbs)})")
    one = one.replace(r"\{young\}", rf"(?P<about>(?:\S+ ){{0,5}}?)(?P<young>{either(young)})")
    return re.compile(rf"{one}(?=\s|$)")


def _goes_with(bench: Bench, words: str, rest: Sequence[Word], kind: str) -> bool:
    """Whether the words behind tell no more than what became of the young plants: other work and other trees make it a
    statement of another sort."""
    if not rest:
        return True
    heard = bench.house.hear(words[rest[0].start : rest[-1].end], bench.on)
    others = any(work.work not in (*_POTS, None) or work.spot != NOWHERE for work in heard.work)
    return not (others or heard.tree or heard.several or heard.topic or heard.figure or heard.facts)


def _is_itself(here: Tree | None, kind: str) -> bool:
    return here is not None and kind in (here.origin or "")


def propagate(turn: Turn) -> bool:
    """Log the work on the parent and offer a record for what came of it; True where the statement tells of such."""
    reading = turn.reading
    if PROPAGATE not in turn.acts:
        return False
    if turn.tree is None:
        turn.says += [turn.meant.aside] if turn.meant.aside else []
        turn.asks += [turn.meant.ask] if turn.meant.ask else []
        return True
    parent, kind = turn.tree, str(reading.term)
    day = last_day(reading.when, turn.southern) if reading.when else None
    turn.to_log.append((parent, (Entry("", min(day or turn.on, turn.on), "done", reading.said),)))
    many = dict(reading.series).get("count", 1) > 1
    name = _free_name(f"{parent.name} {kind}{'s' if many else ''}", turn.house.trees())
    origin = f"{kind}{'s' if many else ''} from {parent.name}"
    what = ", ".join(filter(None, (name, parent.species, origin)))
    if turn.bench.dry or not turn.bench.talking:
        turn.aside.append(f"a record of its own is begun by: new tree, call it {name}")
        return True
    turn.asks.append(Ask("new", f"Begin a record for what came of it ({what})? Say yes, no, or: call it Ember."))
    facts = (Fact("species", parent.species),) if parent.species else ()
    new = Reading(reading.said, ("new",), facts=facts, tree=name, term=origin, when=reading.when)
    turn.offer = Pending(new, tree=parent.name, offer=True)
    return True


def _free_name(name: str, trees: Sequence[Tree]) -> str:
    """The name, or with the next number where a tree has it."""
    taken = {known.casefold() for tree in trees for known in (tree.name, *tree.was)}
    number = 1
    while (f"{name} {number}" if number > 1 else name).casefold() in taken:
        number += 1
    return f"{name} {number}" if number > 1 else name


def named_in_answer(bench: Bench, words: str, offered: Reading) -> Reading | None:
    """The offered record under the name that the grower gives it ("call it Ember", "yes, call it Ember"), or None."""
    heard = bench.house.hear(words, bench.on)
    bare = "new" in heard.acts and heard.tree and not (heard.facts or heard.work or heard.missed)
    return replace(offered, tree=heard.tree) if bare else None
