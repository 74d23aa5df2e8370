"""The calendar as one tree at one place meets it: frost, growth stages, seasons, months turned for the south."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from benchmate.garden.record import Place

_DAY = dt.timedelta(days=1)
_SIX_WEEKS = dt.timedelta(days=42)


@dataclass(frozen=True, slots=True)
class Almanac:
    """Dates for one tree at one place, as of `on`. traits: the taxon's cells, by which stages fall earlier or later."""

    on: dt.date
    place: Place
    traits: Mapping[str, Any] = field(default_factory=dict)
    seasons: Mapping[str, Any] = field(default_factory=dict)

    def between(self, first: str, last: str, on: dt.date | None = None) -> bool:
        """Whether the day lies from one month-day to another, both counted, given for the north and turned for the
        south. A span may run over the new year."""
        day = on or self.on
        start, end = self._turned(first), self._turned(last)
        here = (day.month, day.day)
        return start <= here <= end if start <= end else here >= start or here <= end

    def _turned(self, month_day: str) -> tuple[int, int]:
        month, day = (int(part) for part in month_day.split("-"))
        return ((month + 5) % 12 + 1, day) if self.place.southern else (month, day)

    def next_date(self, month_day: str, after: dt.date | None = None) -> dt.date:
        """The next such day, on or after `after`, turned for the south."""
        return _next(self._turned(month_day), after or self.on)

    def frost_days(self, on: dt.date | None = None) -> float:
        """Days to the mean first autumn frost, infinite at a place that has none.

        For six weeks from the first frost on it is zero: late growth is still caught by it. Then the next year's
        counts.
        """
        day = on or self.on
        if self.place.first_frost is None:
            return math.inf
        coming = _next(self.place.first_frost, day)
        gone = _next(self.place.first_frost, day - _SIX_WEEKS)
        return 0.0 if gone < day else float((coming - day).days)

    def spring_frost_days(self, on: dt.date | None = None) -> float:
        """Days to the mean last spring frost; zero from then until the first frost of autumn, and where there is
        none."""
        day = on or self.on
        if self.place.last_frost is None:
            return 0.0
        coming = _next(self.place.last_frost, day)
        first = self.place.first_frost
        if first and _next(first, day) < coming:
            return 0.0
        return float((coming - day).days)

    def first_frost(self, after: dt.date | None = None) -> dt.date | None:
        return _next(self.place.first_frost, after or self.on) if self.place.first_frost else None

    def season_start(self, on: dt.date | None = None) -> dt.date:
        """First day of the growing season that a day belongs to: work done while the tree was dormant belongs to the
        season that follows. 1 November in the north, 1 May in the south; at a place without frost a year back."""
        day = on or self.on
        if self.place.first_frost is None and self.place.last_frost is None and abs(self.place.latitude or 90) < 23.5:
            return day - dt.timedelta(days=365)
        start = (5, 1) if self.place.southern else (11, 1)
        return _next(start, day + _DAY).replace(year=_next(start, day + _DAY).year - 1)

    def next_season(self, on: dt.date | None = None) -> dt.date:
        """When the next growing season's work may begin."""
        day = on or self.on
        start = self.season_start(day)
        return _year_on(start)

    def next_stage(self, stage: str, after: dt.date) -> dt.date | None:
        """When the tree next reaches a stage, on or after a day; None where the season cannot tell."""
        return None

    def next_window(self, window: object, after: dt.date) -> dt.date | None:
        """When a taxon's own window (stages, or names such as "warm-season") next opens."""
        return None

    def day_length_h(self, on: dt.date | None = None) -> float | None:
        if self.place.latitude is None:
            return None
        from benchmate.reckoning.sun import day_length

        return float(day_length(self.place.latitude, (on or self.on).timetuple().tm_yday))


def _next(month_day: tuple[int, int], after: dt.date) -> dt.date:
    for year in (after.year, after.year + 1):
        day = _date(year, *month_day)
        if day >= after:
            return day
    return _date(after.year + 1, *month_day)


def _date(year: int, month: int, day: int) -> dt.date:
    try:
        return dt.date(year, month, day)
    except ValueError:  # 29 February in a common year, 31 in a month of 30
        return dt.date(year, month + 1, 1) - _DAY if month < 12 else dt.date(year, 12, 31)


def _year_on(day: dt.date) -> dt.date:
    return _date(day.year + 1, day.month, day.day)
