"""Dates in plain words."""

from __future__ import annotations

import datetime as dt

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def day_words(day: dt.date, near: dt.date | None = None) -> str:
    """A date in words: "20 August", with the year unless it is that of `near`.

    >>> day_words(dt.date(2026, 8, 20), dt.date(2026, 6, 1))
    '20 August'
    """
    words = f"{day.day} {MONTHS[day.month - 1]}"
    return words if near is not None and near.year == day.year else f"{words} {day.year}"


def day_of(text: str | dt.date | None) -> dt.date | None:
    """The day that ISO text names, or None where it names none."""
    if isinstance(text, dt.date):
        return text
    try:
        return dt.date.fromisoformat(text[:10]) if text else None
    except ValueError:
        return None


def when_words(when: str, near: dt.date | None = None) -> str:
    """An ISO date, month, year or season in words: "2026-03" is "March 2026", "2026-spring" "spring 2026"."""
    if "/" in when:
        return interval_words(when, near)
    year, _, rest = when.partition("-")
    if not rest:
        return year
    if rest.isalpha():
        return f"{rest} {year}"
    try:
        if "-" in rest:
            return day_words(dt.date.fromisoformat(when[:10]), near)
        return f"{MONTHS[int(rest) - 1]} {year}"
    except (ValueError, IndexError):
        return when


def interval_words(when: str, near: dt.date | None = None) -> str:
    """An ISO interval of days in words.

    >>> interval_words("2026-06-01/2026-06-07", dt.date(2026, 6, 14)), interval_words("2026-05-30/2026-06-05")
    ('1 to 7 June', '30 May 2026 to 5 June 2026')
    """
    first, last = (dt.date.fromisoformat(day) for day in when.split("/"))
    if first == last:
        return day_words(first, near)
    start = str(first.day) if (first.year, first.month) == (last.year, last.month) else day_words(first, near)
    return f"{start} to {day_words(last, near)}"


def within_words(when: str, near: dt.date | None = None) -> str:
    """The time with the word that goes before it: "on 14 March", "in spring 2027", "from 1 to 7 June"."""
    if "/" in when and when.partition("/")[0] != when.partition("/")[2]:
        return f"from {when_words(when, near)}"
    return f"{'on' if '/' in when or when.count('-') > 1 else 'in'} {when_words(when, near)}"


def span_words(days: int) -> str:
    """Days from today: "today", "tomorrow", "in 3 weeks", "5 days ago"."""
    if abs(days) < 2:
        return ("today", "tomorrow", "yesterday")[days]
    size = abs(days)
    steps = ((14, 1, "days"), (90, 7, "weeks"), (730, 30.4, "months"), (10**9, 365.25, "years"))
    count, noun = next((round(size / unit), noun) for most, unit, noun in steps if size < most)
    return f"in {count} {noun}" if days > 0 else f"{count} {noun} ago"
