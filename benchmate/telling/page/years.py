"""The line of years: what was done in each, by kind and month, and in words. Quiet years are told together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.garden.record import Entry
from benchmate.telling.dates import MONTHS
from benchmate.telling.lines import cut_short
from benchmate.telling.measures import measure_words
from benchmate.telling.page.growth import GROWS
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.story import table_fact_words, table_work_words
from benchmate.value import dataclass

# kinds of work as they are drawn, from the pot upward
LANES = {
    "roots": "roots",
    "cutting": "cuts",
    "shaping": "wire and shape",
    "care": "care",
    "left": "left alone",
    "seen": "looked at",
}
_LOOKS = ("check", "photograph")
_FLEETING = ("stage", "flush", "weather", "species")
MOST_WORDS = 12
Mark = tuple[str, int]


@dataclass(frozen=True, slots=True)
class YearRow:
    """One year, or a run of years in which nothing was written down (then without marks and words).

    marks: kind of work and month (1 to 12). words: what was done, in order. more: how much more there was.
    """

    first: int
    last: int
    marks: tuple[Mark, ...] = ()
    words: tuple[str, ...] = ()
    more: int = 0

    @property
    def label(self) -> str:
        return str(self.first) if self.first == self.last else f"{self.first} to {self.last}"

    @property
    def told(self) -> str:
        """The year in words."""
        if not self.words:
            return "nothing in the record"
        more = [f"{self.more} more in the record"] if self.more else []
        return "; ".join([*self.words, *more])


@dataclass(frozen=True, slots=True)
class _Event:
    year: int
    month: int | None
    lane: str
    words: str


def year_rows(sheet: Sheet) -> list[YearRow]:
    """The years from the first entry to the sheet's day, oldest first."""
    events = [event for entry in sheet.entries for event in _events(entry, sheet.groups, sheet.units)]
    events = [event for event in events if event.year <= sheet.on.year]
    if not events:
        return []
    by_year: dict[int, list[_Event]] = {}
    for event in events:
        by_year.setdefault(event.year, []).append(event)
    rows, expected = [], min(by_year)
    for year in sorted(by_year):
        if year > expected:
            rows.append(YearRow(expected, year - 1))
        rows.append(_row(year, by_year[year]))
        expected = year + 1
    if expected <= sheet.on.year:
        rows.append(YearRow(expected, sheet.on.year))
    return rows


def _row(year: int, events: list[_Event]) -> YearRow:
    order = {lane: number for number, lane in enumerate(LANES)}
    marks = {(event.lane, event.month) for event in events if event.month and event.lane in LANES}
    told: dict[str, list[int | None]] = {}
    for event in sorted(events, key=lambda event: event.month or 0):
        if event.words:
            told.setdefault(event.words, []).append(event.month)
    words = [f"{said}{_months(months)}" for said, months in told.items()]
    placed = tuple(sorted(((lane, int(month)) for lane, month in marks), key=lambda mark: (order[mark[0]], mark[1])))
    return YearRow(year, year, placed, tuple(words[:MOST_WORDS]), max(0, len(words) - MOST_WORDS))


def _months(months: list[int | None]) -> str:
    """When, and how often: " (March)", " (April, May)", ", 7 times from April to October"."""
    known = [month for month in months if month]
    if not known:
        return f", {len(months)} times" if len(months) > 1 else ""
    names = [MONTHS[month - 1] for month in dict.fromkeys(known)]
    if len(months) == len(names) <= 2:
        return f" ({', '.join(names)})"
    first, last = MONTHS[min(known) - 1], MONTHS[max(known) - 1]
    return f", {len(months)} times " + (f"in {first}" if first == last else f"from {first} to {last}")


def _events(entry: Entry, groups: Mapping[str, str], units: str) -> Iterable[_Event]:
    year, month = _when(entry)
    for work in entry.work:
        if event := worked(entry, work, groups, units):
            yield _Event(year, month, *event)
    for fact in entry.facts:
        yield from _seen(entry, fact, year, month, groups, units)
    if any(key in GROWS for key in entry.measures):
        yield _Event(year, month, "seen", "measured")  # how much is told with the growth
    for key in [key for key in entry.measures if key not in GROWS]:
        yield _Event(year, month, "seen", measure_words(key, entry.measures[key], units))
    if entry.kind == "note" or not (entry.work or entry.facts or entry.measures):
        yield _Event(year, month, "seen", f'noted "{cut_short(entry.said, 80)}"' if entry.said else "")
    if entry.photo:
        yield _Event(year, month, "seen", f"photograph {cut_short(entry.photo, 80)}")


def _when(entry: Entry) -> tuple[int, int | None]:
    """The year and month of what an entry tells; no month where only a year or a season was said."""
    said = entry.when or ""
    if entry.kind in ("done", "seen") and said[:4].isdecimal() and (len(said) == 4 or said[5:].isalpha()):
        return int(said[:4]), None
    return entry.day.year, entry.day.month


def worked(entry: Entry, work: Mapping[str, Any], groups: Mapping[str, str], units: str) -> tuple[str, str] | None:
    """The kind of one work of an entry ("planned" where it is meant for later) and its words; None where it says of
    none that it was done, planned or left."""
    name, done = str(work.get("work", "")), work.get("done")
    if entry.kind == "plan" or done == "later":
        return "planned", f"planned: {table_work_words(work, False, units)}"
    if name in ("leave", "wait"):
        return "left", table_work_words(work, True, units)
    if entry.kind == "left" or done == "not":
        return "left", f"did not {table_work_words(work, False, units)}"
    if entry.kind != "done":
        return None
    return "seen" if name in _LOOKS else groups.get(name, "care"), table_work_words(work, True, units)


def _seen(
    entry: Entry, fact: Mapping[str, Any], year: int, month: int | None, groups: Mapping[str, str], units: str
) -> Iterable[_Event]:
    """What was seen, and work told of the past in the year that it was done in."""
    kind = fact.get("kind")
    if kind == "event":
        when = str(fact.get("when") or "")
        if fact.get("not") or not when[:4].isdecimal():
            return
        past = int(when[5:7]) if when[5:7].isdecimal() and 1 <= int(when[5:7]) <= 12 else None
        name = str(fact.get("value", ""))
        told = table_work_words({**fact, "work": name}, True, units)
        yield _Event(int(when[:4]), past, groups.get(name, "care"), told)
        return
    yield _Event(year, month, "seen", "" if kind in _FLEETING else fact_told(fact, entry, units))


def fact_told(fact: Mapping[str, Any], entry: Entry, units: str) -> str:
    """A fact in words that stand by themselves: "health strong", "2 competing leaders"."""
    kind = fact.get("kind")
    words = table_fact_words(fact, entry.day, units)
    return f"{kind} {words}" if kind in ("health", "phase") else words
