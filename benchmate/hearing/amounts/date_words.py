"""The words of days, months, seasons and spans, ready to look up, with today and the hemisphere."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass

from .values import Value, ValueWords, spot_values

FIRST_FROST = "first-frost"
YEAR = re.compile(r"(?:19|20)\d{2}$")
_TWO_DIGITS = re.compile(r"\d{2}$")
# First month of each meteorological season; the south has its seasons half a year later.
_NORTH = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}
_SOUTH = {"spring": 9, "summer": 12, "autumn": 3, "winter": 6}
PARTS = ("end", "start", "early", "middle", "latter", "late")


@dataclass(frozen=True, slots=True)
class When:
    """A stretch of words up to `end` that names a time.

    past and future: ISO text as the contract has it ("2026-06-14", "2026-06", "2026", "2026-spring"), by whether the
    sentence looks back or ahead; equal where the words alone decide. None: a span that is no date ("this week").
    FIRST_FROST stands for the place's mean first frost. deadline: the words say before or by that time, not at it.
    onward: since that time, up to today. last: the last day of a span that is no date, seen from today. counted: so
    long from now ("in five years"), which may also be how long something takes.
    past_day, future_day: the day (ISO) that is meant within a month, a season or a year ("late April").
    every: days from one time to the next ("every fortnight"), 0 where it is said of one time.
    """

    end: int
    past: str | None
    future: str | None
    deadline: bool = False
    onward: bool = False
    last: str | None = None
    counted: bool = False
    past_day: str | None = None
    future_day: str | None = None
    every: int = 0


class DateTables:
    """rules/words/dates.toml, ready to look up: what is the same on every day."""

    def __init__(self, dates: Mapping[str, Any], values: ValueWords) -> None:
        self.source = dates
        self.values = values
        self.month: Mapping[str, int] = dates.get("month", {})
        self.weekday: Mapping[str, int] = dates.get("weekday", {})
        self.weekdays: Mapping[str, int] = dates.get("weekdays", {})
        self.season: Mapping[str, str] = dates.get("season", {})
        self.seasons: Mapping[str, str] = dates.get("seasons", {})
        self.span: Mapping[str, Any] = dates.get("span", {})
        self.week: Mapping[str, int] = dates.get("week", {})
        self.part_day: Mapping[str, Mapping[str, int]] = dates.get("part_day", {})
        self.day = _phrases(dates.get("day", {}))
        self.feast: Mapping[tuple[str, ...], Mapping[str, Any]] = _phrases(dates.get("feast", {}))
        self.vague = _phrases(dates.get("vague", {}))
        self.rate = _phrases(dates.get("rate", {}))
        self.often = _phrases(dates.get("often", {}))
        self.part_season: Mapping[tuple[str, ...], Sequence[str]] = _phrases(dates.get("part_season", {}))
        self.words: dict[str, dict[str, list[tuple[str, ...]]]] = {}  # of each kind, by their first word, longest first
        for key, phrases in dates.get("words", {}).items():
            by_first = self.words.setdefault(key, {})
            for phrase in sorted((tuple(w.split()) for w in phrases), key=len, reverse=True):
                by_first.setdefault(phrase[0], []).append(phrase)
        phrased = (self.day, self.feast, self.vague, self.rate, self.often, self.part_season)
        single = (self.month, self.weekday, self.weekdays, self.season, self.span, self.week, *self.words.values())
        self.starts = {phrase[0] for table in phrased for phrase in table} | {
            word for table in single for word in table
        }
        self.starts |= values.starts | {"the", "a", "an", "another", "weekend", "half", "'"}


_made: dict[int, DateTables] = {}


def _tables_of(dates: Mapping[str, Any], values: ValueWords) -> DateTables:
    """The tables, made once for each lexicon: every statement needs them."""
    known = _made.get(id(dates))
    if known is None or known.source is not dates or known.values is not values:
        known = _made[id(dates)] = DateTables(dates, values)
    return known


class DateWords(DateTables):
    """The words of times, with today and the hemisphere."""

    def __init__(self, dates: Mapping[str, Any], values: ValueWords, on: dt.date, southern: bool) -> None:
        vars(self).update(vars(_tables_of(dates, values)))
        self.on = on
        self.southern = southern
        self._values: dict[tuple[int, int], tuple[Sequence[str], list[Value]]] = {}

    def values_at(self, words: Sequence[str], at: int) -> list[Value]:
        """Every value that starts at a word. Kept while the statement is read: half a dozen shapes of a time ask."""
        kept = self._values.get((id(words), at))
        if kept is None:  # the words are kept too, so that no others can come to stand under their number
            kept = self._values[id(words), at] = (words, list(spot_values(self.values, words, at)))
        return kept[1]

    def may_start(self, word: str) -> bool:
        """Whether any time begins with a word."""
        return word in self.starts or word[0].isdigit()

    def match(self, key: str, words: Sequence[str], at: int) -> int | None:
        """The end of the longest phrase of `key` at `at`, or None."""
        if at >= len(words):
            return None
        for phrase in self.words.get(key, {}).get(words[at], ()):
            if tuple(words[at : at + len(phrase)]) == phrase:
                return at + len(phrase)
        return None

    def past(self, key: str, words: Sequence[str], at: int) -> int:
        """Where the words go on behind a phrase of `key`, if one stands at `at`."""
        return self.match(key, words, at) or at

    def part(self, words: Sequence[str], at: int) -> tuple[str | None, int]:
        """Which part of a month, a season or a year the words at `at` say ("late"), and where they end."""
        found = [(end, key) for key in PARTS if (end := self.match(key, words, at)) and end < len(words)]
        return (max(found)[1], max(found)[0]) if found else (None, at)

    def season_start(self, season: str, year: int) -> dt.date:
        return dt.date(year, (_SOUTH if self.southern else _NORTH)[season], 1)

    def counts(self, words: Sequence[str], at: int) -> Iterator[tuple[float, int]]:
        """Every count that stands at a word, with its end: "a", "two to three", "half a", "a few"."""
        if at >= len(words):
            return
        if words[at] in ("a", "an", "one", "another"):
            yield 1.0, at + 1
        if found := longest_of(self.vague, words, at):
            yield found
        if words[at] == "half" and words[at + 1 : at + 2] in (["a"], ["an"]):
            yield 0.5, at + 2
        for value in self.values_at(words, at):
            if value.kind == "NUM":
                yield value.number, value.end


def _phrases(table: Mapping[str, Any]) -> dict[tuple[str, ...], Any]:
    return {tuple(words.split()): value for words, value in table.items()}


def longest_of(table: Mapping[tuple[str, ...], Any], words: Sequence[str], at: int) -> tuple[Any, int] | None:
    """(value, end) of the longest phrase of a table at a word."""
    here = tuple(words[at : at + 6])
    for length in range(len(here), 0, -1):
        if here[:length] in table:
            return table[here[:length]], at + length
    return None


def add_months(day: dt.date, months: int) -> dt.date:
    """The same day of another month, or that month's last day."""
    month0 = day.year * 12 + day.month - 1 + months
    year, month = divmod(month0, 12)
    return dt.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def days_of(first: dt.date) -> int:
    """How many days the month of a day has."""
    return calendar.monthrange(first.year, first.month)[1]


def year_at(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(year, end) of a year that is told at a word: "2023", "'23", "twenty nineteen", "two thousand and five"."""
    if at >= len(words):
        return None
    if YEAR.match(words[at]):
        return int(words[at]), at + 1
    if words[at] == "'" and at + 1 < len(words) and _TWO_DIGITS.match(words[at + 1]):
        short = int(words[at + 1])
        return (2000 if short <= dw.on.year % 100 + 1 else 1900) + short, at + 2
    number = dw.values.number
    first = number.get((words[at],))
    if first == 2 and words[at + 1 : at + 2] == ["thousand"]:
        start = at + 3 if words[at + 2 : at + 3] == ["and"] else at + 2
        ones = number.get(tuple(words[start : start + 1]), 0.0)
        return (2000 + int(ones), start + 1) if 0 < ones < 10 else (2000, at + 2)
    second = number.get(tuple(words[at + 1 : at + 2]), 0.0)
    if first not in (19, 20) or not 10 <= second < 100:
        return None
    third = number.get(tuple(words[at + 2 : at + 3]), 0.0) if second % 10 == 0 and second >= 20 else 0.0
    more = int(third) if 0 < third < 10 else 0
    return int(first) * 100 + int(second) + more, at + (3 if more else 2)


def short_year(dw: DateWords, words: Sequence[str], at: int) -> tuple[int, int] | None:
    """(year, end) of a year told by two figures alone, as behind a season ("spring 24"): one of the last ten, this
    year or the next."""
    if at >= len(words) or not _TWO_DIGITS.match(words[at]):
        return None
    short, now = int(words[at]), dw.on.year % 100
    return (dw.on.year - now + short, at + 1) if now - 10 <= short <= now + 1 else None


def nearest(days: Iterable[dt.date | None], on: dt.date) -> tuple[str | None, str | None]:
    """The latest of some days so far, and the first from now on, as ISO text."""
    known = [day for day in days if day is not None]
    past = max((day for day in known if day <= on), default=None)
    future = min((day for day in known if day >= on), default=None)
    return (past.isoformat() if past else None), (future.isoformat() if future else None)


def valid(year: int, month: int, day: int) -> dt.date | None:
    """A day of the calendar, or None."""
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None
