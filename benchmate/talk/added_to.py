"""What a line adds to the work told before it: "except the bottom two branches"; "by half" behind a cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.talk.context import Logged
from benchmate.talk.stuff_after import stuff_after

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

_MOST_WORDS = 8
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
