"""The derived index: of each tree what `due` and questions over the whole garden ask for, without its journal.

Kept in GARDEN/.benchmate, compared with the journals by size, time and last bytes; what does not agree is read again.
The journals stay the only truth. Rows stay packed until they are asked for: of a thousand trees few are.
"""

from __future__ import annotations

import datetime as dt
import os
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from benchmate.fault import Fault
from benchmate.garden.derived import SETTLED_NS, read_derived, write_derived
from benchmate.garden.follow import FollowUp, follow_ups
from benchmate.garden.journal import standing
from benchmate.garden.marks import Marks, marks_of
from benchmate.garden.record import Entry
from benchmate.garden.shapes import shown
from benchmate.value import dataclass, field

FILE = "index.json"
Progress = Callable[[int, int], None]
Packed = list[Any]

_LAST_DAY = dt.date.max.toordinal()
FEW = 8  # journals read anew that are not worth writing the whole index for
_day = dt.date.fromordinal
_ITEM = FollowUp.__match_args__


@dataclass(frozen=True, slots=True)
class Glance:
    """A tree's record at a glance.

    open: its open follow-ups. last: work -> the day on which it was last done. health, phase: the last one said in the
    journal, None where none was. count: entries that stand. newest: the day of the newest of them.
    """

    open: tuple[FollowUp, ...] = ()
    last: Mapping[str, dt.date] = field(default_factory=dict)
    health: str | None = None
    phase: str | None = None
    count: int = 0
    newest: dt.date | None = None


class Row(NamedTuple):
    """One tree in the index. open: follow-ups, packed. rest: what else a glance has. faults: those of its journals."""

    marks: Marks
    open: list[Packed]
    rest: Packed
    faults: list[Packed]


@dataclass(slots=True)
class Index:
    """rows by folder. read_ns: the clock when the journals were looked at. southern: how seasons were taken."""

    southern: bool
    rows: dict[str, Row] = field(default_factory=dict)
    read_ns: int = 0

    def glance(self, folder: str) -> Glance:
        row = self.rows[folder]
        last, health, phase, count, newest = row.rest
        days = {work: _day(day) for work, day in last.items()}
        return Glance(tuple(map(_unpacked, row.open)), days, health, phase, count, newest and _day(newest))

    def open_by(self, folder: str, last: dt.date) -> tuple[FollowUp, ...]:
        """The tree's open follow-ups whose first day is no later than `last`."""
        day = last.toordinal()
        return tuple(_unpacked(item) for item in self.rows[folder].open if item[1] and item[1] <= day)

    def written_after(self, folder: str, on: dt.date) -> bool:
        """Whether the tree's record holds an entry of a later day."""
        newest = self.rows[folder].rest[4]
        return newest is not None and newest > on.toordinal()

    def faults(self, garden: Path, folder: str) -> tuple[Fault, ...]:
        found = self.rows[folder].faults
        return tuple(Fault(shown(str(garden / folder / name), 300), *rest) for name, *rest in found)


def row_of(entries: Iterable[Entry], faults: Iterable[Fault], marks: Marks, southern: bool) -> Row:
    """What the index keeps of one tree."""
    counting = standing(entries)
    last: dict[str, int] = {}
    said: dict[str, str] = {}
    for entry in counting:
        if entry.kind == "done":
            for work in entry.work:
                name = work.get("work")
                if isinstance(name, str) and work.get("done") not in ("not", "later"):
                    last[name] = entry.day.toordinal()
        for fact in entry.facts:
            if fact.get("kind") in ("health", "phase") and isinstance(fact.get("value"), str) and not fact.get("not"):
                said[fact["kind"]] = fact["value"]
    newest = counting[-1].day.toordinal() if counting else None
    rest = [last, said.get("health"), said.get("phase"), len(counting), newest]
    told = [[os.path.basename(fault.path), fault.line, fault.id, fault.problem, fault.remedy] for fault in faults]
    return Row(marks, [_packed(item) for item in follow_ups(counting, southern)], rest, told)


def refreshed(
    garden: Path,
    folders: Iterable[str],
    southern: bool,
    known: Index | None,
    read: Callable[[Path], tuple[tuple[Entry, ...], tuple[Fault, ...]]],
    progress: Progress | None = None,
) -> Index:
    """The index as the files are now; what changed is read with `read`, by folder.

    progress: is told how many of the journals to be read are read. It may be stopped by an exception or from the
    keyboard: what was read until then is kept.
    """
    before = known or _from_derived(garden) or Index(southern)
    if before.southern != southern:
        before = Index(southern)
    trusted_ns = before.read_ns - SETTLED_NS
    index = Index(southern, {}, time.time_ns())
    stale = []
    for folder in folders:
        old = before.rows.get(folder)
        marks = marks_of(
            os.path.join(garden, folder), old.marks if old else None, trusted_ns, compared=known is not None
        )
        if old and old.marks.files == marks.files and all(mark.changed_ns < trusted_ns for mark in marks.files):
            index.rows[folder] = Row(marks, *old[1:])
        else:
            stale.append((folder, marks))
    done = 0
    try:
        for folder, marks in stale:
            index.rows[folder] = row_of(*read(garden / folder), marks, southern)
            done += 1
            if progress:
                progress(done, len(stale))
    finally:
        # a talk that logs now and again reads one journal anew and leaves it to the next start to write the whole
        if (done and (known is None or done > FEW)) or index.rows.keys() != before.rows.keys():
            value = {"southern": southern, "read_ns": index.read_ns, "follow": _ITEM, "trees": index.rows}
            write_derived(garden, FILE, value)
    return index


def _from_derived(garden: Path) -> Index | None:
    kept = read_derived(garden, FILE)
    try:
        if tuple(kept["follow"]) != _ITEM:
            return None
        rows = {folder: Row(Marks.from_plain(row[0]), *row[1:]) for folder, row in kept["trees"].items()}
        return Index(kept["southern"], rows, int(kept["read_ns"])) if all(map(_sound, rows.values())) else None
    except (KeyError, TypeError, ValueError, AttributeError):
        return None


def _sound(row: Row) -> bool:
    """Each value is of its kind, so that nothing can go wrong when the row is unpacked later."""
    last, health, phase, count, newest = row.rest
    words, numbers, days = [health, phase], [count], [*last.values(), newest]
    for item in row.open:
        words += [item[0], *item[3:5], *item[6 : len(_ITEM) - 1]]
        numbers += item[5:6]
        days += item[1:3]
        if not 5 <= len(item) <= len(_ITEM) or not all(isinstance(works, list) for works in item[len(_ITEM) - 1 :]):
            return False
    for name, line, *told in row.faults:
        words += [name, *told]
        numbers.append(line)
        if len(told) != 3:
            return False
    return (
        all(word is None or isinstance(word, str) for word in words)
        and all(isinstance(number, int) for number in numbers)
        and all(day is None or (isinstance(day, int) and 1 <= day <= _LAST_DAY) for day in days)
    )


def _packed(item: FollowUp) -> Packed:
    """The fields in order, days as numbers, without the last ones that say nothing."""
    values = [getattr(item, name) for name in _ITEM]
    values[1:3] = [day and day.toordinal() for day in values[1:3]]
    while not values[-1]:
        values.pop()
    return values


def _unpacked(values: Sequence[Any]) -> FollowUp:
    work, on, until, *rest = values
    if len(values) == len(_ITEM):
        rest[-1] = tuple(rest[-1])
    return FollowUp(work, on and _day(on), until and _day(until), *rest)
