"""A wished work in one span of days, and what hangs on the days: its value, and the works that follow of themselves."""

from __future__ import annotations

import datetime as dt

from benchmate.hearing.reading import Spot
from benchmate.planning.tuning import Tuning
from benchmate.planning.wishes import Wish
from benchmate.planning.world import World
from benchmate.practice.target import Target
from benchmate.value import dataclass

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


def dated(one: Candidate, opens: dt.date, closes: dt.date, world: World, tuning: Tuning) -> Candidate:
    """The candidate with other days, and what hangs on them."""
    bounds = world.planning.bounds
    years = (opens - world.on).days / 365.25
    weighed = 1 + float(bounds["weight_share"]) * max(-5, min(5, one.weight))
    value = round(1000 * one.wish.worth * float(bounds["year_keeps"]) ** years * weighed)
    later = []
    for then in one.wish.then:
        low, high = tuning.lengths[then.days] if isinstance(then.days, str) else then.days
        spot = Spot(then.part or one.spot.part, one.spot.side, one.spot.level, one.spot.ordinal)
        days = (opens + dt.timedelta(days=low), closes + dt.timedelta(days=high))
        later.append(Later(then.work, spot, max(days[0], closes + _DAY), max(days[1], closes + _DAY), then.says))
    return Candidate(
        one.wish, one.spot, opens, closes, one.stage, one.season, value, one.weight, one.taken, one.hoped, tuple(later)
    )
