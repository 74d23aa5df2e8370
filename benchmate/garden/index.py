"""The derived index: of each tree what `due` and questions over the whole garden ask for, without its journal.

Kept in GARDEN/.benchmate and checked against the journals' sizes, times and last bytes; what does not agree is read
again. The journals stay the only truth.
"""

from __future__ import annotations

import datetime as dt
import os
import stat
import time
import zlib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any

from benchmate.fault import Fault
from benchmate.garden.derived import SETTLED_NS, read_derived, write_derived
from benchmate.garden.follow import FollowUp, follow_ups
from benchmate.garden.journal import standing
from benchmate.garden.reader import journal_names
from benchmate.garden.record import Entry
from benchmate.garden.shapes import shown

FILE = "index.json"
_TAIL_BYTES = 256
Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Mark:
    """What tells one state of a journal from another: its size, time of change and last bytes."""

    name: str
    size: int
    changed_ns: int
    tail: int


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
    faults: tuple[Fault, ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(slots=True)
class Index:
    """glances by folder. read_ns: the clock when the journals were looked at."""

    southern: bool
    glances: dict[str, Glance] = field(default_factory=dict)
    read_ns: int = 0


def marks_of(folder: Path, known: Sequence[Mark] = (), sure: bool = False) -> tuple[Mark, ...]:
    """The state of a tree's journals. sure: the known marks were compared by their last bytes in this process already.

    A file that is none (a link, a pipe) has a mark of its own, so that its fault is told again when it changes.
    """
    marks = []
    before = {mark.name: mark for mark in known} if sure else {}
    try:
        names = journal_names(folder)
    except OSError:
        return ()
    for name in names:
        path = os.path.join(folder, name)
        try:
            state = os.lstat(path)
            old = before.get(name)
            if old and (old.size, old.changed_ns) == (state.st_size, state.st_mtime_ns):
                marks.append(old)
            else:
                tail = _tail_digest(path, state.st_size) if stat.S_ISREG(state.st_mode) else -1
                marks.append(Mark(name, state.st_size, state.st_mtime_ns, tail))
        except OSError:
            marks.append(Mark(name, -1, 0, -1))
    return tuple(marks)


def _tail_digest(path: str, size: int) -> int:
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        os.lseek(descriptor, max(0, size - _TAIL_BYTES), os.SEEK_SET)
        return zlib.crc32(os.read(descriptor, _TAIL_BYTES))
    finally:
        os.close(descriptor)


def glance_of(entries: Iterable[Entry], southern: bool) -> Glance:
    """What the index keeps of one tree, without its marks and faults."""
    counting = standing(entries)
    last: dict[str, dt.date] = {}
    said: dict[str, str] = {}
    for entry in counting:
        if entry.kind == "done":
            for work in entry.work:
                name = work.get("work")
                if isinstance(name, str) and work.get("done") not in ("not", "later"):
                    last[name] = entry.day
        for fact in entry.facts:
            if fact.get("kind") in ("health", "phase") and isinstance(fact.get("value"), str) and not fact.get("not"):
                said[fact["kind"]] = fact["value"]
    newest = counting[-1].day if counting else None
    return Glance(follow_ups(counting, southern), last, said.get("health"), said.get("phase"), len(counting), newest)


def refreshed(
    garden: Path,
    folders: Iterable[str],
    southern: bool,
    known: Index | None,
    read: Callable[[str], tuple[tuple[Entry, ...], tuple[Fault, ...]]],
    progress: Progress | None = None,
) -> Index:
    """The index as the files are now; what changed is read with `read`, by folder.

    progress: is told how many of the journals to be read are read. It may be stopped by an exception or from the
    keyboard: what was read until then is kept.
    """
    sure = known is not None
    before = known or _from_derived(garden) or Index(southern)
    if before.southern != southern:
        before = Index(southern)
    index = Index(southern, {}, time.time_ns())
    stale = []
    for folder in folders:
        old = before.glances.get(folder)
        marks = marks_of(garden / folder, old.marks if old else (), sure)
        if old and old.marks == marks and _settled(marks, before.read_ns):
            index.glances[folder] = old
        else:
            stale.append((folder, marks))
    done = 0
    try:
        for folder, marks in stale:
            entries, faults = read(folder)
            index.glances[folder] = replace(glance_of(entries, southern), faults=faults, marks=marks)
            done += 1
            if progress:
                progress(done, len(stale))
    finally:
        if done or index.glances.keys() != before.glances.keys():
            _keep(garden, index)
    return index


def _settled(marks: Iterable[Mark], read_ns: int) -> bool:
    return all(mark.changed_ns < read_ns - SETTLED_NS for mark in marks)


_ITEM = tuple(item.name for item in fields(FollowUp))


def _keep(garden: Path, index: Index) -> None:
    trees = {folder: _packed(glance) for folder, glance in index.glances.items()}
    value = {"southern": index.southern, "read_ns": index.read_ns, "follow": _ITEM, "trees": trees}
    write_derived(garden, FILE, value)


def _packed(glance: Glance) -> list[Any]:
    return [
        [[mark.name, mark.size, mark.changed_ns, mark.tail] for mark in glance.marks],
        [[_day_text(getattr(item, name)) for name in _ITEM] for item in glance.open],
        {work: day.isoformat() for work, day in glance.last.items()},
        [glance.health, glance.phase, glance.count, _day_text(glance.newest)],
        [list(fault.as_json().values()) for fault in glance.faults],
    ]


def _day_text(value: Any) -> Any:
    return value.isoformat() if isinstance(value, dt.date) else value


def _from_derived(garden: Path) -> Index | None:
    kept = read_derived(garden, FILE)
    try:
        if tuple(kept["follow"]) != _ITEM:
            return None
        glances = {folder: _unpacked(packed, garden / folder) for folder, packed in kept["trees"].items()}
        return Index(kept["southern"], glances, kept["read_ns"])
    except (KeyError, TypeError, ValueError, AttributeError):
        return None


def _unpacked(packed: Sequence[Any], folder: Path) -> Glance:
    marks, still_open, last, (health, phase, count, newest), faults = packed
    return Glance(
        tuple(_follow_up(item) for item in still_open),
        {work: dt.date.fromisoformat(day) for work, day in last.items()},
        health,
        phase,
        count,
        newest and dt.date.fromisoformat(newest),
        tuple(Fault(shown(str(folder / os.path.basename(fault[0])), 300), *fault[1:]) for fault in faults),
        tuple(Mark(*mark) for mark in marks),
    )


def _follow_up(values: Sequence[Any]) -> FollowUp:
    kept = dict(zip(_ITEM, values, strict=True))
    for key in ("on", "until"):
        kept[key] = dt.date.fromisoformat(kept[key]) if kept[key] else None
    return FollowUp(**kept | {"closed_by": tuple(kept["closed_by"])})
