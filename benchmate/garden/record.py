"""The record's values: the place, a tree, a journal entry."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from benchmate.value import dataclass, field


@dataclass(frozen=True, slots=True)
class Place:
    """Where the garden is. latitude: degrees, south negative, or None. last_frost, first_frost: (month, day) of the
    mean last spring and first autumn frost, or None for a place that is frost-free or has not told. units: metric or
    imperial, for what is shown; files are metric."""

    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    last_frost: tuple[int, int] | None = None
    first_frost: tuple[int, int] | None = None
    units: str = "metric"

    @property
    def southern(self) -> bool:
        return self.latitude is not None and self.latitude < 0


@dataclass(frozen=True, slots=True)
class Tree:
    """What a tree is. pot and size: measures in mm (`length_mm`, `height_mm`, `base_mm`). was: the names that it went
    by before, by which it is still found, the oldest first."""

    name: str
    folder: str
    species: str | None = None
    origin: str | None = None
    phase: str | None = None
    health: str | None = None
    since: dt.date | None = None
    pot: Mapping[str, float] = field(default_factory=dict)
    size: Mapping[str, float] = field(default_factory=dict)
    was: tuple[str, ...] = ()


ENDS = ("died", "sold", "given")  # how a tree leaves the garden
KINDS = ("seen", "done", "plan", "left", "note", "struck")


@dataclass(frozen=True, slots=True)
class Entry:
    """One event of a journal. kind: seen, done, plan, left, note, struck.

    at: the day of the event (or day and time). facts, work: tables as in a reading (`{"kind": ..., "value": ...}`,
    `{"work": ..., "share": 0.33}`). strikes: the id that a struck entry takes back. follow: what to come back for, as
    tables with `work`, `part`, `on`, `says`, and where known `weather` (held back until then), `slips` (what is lost by
    waiting) and `closed_by` (other works that make it needless). when: the ISO date, month, year or season that the
    words speak of. ends: how the tree left the garden: nothing that was due on it is due any more. named: the name that
    the tree goes by from then on. expects: what the grower says will come, in his words: nobody has seen it, and no
    rule goes by it. more: keys that this program does not know, or whose value it cannot use, kept as they stand.
    """

    id: str
    at: dt.date
    kind: str
    said: str = ""
    facts: tuple[Mapping[str, Any], ...] = ()
    work: tuple[Mapping[str, Any], ...] = ()
    measures: Mapping[str, float] = field(default_factory=dict)
    reason: str | None = None
    refused: tuple[str, ...] = ()
    follow: tuple[Mapping[str, Any], ...] = ()
    strikes: str | None = None
    photo: str | None = None
    when: str | None = None
    ends: str | None = None
    named: str | None = None
    expects: str | None = None
    more: Mapping[str, Any] = field(default_factory=dict)

    @property
    def day(self) -> dt.date:
        """The day of the event, without its time."""
        return self.at.date() if isinstance(self.at, dt.datetime) else self.at
