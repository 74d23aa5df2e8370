"""Days that a spoken date means: "2026-03" and "2026-spring" are spans, and a record wants a day."""

from __future__ import annotations

import datetime as dt

from benchmate.fault import UserError
from benchmate.hearing.reading import Reading

_SEASON_START = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}


def first_day(when: str, southern: bool = False) -> dt.date | None:
    """The first day of an ISO date, month or year, or of a season ("2026-spring"); None where it is none of these."""
    span = span_of(when, southern)
    return span[0] if span else None


def last_day(when: str, southern: bool = False) -> dt.date | None:
    """The last day of an ISO date, month, year or season: for what is past, the day that makes it the most recent."""
    span = span_of(when, southern)
    return span[1] if span else None


def span_asked(reading: Reading, on: dt.date, southern: bool = False) -> tuple[dt.date, dt.date] | None:
    """First and last day that a question about the record means, today at the latest ("since March": from then on)."""
    span = span_of(reading.when, southern) if reading.when else None
    if span is None:
        return None
    return span[0], on if reading.onward else min(span[1], on)


def span_of(when: str, southern: bool = False) -> tuple[dt.date, dt.date] | None:
    """First and last day of what a reading's `when` names, or of an ISO interval of days. A season has three months;
    one that runs over the new year is named by the year in which it begins.

    >>> span_of("2026-summer")
    (datetime.date(2026, 6, 1), datetime.date(2026, 8, 31))
    """
    try:
        if "/" in when:
            first, last = when.split("/")
            return dt.date.fromisoformat(first), dt.date.fromisoformat(last)
        head, _, rest = when.partition("-")
        year = int(head)
        if not rest:
            return dt.date(year, 1, 1), dt.date(year, 12, 31)
        if rest.isalpha():
            month = _SEASON_START[rest]
            month = (month + 5) % 12 + 1 if southern else month
            start = dt.date(year, month, 1)
            return start, _month_after(start, 3) - dt.timedelta(days=1)
        if "-" in rest:
            day = dt.date.fromisoformat(when[:10])
            return day, day
        start = dt.date(year, int(rest), 1)
        return start, _month_after(start, 1) - dt.timedelta(days=1)
    except (ValueError, KeyError):
        return None


def _month_after(day: dt.date, months: int) -> dt.date:
    count = day.year * 12 + day.month - 1 + months
    return dt.date(count // 12, count % 12 + 1, 1)


def today_of(words: str | None) -> dt.date:
    """The day of `--on`, or today. Raises UserError for what is no day."""
    if words is None:
        return dt.date.today()
    try:
        if len(words) != 10:
            raise ValueError
        return dt.date.fromisoformat(words)
    except ValueError:
        raise UserError(f"--on {words!r} is no day of the calendar; write it as 2026-06-14") from None
