"""Where along a leader or a trunk a cut was made: "cut the leader off above the third branch"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .clauses import Clause
from .lexicon import Lexicon
from .search import Found
from .spotting import Token

_PLACE = ("side", "level", "ordinal", "count")  # what may be the branch's


def cut_at_branch(clauses: Sequence[Clause], found: Found, lexicon: Lexicon) -> None:
    """A leader taken off at a branch is cut back to it: the number and the side are the branch's, not the leader's."""
    table = lexicon.sense["cut_at"]
    for clause in clauses:
        if not clause.work or clause.work[-1].work not in table["works"]:
            continue
        work = clause.work[-1]
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        at = next((n for n, token in enumerate(tokens) if token.kind in ("AT", "OVER")), None)
        if at is None or work.spot.part not in table["parts"]:
            continue
        told = any(token.kind == "PART" and token.value == work.spot.part for token in tokens[:at])
        where = [token for token in tokens[at + 1 :] if token.kind == "PART"]
        if not told or not where or where[0].value not in table["branches"]:
            continue
        own = _said(tokens[:at])
        spot = replace(work.spot, **{name: getattr(work.spot, name) if name in own else None for name in _PLACE})
        clause.work[-1] = replace(work, work=table["works"][work.work], spot=spot)


def _said(tokens: Sequence[Token]) -> set[str]:
    kinds = {"SIDE": "side", "LEVEL": "level", "ORD": "ordinal", "NUM": "count"}
    return {kinds[token.kind] for token in tokens if token.kind in kinds}
