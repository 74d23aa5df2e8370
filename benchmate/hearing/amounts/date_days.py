"""Single days: named ones, weekdays, days of a month and feasts: "Tuesday week", "on the 20th", "Good Friday"."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from .date_words import DateWords, When, add_months, days_of, longest_of, nearest, valid, year_at
from .values import spot_values

_ORDINAL_DAY = re.compile(r"(\d\d?)(?:st|nd|rd|th)$")
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})$")
_DAY_OF_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?$")
_DAY_AND_MONTH = re.compile(r"(\d{1,2})/(\d{1,2})$")
_SATURDAY, _WEEK = 5, 7
_LAST = -1  # the last of its month


def _iso(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    if match := _ISO.match(words[at]):
        year, month, number = (int(part) for part in match.groups())
        if day := valid(year, month, number):
            yield _day(at + 1, day)


def _day(end: int, day: dt.date) -> When:
    return When(end, day.isoformat(), day.isoformat())


def _named_day(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the day before yesterday", "this morning", "tomorrow week"."""
    if end := dw.match("next_morning", words, at):
        yield When(end, dw.on.isoformat(), (dw.on + dt.timedelta(days=1)).isoformat())
    if found := longest_of(dw.day, words, at):
        day = dw.on + dt.timedelta(days=found[0])
        yield _day(found[1], day)
        if (span := _span_behind(dw, words, found[1])) and found[0] >= 0:
            yield _day(found[1] + 1, day + dt.timedelta(days=span))


def _span_behind(dw: DateWords, words: Sequence[str], at: int) -> int:
    """Days that a bare "week" or "fortnight" behind a day puts it off by ("Tuesday week")."""
    if at >= len(words) or dw.match("after_next", words, at + 1):
        return 0
    return int(dw.span[words[at]]) if words[at] in ("week", "fortnight") else 0


# -- weekdays


def weekday_from(on: dt.date, weekday: int, steps: int) -> dt.date:
    """A weekday from today. steps: 1 the next, 2 the next but one, -1 the last, 0 today or the next."""
    ahead = (weekday - on.weekday()) % _WEEK
    if steps < 0:
        return on - dt.timedelta(days=(_WEEK - ahead if ahead else _WEEK) - _WEEK * (steps + 1))
    return on + dt.timedelta(days=(ahead or (_WEEK if steps else 0)) + _WEEK * max(0, steps - 1))


def weekday_at(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(weekday, end) at a word; the weekend is its Saturday. A time of the day may stand behind it."""
    if at >= len(words):
        return None
    weekday = dw.weekday.get(words[at], _SATURDAY if words[at] == "weekend" else None)
    return None if weekday is None else (weekday, dw.past("hours", words, at + 1))


def _weekday(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    found = weekday_at(dw, words, at)
    if found is None:
        return
    weekday, end = found
    behind = dw.on - dt.timedelta(days=(dw.on.weekday() - weekday) % _WEEK)
    last = weekday_from(dw.on, weekday, -1) if words[at] == "weekend" else behind
    ahead = weekday_from(dw.on, weekday, 1)
    yield When(end, last.isoformat(), ahead.isoformat())
    if gone := dw.match("gone", words, end):
        yield _day(gone, weekday_from(dw.on, weekday, -1))
    if span := _span_behind(dw, words, end):
        yield _day(end + 1, ahead + dt.timedelta(days=span))


def _nth_weekday(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the second Sunday in May", "the last weekend of next month"."""
    for which, start in _which(dw, words, at):
        found = weekday_at(dw, words, start)
        month_at = dw.match("of_month", words, found[1]) if found else None
        if found is None or month_at is None or (month := months_at(dw, words, month_at)) is None:
            continue
        number, years, end = month
        past, future = nearest((nth_weekday(year, number, found[0], which) for year in years), dw.on)
        if len(years) == 1:  # "the last Sunday of next month": the words alone decide
            past = future = past or future
        if past or future:
            yield When(end, past or future, future or past)


def _which(dw: DateWords, words: Sequence[str], at: int) -> Iterator[tuple[int, int]]:
    """(number, end) of "the second" or "the last"."""
    start = at + 1 if words[at] == "the" else at
    if start >= len(words):
        return
    if words[start] in ("last", "final"):
        yield _LAST, start + 1
    for value in spot_values(dw.values, words, start):
        if value.kind == "ORD" and 1 <= value.number <= 5:
            yield int(value.number), value.end


def nth_weekday(year: int, month: int, weekday: int, which: int) -> dt.date | None:
    """The first, second, ... or last (-1) such weekday of a month."""
    first = dt.date(year, month, 1)
    days = [first.replace(day=n) for n in range(1, days_of(first) + 1)]
    those = [day for day in days if day.weekday() == weekday]
    return those[which if which < 0 else which - 1] if which < 0 or which <= len(those) else None


# -- days of a month


def months_at(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, Sequence[int], int] | None:
    """(month, years that may be meant, end) at a word: "May", "May 2024", "March of last year", "next month"."""
    if at < len(words) and words[at] in dw.month:
        month, end = dw.month[words[at]], at + 1
        if year := said_year(dw, words, end):
            return month, [year[0]], year[1]
        return month, [dw.on.year - 1, dw.on.year, dw.on.year + 1], end
    for key, months in (("last_month", -1), ("next_month", 1), ("this_month", 0)):
        if after := dw.match(key, words, at):
            day = add_months(dw.on.replace(day=1), months)
            return day.month, [day.year], after
    return None


def said_year(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(year, end) of the year said behind a month or a season: "2024", "of last year", "next year", "of '23"."""
    start = at + 1 if words[at : at + 1] == ["of"] else at
    if found := year_at(dw, words, start):
        return found
    for key, steps in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, start)
        if after is not None and words[after : after + 1] == ["year"] and after == start + 1:
            return dw.on.year + steps, after + 1
    return None


def _day_of_month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "on the 20th": the nearest such day behind and ahead."""
    lead = dw.match("day_lead", words, at)
    if lead is None or lead >= len(words):
        return
    number, end = _spoken_day(dw, words, lead)
    ends = number is None or end >= len(words) or not words[end].isalpha()
    if number is None or not (ends or dw.match("day_ends", words, end)) or _month_behind(dw, words, end):
        return  # "on the 2nd branch"; "on the 1st and the 15th of May"
    months = [add_months(dw.on.replace(day=1), step) for step in range(-3, 4)]
    past, future = nearest((valid(m.year, m.month, number) for m in months), dw.on)
    if past and future:
        yield When(end, past, future)


def _spoken_day(dw: DateWords, words: Sequence[str], at: int) -> tuple[int | None, int]:
    """A day's number that can be no branch's: "20th", "twenty first"."""
    if match := _ORDINAL_DAY.match(words[at]):
        return int(match[1]), at + 1
    spelt = [v for v in spot_values(dw.values, words, at) if v.kind == "ORD" and 10 <= v.number <= 31]
    return (int(spelt[0].number), spelt[0].end) if spelt else (None, at)


def _day_and_month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the 20th of August", "1 November", "April 4th", "the first of next month", each with or without a year."""
    start = at + 1 if words[at] == "the" and at + 1 < len(words) else at
    day, end = _day_number(dw, words, start)
    if day is not None:
        found = months_at(dw, words, dw.past("of", words, end)) or _month_behind(dw, words, end)
    elif words[start] in dw.month:
        behind = start + 2 if words[start + 1 : start + 2] == ["the"] else start + 1
        day, end = _day_number(dw, words, behind) if behind < len(words) else (None, behind)
        year = year_at(dw, words, end)
        years = [year[0]] if year else [dw.on.year - 1, dw.on.year, dw.on.year + 1]
        found = (dw.month[words[start]], years, year[1] if year else end)
    else:
        return
    if day is None or found is None:
        return
    month, years_meant, end = found
    if (
        words[end - 1] == "month" and end > start + 1 and words[end - 2] not in ("next", "last")
    ):  # "the 1st of the month": the nearest
        around = [add_months(dw.on.replace(day=1), step) for step in (-1, 0, 1)]
        past, future = nearest((valid(one.year, one.month, day) for one in around), dw.on)
    else:
        past, future = nearest((valid(year, month, day) for year in years_meant), dw.on)
    if len(years_meant) == 1:
        past, future = past or future, future or past
    if past and future:
        yield When(end, past, future)


def _month_behind(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, Sequence[int], int] | None:
    """The month that stands behind another day: "the 1st (and the 15th of May)". A range is one time ("3 to 10 May"),
    of two days the second is left to be read."""
    through, other = dw.match("through", words, at), dw.match("day_and", words, at)
    day, end = _day_number(dw, words, dw.past("the", words, through or other or len(words)))
    found = months_at(dw, words, dw.past("of", words, end)) if day is not None else None
    return (found[0], found[1], found[2] if through else at) if found else None


def _day_number(dw: DateWords, words: Sequence[str], at: int) -> tuple[int | None, int]:
    if at < len(words) and (match := _DAY_OF_MONTH.match(words[at])) and 1 <= int(match[1]) <= 31:
        return int(match[1]), at + 1
    if at < len(words):
        for value in spot_values(dw.values, words, at):
            if value.kind == "ORD" and 1 <= value.number <= 31:
                return int(value.number), value.end
    return None, at


def _numeric(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "on 20/5", "on 5/20/2026": only where no other order of day and month could be meant."""
    match = _DAY_AND_MONTH.match(words[at])
    if match is None or at == 0 or words[at - 1] not in ("on", "by", "until", "since", "before", "from", "of", "till"):
        return
    one, other = int(match[1]), int(match[2])
    if one != other and (one > 12) == (other > 12):
        return
    day, month, end = max(one, other), min(one, other), at + 1
    years: Sequence[int] = [dw.on.year - 1, dw.on.year, dw.on.year + 1]
    if words[end : end + 1] == ["/"] and end + 1 < len(words) and words[end + 1].isdigit():
        years, end = [int(words[end + 1]) % 2000 + 2000], end + 2
    past, future = nearest((valid(year, month, day) for year in years), dw.on)
    if past or future:
        yield When(end, past or future, future or past)


# -- feasts


def _feast(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "Good Friday", "Christmas", "the August bank holiday", "the shortest day"."""
    start = at + 1 if words[at] == "the" else at
    found = longest_of(dw.feast, words, start)
    led = at > 1 and words[at - 1] == "the" and dw.match("lead", words, at - 2) is not None
    if found is None or (found[0].get("alone") and not led and "the" in (words[at], *words[at - 1 : at])):
        return
    cell, end = found
    if words[end : end + 1] == ["day"] and (*words[start:end], "day") not in dw.feast and "on" in cell:
        end += 1
    if "any" not in cell and (year := said_year(dw, words, end)):
        day = feast_day(cell, year[0], dw.southern)
        yield _day(year[1], day)
    cells = [dw.feast[tuple(name.split())] for name in cell.get("any", ())] or [cell]
    years = [dw.on.year + step for step in (-1, 0, 1)]
    past, future = nearest((feast_day(one, year, dw.southern) for one in cells for year in years), dw.on)
    yield When(end, past, future)


def feast_day(cell: Mapping[str, Any], year: int, southern: bool = False) -> dt.date:
    """The day of a feast. cell: `on` (month-day; half a year later in the south where it goes by the `sun`), `easter`
    (days from Easter Sunday), or `nth`, `weekday` (0 Monday) and `month`.

    >>> feast_day({"easter": -2}, 2026)
    datetime.date(2026, 4, 3)
    """
    if "easter" in cell:
        return easter(year) + dt.timedelta(days=cell["easter"])
    if "nth" in cell:
        return nth_weekday(year, cell["month"], cell["weekday"], cell["nth"]) or dt.date(year, cell["month"], 1)
    month, day = (int(part) for part in cell["on"].split("-"))
    return dt.date(year, (month + 5) % 12 + 1 if southern and cell.get("sun") else month, day)


def easter(year: int) -> dt.date:
    """Easter Sunday of the western calendar. The anonymous Gregorian rule, from memory.

    >>> easter(2024)
    datetime.date(2024, 3, 31)
    """
    golden, century, of_century = year % 19, year // 100, year % 100
    leap, rest = divmod(century, 4)
    shift = (century - (century + 8) // 25 + 1) // 3
    moon = (19 * golden + century - leap - shift + 15) % 30
    sunday = (32 + 2 * rest + 2 * (of_century // 4) - moon - of_century % 4) % 7
    late = (golden + 11 * moon + 22 * sunday) // 451
    month, day = divmod(moon + sunday - 7 * late + 114, 31)
    return dt.date(year, month, day + 1)


DAYS: tuple[Callable[[DateWords, Sequence[str], int], Iterator[When]], ...] = (
    _iso,
    _feast,
    _named_day,
    _day_and_month,
    _day_of_month,
    _nth_weekday,
    _numeric,
    _weekday,
)
