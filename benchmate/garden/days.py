"""On which days each tree was worked on: what a question over many trees asks for, without their journals.

Derived beside the index and kept by the same marks: what does not agree with the journals is read again. Of the few
entries that an answer then shows only their own pieces of a journal are read.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from pathlib import Path

from benchmate.fault import Fault
from benchmate.garden.derived import SETTLED_NS, read_derived, write_derived
from benchmate.garden.index import FEW, Index
from benchmate.garden.journal import decoded, standing
from benchmate.garden.marks import Mark
from benchmate.garden.pieces import read_piece, read_quickly, split
from benchmate.garden.reader import journal_paths, read_journals
from benchmate.garden.record import Entry
from benchmate.garden.shapes import entry_of
from benchmate.value import dataclass, field

FILE = "days.json"
EVERY = ""  # stands for all entries, whatever they hold
Packed = Mapping[str, str]  # "repot" or "left leave" -> days as numbers, oldest first
Read = Callable[[Path], tuple[tuple[Entry, ...], tuple[Fault, ...]]]


def packed(entries: Iterable[Entry]) -> Packed:
    """The days of one tree's entries that stand: of each work done, of each left, and of all."""
    days: dict[str, list[str]] = {EVERY: []}
    for entry in standing(entries):
        day = str(entry.day.toordinal())
        days[EVERY].append(day)
        if entry.kind in ("done", "left"):
            works = {work["work"] for work in entry.work if isinstance(work.get("work"), str)}
            for work in works:
                days.setdefault(_key(work, entry.kind), []).append(day)
    return {key: " ".join(numbers) for key, numbers in days.items()}


def _key(work: str, kind: str) -> str:
    return work if kind == "done" else f"{kind} {work}"


@dataclass(slots=True)
class Days:
    """rows: folder -> (marks of its journal files, days). read_ns: the clock when they were read."""

    rows: dict[str, tuple[tuple[Mark, ...], Packed]] = field(default_factory=dict)
    read_ns: int = 0

    def of(self, folder: str, work: str = EVERY, kinds: Sequence[str] = ("done",)) -> list[int]:
        """Days, as ordinals, on which the tree has an entry of one of the kinds (done, left) with the work; with EVERY
        those of all its entries. An entry counts once, two on a day twice."""
        row = self.rows[folder][1]
        keys = [_key(work, kind) for kind in kinds] if work else [EVERY]
        return [day for key in keys for day in map(int, row.get(key, "").split())]


def refreshed(
    garden: Path, index: Index, known: Days | None, fresh: Mapping[str, Packed], read: Read = read_journals
) -> Days:
    """The days as the index has the journals; what neither `known`, nor `fresh`, nor the kept file tells is read."""
    before = known or _from_derived(garden) or Days()
    days = Days({}, index.read_ns)
    gone, anew = bool(before.rows.keys() - index.rows.keys()), 0
    for folder, row in index.rows.items():
        marks, old = row.marks.files, before.rows.get(folder)
        settled = all(mark.changed_ns < before.read_ns - SETTLED_NS for mark in marks)
        if old and old[0] == marks and settled:
            days.rows[folder] = old
        else:
            anew += 1
            days.rows[folder] = (marks, fresh[folder] if folder in fresh else packed(read(garden / folder)[0]))
    if gone or (anew and (known is None or anew > FEW)):  # as the index itself
        write_derived(garden, FILE, {"read_ns": days.read_ns, "trees": days.rows})
    return days


def _from_derived(garden: Path) -> Days | None:
    kept = read_derived(garden, FILE)
    try:
        rows = {folder: (tuple(Mark(*mark) for mark in marks), row) for folder, (marks, row) in kept["trees"].items()}
        sound = all(isinstance(days, str) for _, row in rows.values() for days in row.values())
        return Days(rows, int(kept["read_ns"])) if sound else None
    except (KeyError, TypeError, ValueError, AttributeError):
        return None


def entries_of_days(folder: Path, days: Collection[int], expected: Counter[int]) -> tuple[Entry, ...]:
    """A tree's entries of these days that stand, oldest first.

    expected: how many entries each day has. Only the pieces that name one of the days are read; where that does not
    give as many as expected (some were taken back, or are written in an unusual way) all of the journals are.
    """
    found = _by_pieces(folder, days)
    if found is not None and Counter(entry.day.toordinal() for entry in found) == expected:
        return found
    entries = standing(read_journals(folder)[0])
    return tuple(entry for entry in entries if entry.day.toordinal() in days)


def _by_pieces(folder: Path, days: Collection[int]) -> tuple[Entry, ...] | None:
    paths = list(journal_paths(folder))
    if len(paths) != 1 or paths[0][1]:
        return None
    try:
        text = decoded(paths[0][0].read_bytes())
    except OSError:
        return None
    names = [dt.date.fromordinal(day).isoformat() for day in days]
    found = []
    for piece in split(text):
        if any(name in piece.text for name in names):
            held = read_quickly(piece) or read_piece(piece)
            for table in held.tables:
                entry, slips = entry_of(table, str)
                if entry is None or slips or entry.kind == "struck":
                    return None
                if entry.day.toordinal() in days:
                    found.append(entry)
    return tuple(sorted(found, key=lambda entry: entry.day))
