"""A wished work in one span of days, and what hangs on the days: its value, and the works that follow of themselves."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from benchmate.hearing.reading import Spot
from benchmate.planning.tuning import Tuning
from benchmate.planning.wishes import Wish
from benchmate.planning.world import World
from benchmate.practice.places import spots_meet
from benchmate.practice.target import Target
from benchmate.value import dataclass, replace

_DAY = dt.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Later:
    """Work that follows of itself from a candidate."""

    work: str
    spot: Spot
    opens: dt.date
    closes: dt.date
    says: str


@dataclass(frozen=True, slots=True)
class Candidate:
    """One wished work in one span of days, equal to itself alone.

    value: what it adds to the plan, later spans less. season: first day of the part of the year that it is the work of.
    taken: facts taken to hold by then. hoped: they rest on the tree having mended.
    """

    wish: Wish
    spot: Spot
    opens: dt.date
    closes: dt.date
    stage: str
    season: dt.date
    value: int
    weight: int = 0
    taken: tuple[tuple[str, str], ...] = ()
    hoped: bool = False
    later: tuple[Later, ...] = ()

    __eq__ = object.__eq__
    __hash__ = object.__hash__

    @property
    def key(self) -> tuple[str, Spot]:
        return self.wish.id, self.spot

    @property
    def target(self) -> Target:
        measures = {"share": self.wish.share} if self.wish.share is not None else {}
        return Target(self.wish.work, self.spot, measures, self.wish.manner)


def same_work(one: Candidate, other: Candidate, places: Mapping[str, Any]) -> bool:
    """Whether two candidates are the same work in the same manner at places that may be one."""
    if one.key == other.key:
        return True
    alike = one.wish.work == other.wish.work and one.wish.manner == other.wish.manner
    return alike and spots_meet(one.spot, other.spot, places)


def value_on(wish: Wish, opens: dt.date, weight: int, world: World) -> int:
    """What a wish adds to a plan from a day on: its worth, less for each year that it waits, more or less by what the
    rules say of the time. Work that is overdue is worth more, and loses more by waiting."""
    bounds = world.planning.bounds
    late = overdue(wish, world)
    worth = wish.worth * (float(bounds["overdue_worth"]) if late else 1.0)
    keeps = float(bounds["overdue_keeps" if late else "year_keeps"])
    weighed = 1 + float(bounds["weight_share"]) * max(-5, min(5, weight))
    waited = float(keeps ** ((opens - world.on).days / 365.25))
    return max(1, round(1000 * worth * waited * weighed))


def overdue(wish: Wish, world: World) -> bool:
    """Whether the work was last done, or the tree came, so long ago that it should have been done by now."""
    days = [done.last for done in world.today.done if done.work == wish.work and not done.denied]
    since = max(days, default=world.tree.since)
    return wish.due_days > 0 and since is not None and (world.on - since).days >= wish.due_days


def dated(one: Candidate, opens: dt.date, closes: dt.date, world: World, tuning: Tuning) -> Candidate:
    """The candidate with other days, and what hangs on them."""
    later = []
    for then in one.wish.then:
        low, high = tuning.lengths[then.days] if isinstance(then.days, str) else then.days
        spot = Spot(then.part or one.spot.part, one.spot.side, one.spot.level, one.spot.ordinal)
        days = (opens + dt.timedelta(days=low), closes + dt.timedelta(days=high))
        later.append(Later(then.work, spot, max(days[0], closes + _DAY), max(days[1], closes + _DAY), then.says))
    value = value_on(one.wish, opens, one.weight, world)
    return replace(one, opens=opens, closes=closes, value=value, later=tuple(later))
