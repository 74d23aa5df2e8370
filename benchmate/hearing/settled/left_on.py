"""How much a cut leaves: "nip out the tips, leaving two leaves on each"."""

from __future__ import annotations

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import DONE, NOW
from ..reading import Spot
from ..vocabulary.lexicon import Lexicon

_TO_LEAVES = ("shorten", "pinch")  # works that go back to so many leaves where no other number is named


def leaving(before: Clause, clause: Clause, lexicon: Lexicon) -> bool:
    """ "nip out the tips, leaving two leaves on each", "..., left two leaves on each": how far the cut before goes."""
    if not before.work or len(clause.work) != 1:
        return False
    last, left = before.work[-1], clause.work[0]
    counted = left.work == "leave" and left.spot == Spot(count=left.spot.count) and last.work in _TO_LEAVES
    if counted and left.spot.count and left.done == DONE:  # "cut the shoots back, left three on each"
        left = replace(left, spot=Spot(), measures={"leaves": left.spot.count})
    elif not clause.leaving:
        return False
    if lexicon.works.get(last.work or "", {}).get("group") != "cutting":
        return False
    if _elsewhere(last.spot, left.spot) or {name for name in left.measures if name in last.measures}:
        return False  # "took the top off, left two leaves on the low branch"
    past = left.done == DONE and last.done == NOW and before.mood is not None and before.mood.open
    spot = replace(last.spot, part=last.spot.part or left.spot.part)
    measures = {**last.measures, **left.measures}
    before.work[-1] = replace(last, spot=spot, measures=measures, done=DONE if past else last.done)
    before.facts += clause.facts
    return True


def _elsewhere(cut: Spot, left: Spot) -> bool:
    """Whether what is left is told of a place that the cut did not name."""
    pairs = ((cut.side, left.side), (cut.level, left.level), (cut.ordinal, left.ordinal))
    return any(theirs is not None and theirs != ours for ours, theirs in pairs)
