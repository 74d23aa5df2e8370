"""Which of the days that a statement names is the one of its work, and which that of a reminder."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause
from .doing import LATER


def planned(clauses: Sequence[Clause]) -> str | None:
    """ "I'll repot it in March, remind me to order akadama": when what is planned is meant, not the reminder."""
    if not any(clause.kind == "remind" for clause in clauses):
        return None
    plans = [c for c in clauses if c.kind == "decide" and c.when and any(work.done == LATER for work in c.work)]
    return plans[0].when if plans else None


def dated_clauses(clauses: Sequence[Clause]) -> list[Clause]:
    """The clauses that name a day, the one that counts first: since when something has been so is no day of the work
    that is told behind it ("it's out since last week, feed it on Sunday")."""
    dated = [clause for clause in clauses if clause.when]
    if planned(clauses) and any(clause.kind == "remind" for clause in dated):
        dated = [clause for clause in dated if clause.kind == "remind"]
    since = bool(dated) and dated[0].onward and not dated[0].work
    return dated[1:] if since and any(clause.work for clause in dated[1:]) else dated
