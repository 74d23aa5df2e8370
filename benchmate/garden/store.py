"""The garden opened: its place and trees as they are asked for, journals one tree at a time, entries appended."""

from __future__ import annotations

import datetime as dt
import gc
import os
import time
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from benchmate.fault import Fault, UserError
from benchmate.garden.append import NotLogged, append_entries
from benchmate.garden.derived import FOLDER
from benchmate.garden.journal import union
from benchmate.garden.naming import NoSuchTree, find_tree, folder_for, of_taxon
from benchmate.garden.reader import journal_paths, read_journals
from benchmate.garden.record import Entry, Place, Tree
from benchmate.garden.roster import Roster, fault_at, is_as_read, read_roster, read_table
from benchmate.garden.shapes import place_of, shown
from benchmate.garden.shelf import Shelf
from benchmate.garden.tail import read_last

if TYPE_CHECKING:
    from benchmate.garden.days import Days, Packed
    from benchmate.garden.follow import FollowUp
    from benchmate.garden.index import Glance, Index, Progress

_MANY = 20  # journals read for the index at once, from which on their days are kept as well
_FRESH_S = 30.0  # how long a talk trusts its list of trees, where none came or went, before it looks at every file


class NoGarden(UserError):
    """There is no garden where one was looked for."""


_BEGIN = "or start benchmate in a terminal, which makes one (a folder that holds an empty garden.toml is one too)"


def open_garden(path: Path | str, device: str | None = None) -> Garden:
    """The garden in a folder; nothing is read yet.

    device: names the journal files that this device appends to (`journal-DEVICE.toml`); by default the variable
    BENCHMATE_DEVICE, else the file GARDEN/.benchmate/device, else the one `journal.toml`. Raises NoGarden.
    """
    path = Path(path)
    name = shown(str(path), 300)
    try:
        if not path.is_dir():
            what = "it is no folder" if path.exists() else "there is no such folder"
            raise NoGarden(f"no garden at {name}: {what}; give the garden's folder with --garden, {_BEGIN}")
        if not (path / "garden.toml").is_file() and not any(path.glob("*/tree.toml")):
            raise NoGarden(f"no garden at {name}: it has no garden.toml; give another folder, {_BEGIN}")
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or "the path cannot be read"
        raise NoGarden(f"no garden at {name}: {why.lower()}; give another folder") from fault
    return Garden(path, device)


class Garden:
    """One garden. Faults are collected in `faults` as files are read; no fault of a file stops the others."""

    def __init__(self, path: Path, device: str | None = None) -> None:
        self.path = path
        self._root = os.path.realpath(path)
        self._device = device
        self._place: Place | None = None
        self._roster: Roster | None = None
        self._roster_read = (0.0, 0)  # when, and how new the garden's folder was then
        self._index: Index | None = None
        self._days: Days | None = None
        self._fresh_days: dict[str, Packed] = {}  # of journals that the index read, until they are kept
        self._shelf = Shelf(path)
        self._faults: dict[str, tuple[Fault, ...]] = {}

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What was found wrong in the files read so far, sorted by place."""
        found = [*self._faults.values(), *self._shelf.faults.values()]
        return tuple(sorted({fault for faults in found for fault in faults}))

    @property
    def place(self) -> Place:
        """Where the garden is; what garden.toml does not tell, or tells wrongly, is unknown."""
        if self._place is None:
            path = self.path / "garden.toml"
            table, text, faults = read_table(path)
            inner = table.get("place", {})
            self._place, slips = place_of(inner if isinstance(inner, dict) else {})
            self._faults["garden.toml"] = faults or tuple(fault_at(slip, path, text) for slip in slips)
        return self._place

    def trees(self) -> tuple[Tree, ...]:
        """All trees, by folder."""
        return tuple(self._trees().trees.values())

    def names(self) -> tuple[str, ...]:
        """The names that trees go by."""
        return tuple(tree.name for tree in self._trees().trees.values())

    def find(self, name: str) -> Tree:
        """The tree by its name or folder, whatever the case and hyphens, or by the beginning of one.

        Raises NoSuchTree, or AmbiguousTree that says which could be meant.
        """
        roster = self._trees()
        try:
            tree = find_tree(name, roster.trees.values())
            if is_as_read(self.path, tree, roster):
                return tree
        except NoSuchTree:
            pass
        self.look_for_trees()  # another may have been named or renamed since
        return find_tree(name, self.trees())

    def trees_of(self, taxon: str) -> tuple[Tree, ...]:
        """The trees of a genus ("Acer"), species ("Acer campestre") or cultivar."""
        return of_taxon(taxon, self.trees())

    def entries(self, tree: Tree) -> tuple[Entry, ...]:
        """All entries of a tree, oldest first, struck ones and strikes too; `standing` drops those."""
        return self._shelf.entries(tree.folder)

    def tail(self, tree: Tree, count: int = 1) -> tuple[Entry, ...]:
        """The last `count` entries in the order in which they were written, without reading the rest."""
        journals = [
            (str(path), read_last(path, shown(str(path), 300), count))
            for path, trouble in journal_paths(self.path / tree.folder)
            if trouble is None
        ]
        entries = journals[0][1].entries if len(journals) == 1 else union(journals)[0]
        return entries[-count:]

    def follow_ups(self, tree: Tree, on: dt.date | None = None) -> tuple[FollowUp, ...]:
        """The open follow-ups of one tree, undated ones too. on: the day that counts as today: what was written of
        later days neither asks nor closes anything yet."""
        from benchmate.garden.follow import follow_ups

        entries = [entry for entry in self.entries(tree) if on is None or entry.day <= on]
        return follow_ups(entries, self.place.southern)

    def index(self, progress: Progress | None = None) -> Index:
        """What the derived index has of every tree, brought up to date.

        progress: called with (read, to read) while journals are read; an exception from it stops the work without harm.
        """
        from benchmate.garden.days import packed
        from benchmate.garden.index import refreshed  # one statement about one tree needs none of it

        def read(folder: Path) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
            entries, faults = read_journals(folder)
            self._fresh_days[folder.name] = packed(entries)
            return entries, faults

        trees, first = self._trees().trees, self._index is None
        self._index = refreshed(self.path, trees, self.place.southern, self._index, read, progress)
        if len(self._fresh_days) > _MANY:  # to read so many journals a second time would be slow
            self._keep_days(self._index)
        if first and len(trees) > _MANY:
            gc.freeze()  # it stays as long as the process, and to go over it again and again costs more than an answer
        for folder in trees:
            self._shelf.faults[folder] = self._index.faults(self.path, folder)
        return self._index

    def glances(self, progress: Progress | None = None) -> Mapping[str, Glance]:
        """Every tree's record at a glance, by folder. progress: as in `index`."""
        index = self.index(progress)
        return {folder: index.glance(folder) for folder in index.rows}

    def days(self) -> Days:
        """On which days each tree was worked on, brought up to date."""
        return self._keep_days(self.index())

    def _keep_days(self, index: Index) -> Days:
        from benchmate.garden.days import refreshed

        self._days = refreshed(self.path, index, self._days, self._fresh_days)
        self._fresh_days.clear()
        return self._days

    def entries_of_days(self, tree: Tree, days: Collection[int], expected: Counter[int]) -> tuple[Entry, ...]:
        """The tree's entries of these days that stand. expected: how many each day has, by `days`."""
        from benchmate.garden.days import entries_of_days

        return entries_of_days(self.path / tree.folder, days, expected)

    def append(self, tree: Tree, entry: Entry) -> Entry:
        """Append one entry; it is on the disk when this returns. An entry with an empty id gets one.

        Raises NotLogged where it could not be written. What a kill left half-written before is set aside, see `faults`.
        """
        return self.append_all(tree, (entry,))[0]

    def append_all(self, tree: Tree, entries: Sequence[Entry]) -> tuple[Entry, ...]:
        """Append several entries with one flush to the disk, as `append` does with one."""
        from benchmate.garden.making import keep_git_union

        folder = self.path / tree.folder
        path = folder / self._own_journal()
        if not entries:
            return ()
        if not self._inside(folder):
            why = "the tree's folder is gone or leads out of the garden"
            raise NotLogged(path, why, "bring the folder back and say it again", entries)
        appended = append_entries(path, entries)
        self._shelf.grew(tree.folder, path.name, appended)
        if appended.faults:
            self._faults["set aside"] = self._faults.get("set aside", ()) + appended.faults
        keep_git_union(self.path)
        return appended.entries

    def look_for_trees(self) -> Roster:
        """List the trees anew; called after a tree was made, too. Raises NoGarden where the folder is gone."""
        read = (time.monotonic(), self._changed_ns())
        try:
            self._roster = roster = read_roster(self.path, self._root, self._roster)
        except OSError as fault:
            why = (fault.strerror or "it cannot be listed").lower()
            raise NoGarden(
                f"no garden at {shown(str(self.path), 300)} any more: {why}; bring the folder back"
            ) from fault
        self._roster_read = read
        for folder, faults in roster.faults.items():
            self._faults[f"{folder}/tree"] = faults
        return roster

    def forget_place(self) -> None:
        """Read garden.toml anew when next asked."""
        self._place = None

    def _trees(self) -> Roster:
        read_s, folder_ns = self._roster_read
        if self._roster and time.monotonic() < read_s + _FRESH_S and folder_ns == self._changed_ns():
            return self._roster
        return self.look_for_trees()

    def _changed_ns(self) -> int:
        try:
            return self.path.stat().st_mtime_ns
        except OSError:
            return 0

    def _inside(self, folder: Path) -> bool:
        real = os.path.realpath(folder)
        return real.startswith(self._root + os.sep) and os.path.isdir(real)

    def _own_journal(self) -> str:
        device = self._device
        if device is None:
            device = os.environ.get("BENCHMATE_DEVICE", "")
            if not device:
                try:
                    device = (self.path / FOLDER / "device").read_text(encoding="utf-8")[:200]
                except (OSError, ValueError):
                    device = ""
        return f"journal-{folder_for(device)}.toml" if device.strip() else "journal.toml"
