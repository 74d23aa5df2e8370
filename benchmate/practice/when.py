"""The days that a spoken time spans: "2026-03" is a month, "2026-spring" a season of the garden's hemisphere."""

from __future__ import annotations

import calendar
import datetime as dt

from benchmate.hearing.reading import Reading

_SAME_WEATHER = dt.timedelta(days=2)  # for so long the weather that is said still counts
_SEASON_MONTHS = {"winter": 12, "spring": 3, "summer": 6, "autumn": 9, "fall": 9}


def span_of(when: str | None, on: dt.date, southern: bool = False) -> tuple[dt.date, dt.date]:
    """First and last day of a time as a reading carries it; no later than `on`. No time at all is any day up to `on`.

    >>> span_of("2026-02", dt.date(2026, 6, 1))
    (datetime.date(2026, 2, 1), datetime.date(2026, 2, 28))
    """
    if not when:
        return dt.date.min, on
    first, last = _span(when, southern)
    return min(first, on), min(last or on, on)


def first_day(when: str, southern: bool = False) -> dt.date | None:
    """The first day of a time, also of one to come."""
    return _span(when, southern)[0]


def _span(when: str, southern: bool) -> tuple[dt.date, dt.date | None]:
    head, _, rest = when.partition("-")
    year = int(head)
    if not rest:
        return dt.date(year, 1, 1), dt.date(year, 12, 31)
    if rest in _SEASON_MONTHS:
        return _season(year, rest, southern)
    if rest == "season":
        return dt.date(year - 1, 11, 1), None
    if len(rest) == 2:
        return _month(year, int(rest))
    day = dt.date.fromisoformat(when[:10])
    return day, day


def _month(year: int, month: int) -> tuple[dt.date, dt.date]:
    return dt.date(year, month, 1), dt.date(year, month, calendar.monthrange(year, month)[1])


def _season(year: int, name: str, southern: bool) -> tuple[dt.date, dt.date]:
    month = _SEASON_MONTHS[name]
    if southern:
        month = (month + 5) % 12 + 1
    # a season that runs over the new year is named by the year in which it begins
    return dt.date(year, month, 1), _month(year + (month + 1) // 12, (month + 1) % 12 + 1)[1]


def weather_then(reading: Reading, on: dt.date, day: dt.date) -> bool:
    """Whether the weather that is said is that of the day meant: work that comes again is done in it ("every day in the
    frost"), and so is work of the next days."""
    told = "temperature_c" in reading.measures or any(fact.kind == "weather" for fact in reading.facts)
    return told and (reading.every > 0 or day - on <= _SAME_WEATHER)
