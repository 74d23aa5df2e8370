"""Amounts said before their place, behind work on another one: "wired the trunk with 5 mm, 2 mm on the branches"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Spot, Work
from ..vocabulary.lexicon import Lexicon

_LISTED = frozenset({"and", ",", "pause"})
_PLACED = {"SIDE": "side", "LEVEL": "level", "ORD": "ordinal", "PART": "part"}
_SMALL = frozenset({"DET", "POSS", *_PLACED})


def amounts_first(clauses: Sequence[Clause], found: Found, lexicon: Lexicon) -> None:
    """The work of the clause before once more, at each place that comes with an amount of its own; where the work named
    no place and no amount, it was this."""
    told: Clause | None = None  # the clause whose work goes on
    for clause in clauses:
        if clause.kind in ("decide", "may", "remind") and clause.work and not clause.figure:
            told = clause
            continue
        first = told.work[-1] if told is not None else None
        if told is None or first is None or not _bare(clause):
            told = None
            continue
        start, end = clause.span
        work = _again(first, [token for token in found.tokens if start <= token.first < end], clause, lexicon)
        if work is None:
            told = None
            continue
        if first.spot == Spot() and not first.measures:
            told.work[-1] = replace(work, span=first.span)
        else:
            told.work.append(work)
        clause.taken, clause.acts, clause.phrase = True, [], None
        clause.candidates, clause.measures, clause.series = [], {}, []


def _bare(clause: Clause) -> bool:
    told = clause.work or clause.facts or clause.topic or clause.denied or clause.when or clause.tells
    return clause.kind == "observe" and not told and set(clause.joined) <= _LISTED


def _again(first: Work, tokens: Sequence[Token], clause: Clause, lexicon: Lexicon) -> Work | None:
    """The work at the place that these words name, with its amount; None where they are of another form."""
    at = next((n for n, token in enumerate(tokens) if token.kind == "AT"), None)
    if at is None or not tokens[at + 1 :] or not {token.kind for token in tokens[at + 1 :]} <= _SMALL:
        return None
    place = {_PLACED[t.kind]: t.value for t in tokens[at + 1 :] if t.kind in _PLACED}
    spot = Spot(**{**{"part": first.spot.part}, **place}) if place else Spot()
    size = _amount(first, tokens[:at], clause, lexicon)
    if not size or not place or spot == replace(first.spot, count=None):
        return None
    return replace(first, spot=spot, measures={**first.measures, **size}, span=clause.span)


def _amount(first: Work, tokens: Sequence[Token], clause: Clause, lexicon: Lexicon) -> dict[str, float]:
    kinds = [token.kind for token in tokens]
    if kinds in (["MEASURE"], ["MEASURE", "MEANS"]):
        value = tokens[0].value
        if value.bare != "length":
            return dict(clause.measures)
        thick = "diameter_mm" if first.work in lexicon.numbers.get("bare_after", {}).get("thick", ()) else None
        name = next((name for name in first.measures if name.endswith("_mm")), thick)
        return {name: value.number} if name else {}
    counted = next((name for name in first.measures if name in lexicon.amount.values()), None)
    if kinds == ["NUM"] and counted is not None:
        return {counted: float(tokens[0].value)}
    return {}
