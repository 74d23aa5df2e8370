"""A day that belongs to words which no sentence took in ("I spent the weekend at my sister's") dates nothing else."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .reading import Spot
from .search import Found


def drop_lost_days(clauses: Sequence[Clause], found: Found) -> None:
    """Take the day from each clause that is only a day, where words between the same two breaks were passed over."""
    breaks = [token for token in found.tokens if token.kind == "SEP" and token.end > token.first]
    for clause in clauses:
        if clause.when is None or clause.kind != "observe" or _says_more(clause):
            continue
        first, end = clause.span
        start = max((token.end for token in breaks if token.end <= first), default=0)
        stop = min((token.first for token in breaks if token.first >= end), default=len(found.marks))
        if "missed" in found.marks[start:stop]:
            clause.when, clause.onward = None, False


def _says_more(clause: Clause) -> bool:
    """Whether a clause says anything beside its day."""
    placed = clause.phrase is not None and clause.phrase.spot() != Spot()
    return placed or bool(clause.facts or clause.work or clause.measures or clause.candidates or clause.tree)
