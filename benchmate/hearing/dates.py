"""Days, months, seasons and spans in words, against today: "three weeks ago", "end of July", "next spring"."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass

from .values import ValueWords, spot_values

_ORDINAL_DAY = re.compile(r"(\d\d?)(?:st|nd|rd|th)$")
_ISO = re.compile(r"(\d{4})-(\d{2})-(\d{2})$")
_YEAR = re.compile(r"(?:19|20)\d{2}$")
_DAY_OF_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?$")
_DEADLINE = frozenset({"before", "by", "until", "till"})
_PLACING = frozenset({"at", "on", "in", "by"})
FIRST_FROST = "first-frost"
# First month of each meteorological season; the south has its seasons half a year later.
_NORTH = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}
_SOUTH = {"spring": 9, "summer": 12, "autumn": 3, "winter": 6}


@dataclass(frozen=True, slots=True)
class When:
    """A stretch of words up to `end` that names a time.

    past and future: ISO text as the contract has it ("2026-06-14", "2026-06", "2026", "2026-spring"), by whether the
    sentence looks back or ahead; equal where the words alone decide. None: a span that is no date ("this week").
    FIRST_FROST stands for the place's mean first frost. deadline: the words say before or by that time, not at it.
    onward: since that time, up to today. last: the last day of a span that is no date, seen from today. counted: so
    long from now ("in five years"), which may also be how long something takes.
    """

    end: int
    past: str | None
    future: str | None
    deadline: bool = False
    onward: bool = False
    last: str | None = None
    counted: bool = False


class DateWords:
    """rules/words/dates.toml, ready to look up, with today and the hemisphere."""

    def __init__(self, dates: Mapping[str, Any], values: ValueWords, on: dt.date, southern: bool) -> None:
        self.month: Mapping[str, int] = dates.get("month", {})
        self.weekday: Mapping[str, int] = dates.get("weekday", {})
        self.season: Mapping[str, str] = dates.get("season", {})
        self.span: Mapping[str, Any] = dates.get("span", {})
        self.day = {tuple(words.split()): shift for words, shift in dates.get("day", {}).items()}
        self.words = {
            key: sorted((tuple(w.split()) for w in phrases), key=len, reverse=True)
            for key, phrases in dates.get("words", {}).items()
        }
        self.values = values
        self.on = on
        self.southern = southern

    def match(self, key: str, words: Sequence[str], at: int) -> int | None:
        """The end of the longest phrase of `key` at `at`, or None."""
        for phrase in self.words.get(key, []):
            if tuple(words[at : at + len(phrase)]) == phrase:
                return at + len(phrase)
        return None

    def season_start(self, season: str, year: int) -> dt.date:
        return dt.date(year, (_SOUTH if self.southern else _NORTH)[season], 1)


def spot_dates(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """Every time that starts at the word `at`, with and without words that lead into it ("at the end of ...")."""
    if end := dw.match("frost", words, at):
        yield When(end, FIRST_FROST, FIRST_FROST)
    yield from _core(dw, words, at)
    start, looks_back, deadline = at, False, False
    for _ in range(3):
        after = dw.match("lead", words, start)
        if after is None or after >= len(words) or (start > at and words[start] in _PLACING):
            return  # "bring it in at the end of October": the "in" is the verb's
        looks_back = looks_back or "since" in words[start:after]
        deadline = deadline or bool(_DEADLINE & set(words[start:after]))
        start = after
        if dw.match("place", words, start):
            return  # "the branch at the back in March": a place, and then a month
        for when in _core(dw, words, start):
            yield When(when.end, when.past, when.past if looks_back else when.future, deadline, looks_back)


def _core(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    for shape in (
        _iso,
        _named_day,
        _day_of_month,
        _before_last,
        _relative,
        _spans,
        _day_and_month,
        _month,
        _season,
        _weekday,
        _year,
    ):
        yield from shape(dw, words, at)


def _iso(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    if match := _ISO.match(words[at]):
        try:
            text = dt.date(*(int(part) for part in match.groups())).isoformat()
        except ValueError:
            return
        yield When(at + 1, text, text)


def _day_of_month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "on the 20th": the nearest such day behind and ahead."""
    lead = dw.match("day_lead", words, at)
    match = _ORDINAL_DAY.match(words[lead]) if lead is not None and lead < len(words) else None
    ends = lead is None or lead + 1 >= len(words) or not words[lead + 1].isalpha()
    if match is None or lead is None or not (ends or dw.match("day_ends", words, lead + 1)):
        return  # "on the 2nd branch"
    number = int(match[1])
    days = [first.replace(day=number) for first in _months_around(dw.on) if 1 <= number <= _length(first)]
    past = max((day for day in days if day <= dw.on), default=None)
    future = min((day for day in days if day >= dw.on), default=None)
    if past and future:
        yield When(lead + 1, past.isoformat(), future.isoformat())


def _months_around(on: dt.date) -> list[dt.date]:
    return [add_months(on.replace(day=1), months) for months in range(-3, 4)]


def _length(first: dt.date) -> int:
    return calendar.monthrange(first.year, first.month)[1]


def _named_day(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    for length in (4, 3, 2, 1):
        shift = dw.day.get(tuple(words[at : at + length])) if at + length <= len(words) else None
        if shift is not None:
            day = (dw.on + dt.timedelta(days=shift)).isoformat()
            yield When(at + length, day, day)
            return


def add_months(day: dt.date, months: int) -> dt.date:
    """The same day of another month, or that month's last day."""
    month0 = day.year * 12 + day.month - 1 + months
    year, month = divmod(month0, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def _shifted(dw: DateWords, count: float, unit: Any, sign: int) -> str | None:
    try:
        if unit == "year":
            return str(dw.on.year + sign * int(count)) if count == int(count) else None
        if unit == "month":
            return add_months(dw.on, sign * round(count)).isoformat()
        return (dw.on + dt.timedelta(days=sign * round(count * unit))).isoformat()
    except (OverflowError, ValueError):
        return None


def _count(dw: DateWords, words: Sequence[str], at: int) -> tuple[float, int] | None:
    if at < len(words) and words[at] in ("a", "an", "one", "another"):
        return 1.0, at + 1
    if at < len(words):
        numbers = [v for v in spot_values(dw.values, words, at) if v.kind == "NUM"]
        if numbers:
            return numbers[0].number, numbers[0].end
    return None


def _spans(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "three weeks ago", "in a fortnight", "in about two months", "two weeks from now", "in three weeks time"."""
    lead = dw.match("in", words, at)
    start = lead if lead is not None else at
    if words[start : start + 1] == ["the"]:
        start += 1
    counted = _count(dw, words, start)
    if counted is None or counted[1] >= len(words):
        return
    count, unit_at = counted
    unit = dw.span.get(words[unit_at])
    if unit is None:
        return
    end = unit_at + 1
    if ago := dw.match("ago", words, end):
        past = _shifted(dw, count, unit, -1)
        yield When(ago, past, past)
        return
    if words[end : end + 1] == ["since"]:  # "four summers since I dug it"
        past = _shifted(dw, count, unit, -1)
        yield When(end, past, past)
    if tuple(words[end : end + 2]) in (("from", "now"), ("from", "today")):
        future = _shifted(dw, count, unit, 1)
        yield When(end + 2, future, future)
    elif lead is not None and words[at] != "after":
        future = _shifted(dw, count, unit, 1)
        yield When(dw.match("times", words, end) or end, future, future, counted=True)


def _relative(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """last / next / this with a week, month, year, season, month's name or weekday."""
    for key, sign in (("last", -1), ("next", 1), ("this", 0)):
        after = dw.match(key, words, at)
        if after is None or after >= len(words):
            continue
        word, end = words[after], after + 1
        if word in dw.season:
            text: str | None = _relative_season(dw, dw.season[word], sign)
        elif word in dw.month:
            text = _relative_month(dw, dw.month[word], sign)
        elif word in dw.weekday:
            text = _relative_weekday(dw, dw.weekday[word], sign)
        elif word in ("week", "fortnight"):
            span = 7 if word == "week" else 14
            text = (dw.on + dt.timedelta(days=sign * span)).isoformat() if sign else None
            if sign >= 0:
                yield When(end, text, text, last=(dw.on + dt.timedelta(days=(1 + sign) * span)).isoformat())
                continue
        elif word == "weekend":
            text = _relative_weekday(dw, 5, sign)
        elif word == "month":
            text = add_months(dw.on, sign).strftime("%Y-%m")
        elif word == "year" or word == "season":
            text = str(dw.on.year + sign)
        else:
            continue
        yield When(end, text, text)


def _before_last(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the week before last", "the autumn before last"."""
    start = at + 1 if words[at] == "the" else at
    if list(words[start + 1 : start + 3]) != ["before", "last"]:
        return
    word = words[start]
    days = {"week": 14, "weekend": 14, "fortnight": 28}.get(word)
    if days:
        text = (dw.on - dt.timedelta(days=days)).isoformat()
    elif word in dw.season:
        text = f"{int(_relative_season(dw, dw.season[word], -1)[:4]) - 1}-{dw.season[word]}"
    elif word in ("month", "year"):
        text = add_months(dw.on, -2).strftime("%Y-%m") if word == "month" else str(dw.on.year - 2)
    else:
        return
    yield When(start + 3, text, text)


def _relative_season(dw: DateWords, season: str, sign: int) -> str:
    years = range(dw.on.year - 2, dw.on.year + 3)
    starts = {year: dw.season_start(season, year) for year in years}
    if sign < 0:  # the latest that is over
        year = max(y for y, start in starts.items() if add_months(start, 3) <= dw.on)
    elif sign > 0:
        year = min(y for y, start in starts.items() if start > dw.on)
    else:  # the one that runs, else that of this calendar year
        running = [y for y, start in starts.items() if start <= dw.on < add_months(start, 3)]
        year = running[0] if running else dw.on.year
    return f"{year}-{season}"


def _relative_month(dw: DateWords, month: int, sign: int) -> str:
    year = dw.on.year
    if sign < 0 and month >= dw.on.month:
        year -= 1
    if sign > 0 and month <= dw.on.month:
        year += 1
    return f"{year}-{month:02d}"


def _relative_weekday(dw: DateWords, weekday: int, sign: int) -> str:
    ahead = (weekday - dw.on.weekday()) % 7
    if sign < 0:
        return (dw.on - dt.timedelta(days=7 - ahead if ahead else 7)).isoformat()
    return (dw.on + dt.timedelta(days=ahead or (7 if sign > 0 else 0))).isoformat()


def _around(dw: DateWords, month: int) -> tuple[int, int]:
    """The years of the latest such month so far and of the next one from now."""
    past = dw.on.year if month <= dw.on.month else dw.on.year - 1
    future = dw.on.year if month >= dw.on.month else dw.on.year + 1
    return past, future


def _part_of_month(dw: DateWords, words: Sequence[str], at: int) -> tuple[str | None, int]:
    for key in ("end", "start", "middle"):
        if end := dw.match(key, words, at):
            return key, end
    return None, at


def _month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    part, start = _part_of_month(dw, words, at)
    if words[start : start + 1] == ["next"] and part:
        start += 1
    if start >= len(words) or words[start] not in dw.month:
        return
    month, end = dw.month[words[start]], start + 1
    asks = words[start + 1 : start + 2] and words[start + 1] in ("i", "we", "it", "you", "one", "this", "the", "they")
    led = at > 0 and words[at - 1] in ("in", "since", "by", "until", "during")
    if words[start] == "may" and part is None and start == at and not led and (at > 0 or asks):
        return  # "may I": a bare "may" is no month unless something leads into it
    years = _around(dw, month)
    of = end + 1 if words[end : end + 1] == ["of"] else end
    if of < len(words) and _YEAR.match(words[of]):
        years, end = (int(words[of]), int(words[of])), of + 1
    elif words[of : of + 2] == ["last", "year"]:
        years, end = (dw.on.year - 1, dw.on.year - 1), of + 2
    elif words[of : of + 2] == ["next", "year"]:
        years, end = (dw.on.year + 1, dw.on.year + 1), of + 2

    def text(year: int) -> str:
        if part == "end":
            return dt.date(year, month, calendar.monthrange(year, month)[1]).isoformat()
        return f"{year}-{month:02d}"

    yield When(end, text(years[0]), text(years[1]))


def _day_and_month(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """ "the 20th of August", "1 November", "April 4th", "third of May", each with or without a year."""
    start = at + 1 if words[at] == "the" and at + 1 < len(words) else at
    day, end = _day_number(dw, words, start)
    if day is not None:
        end = end + 1 if words[end : end + 1] == ["of"] else end
        if end >= len(words) or words[end] not in dw.month:
            return
        month, end = dw.month[words[end]], end + 1
    elif words[start] in dw.month:
        month = dw.month[words[start]]
        behind = start + 2 if words[start + 1 : start + 2] == ["the"] else start + 1
        day, end = _day_number(dw, words, behind) if behind < len(words) else (None, behind)
        if day is None:
            return
    else:
        return
    if end < len(words) and _YEAR.match(words[end]):
        years, end = (int(words[end]),) * 2, end + 1
    else:
        before = (month, day) <= (dw.on.month, dw.on.day)
        after = (month, day) >= (dw.on.month, dw.on.day)
        years = (dw.on.year if before else dw.on.year - 1, dw.on.year if after else dw.on.year + 1)
    try:
        yield When(end, dt.date(years[0], month, day).isoformat(), dt.date(years[1], month, day).isoformat())
    except ValueError:
        return


def _day_number(dw: DateWords, words: Sequence[str], at: int) -> tuple[int | None, int]:
    if at < len(words) and (match := _DAY_OF_MONTH.match(words[at])) and 1 <= int(match[1]) <= 31:
        return int(match[1]), at + 1
    if at < len(words):
        for value in spot_values(dw.values, words, at):
            if value.kind == "ORD" and 1 <= value.number <= 31:
                return int(value.number), value.end
    return None, at


def _season(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    _, start = _part_of_month(dw, words, at)
    if start >= len(words) or words[start] not in dw.season:
        return
    season, end = dw.season[words[start]], start + 1
    starts = {year: dw.season_start(season, year) for year in range(dw.on.year - 2, dw.on.year + 2)}
    past = max(y for y, begin in starts.items() if begin <= dw.on)
    future = min(y for y, begin in starts.items() if add_months(begin, 3) > dw.on)
    if end < len(words) and _YEAR.match(words[end]):
        past = future = int(words[end])
        end += 1
    elif words[end : end + 2] == ["last", "year"]:
        past = future = dw.on.year - 1
        end += 2
    yield When(end, f"{past}-{season}", f"{future}-{season}")


def _weekday(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    if words[at] in dw.weekday:
        behind = (dw.on.weekday() - dw.weekday[words[at]]) % 7
        past = dw.on - dt.timedelta(days=behind)
        yield When(at + 1, past.isoformat(), _relative_weekday(dw, dw.weekday[words[at]], 1))
    elif words[at] == "weekend":
        yield When(at + 1, _relative_weekday(dw, 5, -1), _relative_weekday(dw, 5, 1))


def _year(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    if (
        _YEAR.match(words[at])
        and at > 0
        and words[at - 1] in ("in", "since", "of", "during", "from", "until", "by", "to")
    ):
        yield When(at + 1, words[at], words[at])
