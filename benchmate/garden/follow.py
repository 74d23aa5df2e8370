"""Follow-ups: what the record asks to come back for, and what has closed it since."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.garden.journal import standing
from benchmate.garden.record import Entry
from benchmate.garden.shapes import span_of
from benchmate.value import dataclass, replace

_SEASONS = {"spring": 3, "summer": 6, "autumn": 9, "winter": 12}  # first month of the season, northern


_CLOSE_DAYS = 14  # apart, at which the same words of two rules are one thing to come back for


@dataclass(frozen=True, slots=True)
class FollowUp:
    """One thing to come back for.

    on: the first day for it, None where no day was said. until: the last day for it; the same as `on` for a single day.
    entry, number: the entry that asks for it, and which of that entry's follow-ups it is. kind: "follow" or "plan".
    weather: held back until this weather. slips: what is lost by waiting. closed_by: other works that make it needless.
    """

    work: str
    on: dt.date | None
    until: dt.date | None
    says: str
    entry: str
    number: int = 0
    kind: str = "follow"
    part: str | None = None
    side: str | None = None
    level: str | None = None
    rule: str | None = None
    weather: str | None = None
    slips: str | None = None
    closed_by: tuple[str, ...] = ()

    @property
    def uid(self) -> str:
        """The same for this follow-up at every export."""
        return f"{self.entry}-{self.number}"

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {
            "work": self.work, "part": self.part, "side": self.side, "level": self.level,
            "on": self.on.isoformat() if self.on else None, "until": self.until.isoformat() if self.until else None,
            "says": self.says, "kind": self.kind, "entry": self.entry, "uid": self.uid, "rule": self.rule,
            "weather": self.weather, "slips": self.slips,
        }  # fmt: skip
        kept = ("work", "part", "on", "says", "kind", "entry", "uid")
        return {key: value for key, value in out.items() if value is not None or key in kept}


def follow_ups(entries: Iterable[Entry], southern: bool = False) -> tuple[FollowUp, ...]:
    """The open follow-ups of one tree's entries, oldest entry first, undated ones too.

    A later entry that does the work, or decides against it, on the same part closes those that are due by its day;
    where none is due yet it closes the next one. A tree that left the garden has none. southern:
    turns a season of a year into months.
    """
    still_open: list[FollowUp] = []
    for entry in standing(entries):
        if entry.ends:
            still_open = []
        if still_open and entry.kind in ("done", "left", "seen"):
            for work in _closing(entry):
                still_open = _without_closed(still_open, work, entry.day)
        if entry.follow or entry.kind == "plan":
            for asked in _asked_by(entry, southern):
                still_open = [item for item in still_open if not _replaces(asked, item, entry.day)]
                still_open.append(asked)
    return tuple(still_open)


def _replaces(asked: FollowUp, item: FollowUp, day: dt.date) -> bool:
    """The same asked twice is one, also where two rules ask it in the same words for days close together; and a rule
    that asks anew on a later occasion does not keep asking for the last."""
    if (asked.work, asked.part, asked.side, asked.level) != (item.work, item.part, item.side, item.level):
        return False
    if (asked.on, asked.until, asked.says) == (item.on, item.until, item.says):
        return True
    two_rules = asked.rule and item.rule and asked.rule != item.rule and asked.says == item.says
    if two_rules and asked.on and item.on and abs((asked.on - item.on).days) <= _CLOSE_DAYS:
        return True
    return asked.rule is not None and asked.rule == item.rule and item.until is not None and item.until < day


def _closing(entry: Entry) -> Iterable[Mapping[str, Any]]:
    """The works that an entry does or refuses; a plan for later in the same breath closes nothing."""
    for work in entry.work:
        done = work.get("done")
        if done in ("done", "now", "not") or (done is None and entry.kind in ("done", "left")):
            yield work


def _without_closed(still_open: list[FollowUp], work: Mapping[str, Any], day: dt.date) -> list[FollowUp]:
    ended = {id(item) for item in still_open if work.get("work") in item.closed_by}
    meant = [item for item in still_open if item.work == work.get("work") and _same_place(item, work)]
    if meant:
        next_day = min((_from(item) for item in meant), default=day)
        ended |= {id(item) for item in meant if _from(item) <= max(day, next_day)}
    return [item for item in still_open if id(item) not in ended]


def _from(item: FollowUp) -> dt.date:
    return item.on or dt.date.max


def _same_place(item: FollowUp, work: Mapping[str, Any]) -> bool:
    """No place contradicts another; where one of the two says none, it is taken to be meant."""
    said = (work.get("part"), work.get("side"), work.get("level"))
    return all(
        mine is None or theirs is None or mine == theirs
        for mine, theirs in zip((item.part, item.side, item.level), said, strict=True)
    )


def _asked_by(entry: Entry, southern: bool) -> Iterable[FollowUp]:
    number = 0
    for table in entry.follow:
        if item := _item(entry, table, table.get("on", table.get("when")), number, "follow", southern):
            yield item
        number += 1
    if entry.kind == "plan":
        asked = {(table.get("work"), table.get("part")) for table in entry.follow}
        for work in entry.work:
            planned = (work.get("work"), work.get("part")) not in asked and work.get("done") in (None, "later")
            when = work.get("when", work.get("on", entry.when))
            if planned and (item := _item(entry, work, when, number, "plan", southern)):
                yield item
            number += 1
        if not entry.work and not entry.follow and entry.when:
            yield FollowUp("check", *_days(entry.when, southern), entry.said, entry.id, number, "plan")


def _item(entry: Entry, table: Mapping[str, Any], when: Any, number: int, kind: str, southern: bool) -> FollowUp | None:
    work = table.get("work")
    if not isinstance(work, str):
        return None
    on, until = _days(when, southern)
    closed_by = table.get("closed_by")
    item = FollowUp(work, on, until, _words(table, "says") or entry.said, entry.id, number, kind)
    return replace(
        item,
        part=_words(table, "part"),
        side=_words(table, "side"),
        level=_words(table, "level"),
        rule=_words(table, "rule"),
        weather=_words(table, "weather"),
        slips=_words(table, "slips"),
        closed_by=tuple(map(str, closed_by)) if isinstance(closed_by, list | tuple) else (),
    )


def _words(table: Mapping[str, Any], key: str) -> str | None:
    value = table.get(key)
    return value if isinstance(value, str) else None


def _days(when: Any, southern: bool) -> tuple[dt.date | None, dt.date | None]:
    """First and last day of a date, an ISO date, month or year, or a season of a year; (None, None) for none."""
    if isinstance(when, dt.datetime):
        when = when.date()
    if isinstance(when, dt.date):
        return when, when
    span = span_of(when) if isinstance(when, str) else None
    if span is None:
        return None, None
    year, month, day = int(span[1]), int(span[2] or 0), int(span[3] or 0)
    if first := _SEASONS.get(when[5:]):
        return _months(year, (first + 5) % 12 + 1 if southern else first, 3)
    if day:
        return dt.date(year, month, day), dt.date(year, month, day)
    return _months(year, month, 1) if month else _months(year, 1, 12)


def _months(year: int, month: int, count: int) -> tuple[dt.date, dt.date]:
    """First and last day of some months; a season goes by the year in which it begins."""
    first, last = dt.date(year, month, 1), month + count - 1
    year, last = year + (last > 12), (last - 1) % 12 + 1
    return first, dt.date.max if year > dt.MAXYEAR else dt.date(year, last, calendar.monthrange(year, last)[1])
