"""Numbers beside work that are of more, or of something else, than the place they stand with."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..vocabulary.lexicon import Lexicon

_BREAKS = ("SEP", "DATE", "MEANS")


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


def bare_gauges(clauses: Sequence[Clause], found: Found, lexicon: Lexicon) -> None:
    """ "Wired the first left with 2.5 and the top with 2": what wire is told by, in millimetres."""
    table, wired = lexicon.numbers["bare_after"], False
    for clause in clauses:
        wired = any(work.work in table["by_gauge"] for work in clause.work) if clause.work else wired
        first, end = clause.span
        for link, token, behind in zip(found.tokens, found.tokens[1:], (*found.tokens[2:], None), strict=False):
            ends = behind is None or behind.first >= end or behind.kind in _BREAKS
            if not (first <= link.first < end and link.kind == "WITH" and token.kind == "NUM" and ends and wired):
                continue
            thick = float(token.value)
            if not 0 < thick <= table["wire_most_mm"]:
                continue
            clause.series = [one for one in clause.series if one != ("count", token.value)]
            if clause.work:
                last = clause.work[-1]
                clause.work[-1] = replace(last, measures={**last.measures, "diameter_mm": thick})
            elif clause.phrase is not None:
                clause.measures["diameter_mm"] = thick
                clause.phrase.numbers = [number for number in clause.phrase.numbers if number != token.value]


def _only_a_place(clause: Clause) -> bool:
    phrase = clause.phrase
    told = clause.work or clause.facts or clause.measures or clause.candidates or clause.topic
    if phrase is None or told or clause.kind != "observe" or phrase.numbers:
        return False
    return bool(phrase.side or phrase.level or phrase.ordinal)
