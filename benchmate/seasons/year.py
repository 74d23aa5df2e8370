"""The year of a place: which half of the globe, and the two frost dates that its trees live by."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Any

from benchmate.garden.record import Place
from benchmate.value import dataclass

MonthDay = tuple[int, int]
Tables = Mapping[str, Any]
# a common year: month-days are turned into days of it, and back
_COMMON = 2001
_HALF = 183


@dataclass(frozen=True, slots=True)
class Year:
    """How the year turns at a place.

    spring, autumn: month-days that stand for the end and the start of the cold season, both None where there is no cold
    season or nothing is known of the place. frost: whether the place has frost.
    """

    spring: MonthDay | None
    autumn: MonthDay | None
    frost: bool
    southern: bool

    def cycles(self, on: dt.date) -> Iterator[tuple[dt.date, dt.date]]:
        """Spring and following autumn dates of the growing years around a day, oldest first: two back and two ahead."""
        if self.spring is None or self.autumn is None:
            return
        for number in range(on.year - 2, on.year + 3):
            if dt.MINYEAR <= number < dt.MAXYEAR:
                spring = day_in(number, self.spring)
                yield spring, on_or_after(self.autumn, spring)


def year_of(place: Place, tables: Tables) -> Year:
    """The year by which the trees of a place live. Frost dates of mild places are drawn in to the bounds of
    `frost.toml`; a place beyond the tropics without frost takes those bounds, one in the tropics has no cold season."""
    table = tables["frost"]
    south = is_southern(place)
    last, first = frost_dates(place, tables)
    earliest, latest = month_day(table["mild"]["last_frost"]), month_day(table["mild"]["first_frost"])
    if last is None or first is None:
        if place.latitude is None or abs(place.latitude) < table["tropics"]["latitude"]:
            return Year(None, None, False, south)
        return Year(turned(earliest, south), turned(latest, south), False, south)
    # in days of the northern year: a last frost in autumn is an early one, a first frost in spring a late one
    spring, autumn = _ordinal(turned(last, south)), _ordinal(turned(first, south))
    spring = _ordinal(earliest) if spring > 365 - _HALF // 2 else max(spring, _ordinal(earliest))
    autumn = _ordinal(latest) if autumn < _HALF // 2 else min(autumn, _ordinal(latest))
    return Year(turned(_month_day(spring), south), turned(_month_day(autumn), south), True, south)


def frost_dates(place: Place, tables: Tables) -> tuple[MonthDay | None, MonthDay | None]:
    """Mean last and first frost. One that is not known is taken to lie as far from midsummer as the other."""
    last, first = place.last_frost, place.first_frost
    if (last is None) == (first is None):
        return last, first
    summer = _ordinal(turned(month_day(tables["frost"]["midsummer"]["day"]), is_southern(place)))
    known = _ordinal(last or first or (1, 1))
    mirrored = _month_day(2 * summer - known)
    return (last or mirrored), (first or mirrored)


def is_southern(place: Place) -> bool:
    """By the latitude, else by which half of the year the known frost dates fall in."""
    if place.latitude is not None:
        return place.southern
    if place.last_frost:
        return place.last_frost[0] > 7
    return bool(place.first_frost and place.first_frost[0] < 7)


def month_day(text: str) -> MonthDay:
    """A month-day as rule files write it.

    >>> month_day("04-25")
    (4, 25)
    """
    month, day = text.split("-")
    return int(month), int(day)


def turned(day: MonthDay, southern: bool) -> MonthDay:
    """A northern month-day as the south has it, or the other way round: six months on.

    >>> turned((8, 31), True)
    (2, 28)
    """
    if not southern:
        return day
    month = (day[0] + 5) % 12 + 1
    return month, day_in(_COMMON, (month, day[1])).day


def day_in(year: int, day: MonthDay) -> dt.date:
    """The month-day in a year, or the month's last day where it has no such day."""
    for number in range(day[1], day[1] - 4, -1):
        try:
            return dt.date(year, day[0], number)
        except ValueError:
            continue
    raise ValueError(f"month {day[0]}, day {day[1]} is in no year")


def on_or_after(day: MonthDay, on: dt.date) -> dt.date:
    """The next such month-day, `on` itself counted."""
    this = day_in(on.year, day)
    return this if this >= on or on.year == dt.MAXYEAR else day_in(on.year + 1, day)


def before(day: MonthDay, on: dt.date) -> dt.date:
    """The latest such month-day that lies before `on`."""
    this = day_in(on.year, day)
    return this if this < on or on.year == dt.MINYEAR else day_in(on.year - 1, day)


def _ordinal(day: MonthDay) -> int:
    return day_in(_COMMON, day).timetuple().tm_yday


def _month_day(ordinal: int) -> MonthDay:
    day = dt.date(_COMMON, 1, 1) + dt.timedelta(days=(ordinal - 1) % 365)
    return day.month, day.day
