"""Weeks, months, seasons and years, whole or in part: "next week", "late April", "the spring after next"."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence

from .date_days import months_at, said_year, weekday_at, weekday_from
from .date_words import DateWords, When, add_months, days_of, longest_of, short_year, year_at

_WEEK = 7
_WEDNESDAY, _THURSDAY, _FRIDAY, _SUNDAY = 2, 3, 4, 6
_STILL = 30  # days for which a part of a season is not over yet
# what stands before a year that is no number: "in 2023"
_BEFORE_YEAR = ("in", "since", "of", "during", "from", "until", "by", "to", "till")
# what stands behind a "may" that asks, and before one that is a month
_ASKED_OF = ("i", "we", "it", "you", "one", "this", "the", "they")
_BEFORE_MONTH = ("in", "since", "by", "until", "during")


# -- last, next and this


def _relative(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """last / next / this with a week, month, year, season, month's name or weekday; "next Friday but one"."""
    for key, sign in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, at)
        if after is None or after >= len(words):
            continue
        yield from _stepped(dw, words, after, sign)
        but_one = dw.match("but_one", words, after + 1)
        if but_one and sign:
            yield from (When(but_one, one.past, one.future) for one in _stepped(dw, words, after, 2 * sign))


def _next_but_one(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the week before last", "the Friday after next"."""
    start = at + 1 if words[at] == "the" else at
    for key, steps in (("before_last", -2), ("after_next", 2)):
        end = dw.match(key, words, start + 1)
        if end and start < len(words):
            yield from (When(end, one.past, one.future) for one in _stepped(dw, words, start, steps))


def _stepped(dw: DateWords, words: Sequence[str], at: int, steps: int) -> Iterator[When]:
    """The week, month, year, season or weekday at a word, so many steps from now."""
    word, end = words[at], at + 1
    if word in dw.season:
        text: str | None = _season_from(dw, dw.season[word], steps)
    elif word in dw.month:
        text = _month_from(dw, dw.month[word], steps)
    elif word in ("week", "fortnight"):
        span = _WEEK if word == "week" else 2 * _WEEK
        text = (dw.on + dt.timedelta(days=steps * span)).isoformat() if steps else None
        if steps >= 0:
            yield When(end, text, text, last=(dw.on + dt.timedelta(days=(1 + steps) * span)).isoformat())
            return
    elif word == "month":
        text = add_months(dw.on, steps).strftime("%Y-%m")
    elif word in ("year", "season"):
        text = str(dw.on.year + steps)
    elif found := weekday_at(dw, words, at):
        text, end = weekday_from(dw.on, found[0], steps).isoformat(), found[1]
    else:
        return
    yield When(end, text, text)


def _season_from(dw: DateWords, season: str, steps: int) -> str:
    years = range(dw.on.year - 2, dw.on.year + 3)
    starts = {year: dw.season_start(season, year) for year in years}
    if steps < 0:  # the latest that is over
        year = max(y for y, start in starts.items() if add_months(start, 3) <= dw.on) + steps + 1
    elif steps > 0:
        year = min(y for y, start in starts.items() if start > dw.on) + steps - 1
    else:  # the one that runs, else that of this calendar year
        running = [y for y, start in starts.items() if start <= dw.on < add_months(start, 3)]
        year = running[0] if running else dw.on.year
    return f"{year}-{season}"


def _month_from(dw: DateWords, month: int, steps: int) -> str:
    year = dw.on.year
    if steps < 0:
        year += steps + (month < dw.on.month)
    if steps > 0:
        year += steps - (month > dw.on.month)
    return f"{year}-{month:02d}"


def _same_time(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "this time next year", "the same day last month"."""
    after = dw.match("same_time", words, at)
    for key, steps in (("last", -1), ("next", 1)):
        word_at = dw.match(key, words, after) if after is not None else None
        if word_at is None or word_at >= len(words):
            continue
        months = {"month": 1, "year": 12}.get(words[word_at])
        if months:
            day = add_months(dw.on, steps * months)
        elif words[word_at] in ("week", "fortnight"):
            day = dw.on + dt.timedelta(days=steps * int(dw.span[words[word_at]]))
        else:
            continue
        yield When(word_at + 1, day.isoformat(), day.isoformat())


# -- parts of a week, a month, a season, a year


def _week(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "by the end of next week", "early next week", "midweek": its Sunday, Friday, Wednesday, Monday."""
    if end_of := dw.match("midweek", words, at):
        behind, ahead = weekday_from(dw.on, _WEDNESDAY, -1), weekday_from(dw.on, _WEDNESDAY, 1)
        yield When(end_of, behind.isoformat(), ahead.isoformat())
    part, start = dw.part(words, at)
    weeks = _which_week(dw, words, start) if part else None
    if part is None or weeks is None:
        return
    steps, end = weeks
    monday = dw.on - dt.timedelta(days=dw.on.weekday()) + dt.timedelta(days=_WEEK * steps)
    if steps == 0 and dw.on.weekday() == _SUNDAY:
        monday += dt.timedelta(days=_WEEK)  # said on a Sunday, the week is the one that begins
    into = {"end": _SUNDAY, "late": _FRIDAY, "latter": _THURSDAY, "middle": _WEDNESDAY}.get(part, 0)
    day = (monday + dt.timedelta(days=into)).isoformat()
    yield When(end, day, day)


def _which_week(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, int] | None:
    if words[at] == "the" and words[at + 1 : at + 2] == ["week"]:
        return 0, at + 2
    for key, steps in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, at)
        if after is not None and words[after : after + 1] == ["week"]:
            return steps, after + 1
    return None


def _week_of(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the first week of May", "the last week in February": the month, and the day on which that week begins."""
    start = at + 1 if words[at] == "the" else at
    which = dw.week.get(words[start]) if start < len(words) else None
    of = dw.match("of_month", words, start + 2) if words[start + 1 : start + 2] == ["week"] else None
    if which is not None and of is not None:
        yield from _whole_month(dw, words, of, lambda first: days_of(first) - 6 if which < 0 else 7 * which - 6)


def _month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "May", "late April", "the end of next month", "the middle of May 2024"."""
    part, start = dw.part(words, at)
    if words[start : start + 1] == ["next"] and part and words[start + 1 : start + 2] != ["month"]:
        start += 1
    word = words[start] if start < len(words) else ""
    if part is None and word not in dw.month:
        return  # "next month" is no part of one
    asks = words[start + 1 : start + 2] and words[start + 1] in _ASKED_OF
    led = at > 0 and words[at - 1] in _BEFORE_MONTH
    if word == "may" and part is None and not led and (at > 0 or asks):
        return  # "may I": a bare "may" is no month unless something leads into it
    yield from _whole_month(dw, words, start, None if part is None else lambda first: _into(dw, part, first), part)


def _months(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "May or June", "between April and June", "from November to March": the first of them, or the one that runs."""
    start = dw.past("between", words, at)
    if start >= len(words) or words[start] not in dw.month:
        return
    to = dw.match("month_to", words, start + 1)
    if to is None and start > at and words[start + 1 : start + 2] == ["and"]:
        to = start + 2
    if to is None or to >= len(words) or words[to] not in dw.month:
        return
    first, last = dw.month[words[start]], dw.month[words[to]]
    past = dw.on.year if first <= dw.on.month else dw.on.year - 1
    runs = (dw.on.month - first) % 12 <= (last - first) % 12
    year, month = (dw.on.year, dw.on.month) if runs else (past + 1, first)
    yield When(to + 1, f"{past}-{first:02d}", f"{year}-{month:02d}")


def _into(dw: DateWords, part: str, first: dt.date) -> int:
    """The day of a month that a part of it begins with; the last for its end."""
    return days_of(first) if part == "end" else dw.part_day["month"].get(part, 1)


def _whole_month(
    dw: DateWords,
    words: Sequence[str],
    at: int,
    day_of: Callable[[dt.date], int] | None = None,
    part: str | None = None,
) -> Iterator[When]:
    """A month that is told at a word, behind and ahead of today. day_of: the day in it that is meant."""
    found = months_at(dw, words, at)
    if found is None:
        return
    month, years, end = found
    firsts = [dt.date(year, month, 1) for year in years]
    past = max((one for one in firsts if one <= dw.on), default=firsts[0])
    late = [one for one in firsts if _meant_day(one, day_of) >= dw.on]
    future = min(late, default=firsts[-1])
    if len(years) == 1:
        past = future = firsts[0]
    texts = [f"{one.year}-{one.month:02d}" for one in (past, future)]
    if part == "end":
        texts = [_meant_day(one, day_of).isoformat() for one in (past, future)]
    days = [_meant_day(one, day_of).isoformat() if day_of and part != "end" else None for one in (past, future)]
    yield When(end, texts[0], texts[1], past_day=days[0], future_day=days[1])


def _meant_day(first: dt.date, day_of: Callable[[dt.date], int] | None) -> dt.date:
    """The day of a month that is meant; its last where none is, for the month runs until then."""
    return first.replace(day=day_of(first) if day_of else days_of(first))


def _season(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "autumn", "early spring", "midsummer", "the end of next summer", "the summer of 2023"."""
    part, start = dw.part(words, at)
    steps = None
    for key, way in (("last", -1), ("next", 1), ("this", 0)) if part else ():
        if (after := dw.match(key, words, start)) and after < len(words):
            steps, start = way, after
            break
    if named := longest_of(dw.part_season, words, start):
        (season, part), end = named
    elif start < len(words) and words[start] in dw.season:
        season, end = dw.season[words[start]], start + 1
    else:
        return
    starts = {year: dw.season_start(season, year) for year in range(dw.on.year - 2, dw.on.year + 2)}
    past = max(y for y, begin in starts.items() if begin <= dw.on)
    future = min(y for y, begin in starts.items() if add_months(begin, 3) > dw.on)
    if part and (dw.on - _part_starts(dw, starts[future], part)).days > _STILL:
        future += 1
    if steps is not None:
        past = future = int(_season_from(dw, season, steps)[:4])
    elif year := said_year(dw, words, end) or short_year(dw, words, end):
        past, future, end = year[0], year[0], year[1]
    days = [_part_starts(dw, dw.season_start(season, y), part).isoformat() if part else None for y in (past, future)]
    yield When(end, f"{past}-{season}", f"{future}-{season}", past_day=days[0], future_day=days[1])


def _part_starts(dw: DateWords, begin: dt.date, part: str | None) -> dt.date:
    """The day on which a part of a season begins; the last day for its end."""
    if part == "end":
        return add_months(begin, 3) - dt.timedelta(days=1)
    return begin + dt.timedelta(days=dw.part_day["season"].get(part or "", 0))


def _year(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "in 2023", "back in '23", "the end of next year", "early in 2024"."""
    part, start = dw.part(words, at)
    led = at > 0 and words[at - 1] in _BEFORE_YEAR
    if (part or led) and (found := year_at(dw, words, start)):
        yield _part_of_year(dw, part, *found)
    if part is None:
        return
    if list(words[start : start + 2]) == ["the", "year"]:
        yield _part_of_year(dw, part, dw.on.year, start + 2)
    for key, steps in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, start)
        if after is not None and words[after : after + 1] == ["year"]:
            yield _part_of_year(dw, part, dw.on.year + steps, after + 1)


def _part_of_year(dw: DateWords, part: str | None, year: int, end: int) -> When:
    if part == "end":
        return When(end, f"{year}-12-31", f"{year}-12-31")
    into = dw.part_day["year"].get(part or "")
    day = (dt.date(year, 1, 1) + dt.timedelta(days=into)).isoformat() if into else None
    return When(end, str(year), str(year), past_day=day, future_day=day)


def _ends(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "month end", "before the year is out", "in the new year"."""
    if end := dw.match("month_end", words, at):
        day = dw.on.replace(day=days_of(dw.on)).isoformat()
        yield When(end, day, day)
    if end := dw.match("year_end", words, at):
        yield When(end, f"{dw.on.year}-12-31", f"{dw.on.year}-12-31")
    if end := dw.match("new_year", words, at):
        yield When(end, f"{dw.on.year}-01", f"{dw.on.year + 1}-01")


STRETCHES: tuple[Callable[[DateWords, Sequence[str], int], Iterator[When]], ...] = (
    _next_but_one,
    _relative,
    _same_time,
    _week,
    _week_of,
    _months,
    _month,
    _season,
    _year,
    _ends,
)
