"""Spans from today or from another day, and times that come again: "three weeks ago", "every fortnight"."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from .date_days import DAYS, weekday_at, weekday_from
from .date_words import DateWords, When, add_months, longest_of
from .values import spot_values

_MONTH, _YEAR = 30, 365  # days, of what comes again
_HALF_MONTH = 15
_SIZES = {"month": _MONTH, "year": _YEAR, "decade": 10 * _YEAR}


def _shifted(dw: DateWords, count: float, unit: Any, sign: int, start: dt.date | None = None) -> str | None:
    """A span of the table behind (-1) or ahead (1) of a day, of today where none is given, as ISO text. Nobody counts
    half a year back to a day: that is a month."""
    day = start or dw.on
    try:
        if unit == "decade":
            count, unit = count * 10, "year"
        if unit == "year":
            if count != int(count):
                whole = add_months(day, sign * round(count * 12))
                return whole.strftime("%Y-%m") if sign < 0 else whole.isoformat()
            years = sign * int(count)
            return str(day.year + years) if start is None else add_months(day, 12 * years).isoformat()
        if unit == "month":
            whole = add_months(day, sign * int(count))
            half = _HALF_MONTH if count != int(count) else 0
            return (whole + dt.timedelta(days=sign * half)).isoformat()
        return (day + dt.timedelta(days=sign * round(count * unit))).isoformat()
    except (OverflowError, ValueError):
        return None


def _counted(dw: DateWords, words: Sequence[str], at: int) -> Iterator[tuple[float, Any, int]]:
    """(count, unit, end) of every span at a word: "three weeks", "a month and a half", "a few days"."""
    for count, unit_at in dw.counts(words, at):
        if unit_at < len(words) and (unit := dw.span.get(words[unit_at])) is not None:
            yield count, unit, unit_at + 1
            if tuple(words[unit_at + 1 : unit_at + 4]) == ("and", "a", "half"):
                yield count + 0.5, unit, unit_at + 4


def _spans(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "three weeks ago", "in a fortnight", "in about two months", "two weeks from now", "in three weeks' time"."""
    lead = dw.match("in", words, at)
    start = lead if lead is not None else at
    if words[start : start + 1] == ["the"]:
        start += 1
    for count, unit, end in _counted(dw, words, start):
        tail = dw.past("roughly", words, end)
        if ago := dw.match("ago", words, tail):
            past = _shifted(dw, count, unit, -1)
            yield When(ago, past, past)
            if to_the_day := dw.match("to_the_day", words, ago):
                past = _shifted(dw, count, unit, -1, dw.on)
                yield When(to_the_day, past, past)
        elif words[end : end + 1] == ["since"]:  # "four summers since I dug it"
            past = _shifted(dw, count, unit, -1)
            yield When(end, past, past)
        elif now := dw.match("from_now", words, tail):
            future = _shifted(dw, count, unit, 1)
            yield When(now, future, future)
        elif lead is not None and words[at] != "after":
            future = _shifted(dw, count, unit, 1)
            yield When(dw.match("times", words, tail) or tail, future, future, counted=True)


def _weekdays_ago(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "two Saturdays ago", "three Mondays from now"."""
    for count, day_at in dw.counts(words, at):
        weekday = dw.weekdays.get(words[day_at]) if day_at < len(words) else None
        if weekday is None or count != int(count) or count < 1:
            continue
        for key, sign in (("ago", -1), ("from_now", 1)):
            if end := dw.match(key, words, day_at + 1):
                day = weekday_from(dw.on, weekday, sign * int(count)).isoformat()
                yield When(end, day, day)


def _seasons_ago(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "two springs ago": that season of the year so many before this one's."""
    for count, season_at in dw.counts(words, at):
        season = dw.seasons.get(words[season_at]) if season_at < len(words) else None
        ago = dw.match("ago", words, season_at + 1) if season else None
        if season is None or ago is None or count != int(count):
            continue
        start = dw.season_start(season, dw.on.year - 1)
        year = dw.on.year - 1 if add_months(start, 3) > dw.on else dw.on.year  # the winter that runs still is this one
        yield When(ago, f"{year - int(count)}-{season}", f"{year - int(count)}-{season}")


def _since_last(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "in the last three weeks", "over the past few days": from then up to today."""
    lead = dw.match("in_last", words, at)
    for count, unit, end in _counted(dw, words, lead) if lead is not None else ():
        past = _shifted(dw, count, unit, -1, dw.on)
        yield When(end, past, past, onward=True)
    if lead is not None and lead < len(words) and words[lead - 1] == "past" and (span := dw.span.get(words[lead])):
        past = _shifted(dw, 1.0, span, -1, dw.on)  # "over the past month"; "last month" is that month
        yield When(lead + 1, past, past, onward=True)


def _from_a_day(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "a week on Tuesday", "a fortnight tomorrow", "a week last Monday", "two weeks after Easter"."""
    spans = list(_counted(dw, words, at))
    named = dw.span.get(words[at + 1]) if words[at] == "the" and at + 1 < len(words) else None
    if named and (dw.match("before_day", words, at + 2) or words[at + 2 : at + 3] == ["after"]):
        spans.append((1.0, named, at + 2))  # "the week before Christmas"
    for count, unit, end in spans:
        ago, before = dw.match("ago", words, end), dw.match("before_day", words, end)
        start = ago or before or dw.match("past_day", words, end) or end
        behind = ago is not None or (start == end and dw.match("last", words, start) is not None)
        sign = -1 if behind or before else 1
        for when in _days_at(dw, words, start) if start < len(words) else ():
            past = _put(dw, when.past, count, unit, sign)
            yield When(when.end, past, past if behind else _put(dw, when.future, count, unit, sign))


def _days_at(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """Days, and weekdays with "last", "next" or "this" before them."""
    for shape in DAYS:
        yield from (when for when in shape(dw, words, at) if when.past and when.future and len(when.past) == 10)
    for key, steps in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, at)
        if after is not None and (found := weekday_at(dw, words, after)):
            day = weekday_from(dw.on, found[0], steps).isoformat()
            yield When(found[1], day, day)


def _put(dw: DateWords, day: str | None, count: float, unit: Any, sign: int) -> str | None:
    return _shifted(dw, count, unit, sign, dt.date.fromisoformat(day)) if day else None


# -- what comes again


def _every(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "every fortnight", "every other day", "twice a week", "monthly": no date, but how often."""
    if found := longest_of(dw.often, words, at):
        yield When(found[1], None, None, every=int(found[0]))
    if found := longest_of(dw.rate, words, at):
        yield from _times_in(dw, words, found[1], found[0])
    for count, end in dw.counts(words, at):
        if times := dw.match("times_a", words, end):
            yield from _times_in(dw, words, times, count)
    if words[at] in dw.weekdays:  # "on Fridays"
        first = weekday_from(dw.on, dw.weekdays[words[at]], 1).isoformat()
        yield When(at + 1, first, first, every=7)
    after = dw.match("every", words, at)
    if after is None or after >= len(words):
        return
    other = dw.match("every_other", words, after)
    start, factor = (other, 2.0) if other else (after, 1.0)
    if start < len(words) and (unit := dw.span.get(words[start])):
        yield from _again(start + 1, factor, unit)
    for value in spot_values(dw.values, words, after):
        unit = dw.span.get(words[value.end]) if value.end < len(words) and value.kind == "ORD" else None
        if unit:
            yield from _again(value.end + 1, value.number, unit)  # "every third day"
    for count, unit, end in _counted(dw, words, after):
        yield from _again(dw.past("roughly", words, end), count, unit)
    if found_day := weekday_at(dw, words, start):
        first = weekday_from(dw.on, found_day[0], 1).isoformat()
        yield When(found_day[1], first, first, every=round(factor * 7))
    elif season := dw.season.get(words[start] if start < len(words) else ""):
        starts = [dw.season_start(season, dw.on.year + step) for step in (-1, 0, 1)]
        year = min(begin for begin in starts if add_months(begin, 3) > dw.on).year
        yield When(start + 1, f"{year}-{season}", f"{year}-{season}", every=round(factor * _YEAR))
    elif hours := dw.match("hours", words, start):
        yield When(hours, None, None, every=round(factor))


def _times_in(dw: DateWords, words: Sequence[str], at: int, times: float) -> Iterator[When]:
    """ "(once) a month", "(twice) every week"."""
    per = dw.match("per", words, at)
    if per is None or per >= len(words):
        return
    if unit := dw.span.get(words[per]):
        yield from _again(per + 1, 1 / times, unit)
    for count, unit, end in _counted(dw, words, per):
        yield from _again(end, count / times, unit)  # "once every two weeks"


def _again(end: int, count: float, unit: Any) -> Iterator[When]:
    days = count * _SIZES.get(unit, unit)
    if days > 0:
        yield When(end, None, None, every=max(1, int(days)))


def first_time(every: int, on: str) -> str | None:
    """The first of the times that come every so many days, seen from today (ISO), or None beyond the calendar."""
    try:
        return (dt.date.fromisoformat(on) + dt.timedelta(days=every)).isoformat()
    except OverflowError:
        return None


SPANS: tuple[Callable[[DateWords, Sequence[str], int], Iterator[When]], ...] = (
    _weekdays_ago,
    _seasons_ago,
    _spans,
    _since_last,
    _from_a_day,
    _every,
)
