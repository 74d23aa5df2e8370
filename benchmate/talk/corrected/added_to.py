"""What a line adds to the work told before it: "except the bottom two branches"; "by half" behind a cut;
"root pruned it too" behind a repotting of the same day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.talk.context import Logged
from benchmate.talk.corrected.stuff_after import stuff_after
from benchmate.talk.dates import last_day
from benchmate.talk.trees.which_tree import meant_tree
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.garden.record import Entry, Tree
    from benchmate.talk.bench import Bench

_MOST_WORDS = 8
_DONE = ("done", "now")
_SHARED = frozenset({"shorten", "remove", "thin-leaves", "root-prune", "defoliate", "pinch", "leaf-cut", "thin"})


def added_to(bench: Bench, words: str) -> tuple[Reading, Logged] | None:
    """The statement before and this one as one, with what the first had put down and is gone over; None where the words
    stand by themselves."""
    talk, house = bench.context, bench.house
    last = talk.amends
    if last is None or last.several or not talk.made or any(entry.kind != "done" for _, entry in talk.made):
        return None
    if "decide" in last.acts and (used := stuff_after(words, last, house.lexicon)) is not None:
        return used, talk.made
    texts = house.lexicon.split(words)
    if last.acts != ("decide",) or len(texts) > _MOST_WORDS or "?" in texts:
        return None
    said = f"{' '.join(texts)} "
    spares = any(said.startswith(f"{one} ") for one in house.lexicon.sense["narrowing"]["spares"])
    if not (spares or _share_alone(bench, words, last)):
        return None
    whole = house.hear(f"{last.said.rstrip(' .!,;')}, {words}", bench.on)
    told = [work for work in whole.work if work.done in ("now", "done") and work.work not in ("leave", "wait")]
    same = {work.work for work in told} == {work.work for work in last.work if work.work}
    more = len(whole.work) > len(last.work) or [one.measures for one in whole.work] != [o.measures for o in last.work]
    if whole.acts != ("decide",) or not same or not more or len(whole.missed) > len(last.missed) or whole.several:
        return None
    return whole, talk.made


def _share_alone(bench: Bench, words: str, last: Reading) -> bool:
    """Whether nothing but a share is said, behind a cut that was told without one."""
    heard = bench.house.hear(words, bench.on)
    alone = set(heard.measures) == {"share"} and not (heard.facts or heard.work or heard.candidates or heard.missed)
    cut = [work for work in last.work if work.work in _SHARED]
    return alone and heard.tree is None and len(cut) == 1 and "share" not in cut[0].measures and cut[0].spot != NOWHERE


def joins_potting(bench: Bench, words: str) -> tuple[Reading, Logged] | None:
    """The potting and these words as one, with the entry that is gone over, where they tell that roots were cut on a
    tree that was potted on the same day; None where they do not."""
    house = bench.house
    table, texts = house.lexicon.sense["potting"], house.lexicon.split(words)
    if not set(table["joins"]) & set(texts) or "?" in texts:
        return None
    heard = house.hear(words, bench.on, bench.context.lending)
    if heard.acts != ("decide",) or heard.several or any(fact.kind != "species" for fact in heard.facts):
        return None
    if not heard.work or any(work.work != table["roots"] or work.done not in _DONE for work in heard.work):
        return None
    tree = meant_tree(heard, house.trees(), bench.here).tree
    potting = _potting(bench, heard, tree, also=bool(set(table["also"]) & set(texts)))
    if tree is None or potting is None:
        return None
    whole = house.hear(f"{potting.said.rstrip(' .!,;')}, {words}", bench.on)
    told = [work.work for work in whole.work]
    same = sorted(map(str, told)) == sorted([*(str(one.get("work")) for one in potting.work), table["roots"]])
    if whole.acts != ("decide",) or not same or any(work.done not in _DONE for work in whole.work) or whole.several:
        return None
    return replace(whole, tree=tree.name, when=potting.day.isoformat()), ((tree.name, potting),)


def _potting(bench: Bench, heard: Reading, tree: Tree | None, *, also: bool) -> Entry | None:
    """The newest entry that tells of a potting of the day that is meant, and of no roots cut. also: the words say that
    it was done with something, so the day of what was told right before it is meant."""
    table = bench.house.lexicon.sense["potting"]
    day = last_day(heard.when, bench.house.place.southern) if heard.when else None
    just = {entry.id for _, entry in bench.context.made} if also and day is None else set()
    for entry in reversed(bench.house.lately_standing(tree)):
        works = {one.get("work") for one in entry.work}
        pots = entry.kind == "done" and works & set(table["works"]) and table["roots"] not in works
        if pots and (entry.day == (day or bench.on) or entry.id in just):
            return entry
    return None
