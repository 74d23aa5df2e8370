"""Entries of the trees that were asked for last, as long as their files stay the same."""

from __future__ import annotations

import os
from pathlib import Path

from benchmate.fault import Fault
from benchmate.garden.append import Appended
from benchmate.garden.journal import in_order
from benchmate.garden.marks import Mark, Marks, marks_of
from benchmate.garden.reader import read_journals
from benchmate.garden.record import Entry

MOST_TREES = 16


class Shelf:
    """One garden's. faults: of the journals read last, by folder."""

    def __init__(self, garden: Path) -> None:
        self._garden = garden
        self._kept: dict[str, tuple[Marks, tuple[Entry, ...]]] = {}
        self.faults: dict[str, tuple[Fault, ...]] = {}

    def entries(self, folder: str) -> tuple[Entry, ...]:
        """All entries of the tree in this folder, from its files where they changed."""
        marks, kept = marks_of(os.path.join(self._garden, folder)), self._kept.get(folder)
        if kept and kept[0] == marks:
            entries = kept[1]
        else:
            entries, self.faults[folder] = read_journals(self._garden / folder)
        self._put(folder, marks, entries)
        return entries

    def grew(self, folder: str, file: str, appended: Appended) -> None:
        """Take in what this process appended, where nobody else wrote since the entries were read."""
        kept = self._kept.pop(folder, None)
        if appended.faults:
            self.faults.pop(folder, None)
        if kept is None:
            return
        marks = marks_of(os.path.join(self._garden, folder))
        others, size = _but(kept[0], file)
        others_now, size_now = _but(marks, file)
        if (size, size_now) == (appended.grew_from, appended.size) and others == others_now:
            self._put(folder, marks, in_order(kept[1] + appended.entries, bool(others)))

    def _put(self, folder: str, marks: Marks, entries: tuple[Entry, ...]) -> None:
        self._kept.pop(folder, None)
        self._kept[folder] = (marks, entries)
        if len(self._kept) > MOST_TREES:
            del self._kept[next(iter(self._kept))]


def _but(marks: Marks, file: str) -> tuple[list[Mark], int]:
    """The marks of the other files, and the size of this one."""
    size = sum(mark.size for mark in marks.files if mark.name == file)
    return [mark for mark in marks.files if mark.name != file], size
