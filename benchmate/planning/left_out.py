"""What the phase asks for and the plan does not hold, with what stands against it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.planning.candidates import Chances
from benchmate.planning.plan import LeftOut
from benchmate.practice.advice import Reason

if TYPE_CHECKING:
    from benchmate.planning.lay import Layout

_MOST = 2


def left_out(layout: Layout) -> tuple[LeftOut, ...]:
    """Wishes without an item, the weightiest first."""
    held = {one.key for one in layout.chosen}
    rows = [row for row in layout.every if (row.wish.id, row.spot) not in held]
    rows.sort(key=lambda row: (-row.wish.worth, row.wish.id))
    return tuple(LeftOut(r.wish.id, r.wish.work, r.wish.aim, why_not(r, layout)[:_MOST], r.spot) for r in rows)


def why_not(row: Chances, layout: Layout) -> tuple[Reason, ...]:
    """What stands against the best chance, else against the days that were closed altogether."""
    for chance in sorted(row.candidates, key=lambda one: (-one.value, one.opens)):
        found = [layout.judge.told(one) for one in layout.judge.breaks(chance, layout.chosen)]
        return tuple(dict.fromkeys(found)) or (_own("outweighed", layout),)
    reasons: dict[Reason, int] = {}
    for closed in row.closed:
        for reason in closed.against:
            reasons[reason] = reasons.get(reason, 0) + (closed.closes - closed.opens).days + 1
    if reasons:
        return tuple(sorted(reasons, key=lambda reason: -reasons[reason]))
    return (_own("no-window", layout) if not row.windows else _own("unwise", layout),)


def _own(kind: str, layout: Layout) -> Reason:
    table = layout.world.planning.bounds["says"][kind]
    return Reason(f"plan-{kind}", str(table["says"]), table.get("source"), str(table.get("mark") or "published"))
