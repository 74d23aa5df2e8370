"""How many there are, where each is then told: "wired two branches, low left and low right"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from benchmate.value import replace

from .clauses import Clause


def counted_places(clauses: Sequence[Clause]) -> None:
    """As many places behind work as it counted: the number is of all of them, and not of the first."""
    for at, clause in enumerate(clauses):
        if not clause.work or clause.kind != "decide":
            continue
        work = clause.work[-1]
        spot = work.spot
        if not spot.count or spot.count < 2 or spot.side or spot.level or spot.ordinal:
            continue
        places = list(takewhile(_only_a_place, clauses[at + 1 :]))
        if len(places) == spot.count:
            clause.work[-1] = replace(work, spot=replace(spot, count=None))


def _only_a_place(clause: Clause) -> bool:
    phrase = clause.phrase
    told = clause.work or clause.facts or clause.measures or clause.candidates or clause.topic
    if phrase is None or told or clause.kind != "observe" or phrase.numbers:
        return False
    return bool(phrase.side or phrase.level or phrase.ordinal)
