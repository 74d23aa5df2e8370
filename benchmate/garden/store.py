"""The garden opened: its place and trees as they are asked for, journals one tree at a time, entries appended."""

from __future__ import annotations

import os
import time
from collections.abc import Mapping, Sequence
from pathlib import Path

from benchmate.fault import Fault, UserError
from benchmate.garden.append import NotLogged, append_entries
from benchmate.garden.derived import FOLDER
from benchmate.garden.follow import FollowUp, follow_ups
from benchmate.garden.index import Glance, Index, Mark, Progress, marks_of, refreshed
from benchmate.garden.journal import in_order, union
from benchmate.garden.making import keep_git_union
from benchmate.garden.naming import find_tree, folder_for, of_taxon
from benchmate.garden.reader import journal_paths, read_journals
from benchmate.garden.record import Entry, Place, Tree
from benchmate.garden.roster import Roster, fault_at, read_roster, read_table
from benchmate.garden.shapes import place_of, shown
from benchmate.garden.tail import read_last

_FRESH_S = 1.0  # how long a talk trusts its list of trees before it looks for changes by others
_KEPT = 16  # trees whose entries stay in memory


class NoGarden(UserError):
    """There is no garden where one was looked for."""


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
            raise NoGarden(f"no garden at {name}: {what}; give the garden's folder with --garden")
        if not (path / "garden.toml").is_file() and not any(path.glob("*/tree.toml")):
            raise NoGarden(f"no garden at {name}: it has no garden.toml; give another folder, or begin a garden there")
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
        self._roster_read_s = 0.0
        self._index: Index | None = None
        self._entries: dict[str, tuple[tuple[Mark, ...], tuple[Entry, ...]]] = {}
        self._faults: dict[str, tuple[Fault, ...]] = {}

    @property
    def faults(self) -> tuple[Fault, ...]:
        """What was found wrong in the files read so far, sorted by place."""
        return tuple(sorted({fault for faults in self._faults.values() for fault in faults}))

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
        return find_tree(name, self.trees())

    def trees_of(self, taxon: str) -> tuple[Tree, ...]:
        """The trees of a genus ("Acer"), species ("Acer campestre") or cultivar."""
        return of_taxon(taxon, self.trees())

    def entries(self, tree: Tree) -> tuple[Entry, ...]:
        """All entries of a tree, oldest first, struck ones and strikes too; `standing` drops those."""
        kept = self._entries.pop(tree.folder, None)
        marks = marks_of(self.path / tree.folder)
        if kept is None or kept[0] != marks:
            kept = (marks, self._read(tree.folder))
        self._keep(tree.folder, *kept)
        return kept[1]

    def tail(self, tree: Tree, count: int = 1) -> tuple[Entry, ...]:
        """The last `count` entries in the order in which they were written, without reading the rest."""
        journals = [
            (str(path), read_last(path, shown(str(path), 300), count))
            for path, trouble in journal_paths(self.path / tree.folder)
            if trouble is None
        ]
        entries = journals[0][1].entries if len(journals) == 1 else union(journals)[0]
        return entries[-count:]

    def follow_ups(self, tree: Tree) -> tuple[FollowUp, ...]:
        """The open follow-ups of one tree, undated ones too."""
        return follow_ups(self.entries(tree), self.place.southern)

    def glances(self, progress: Progress | None = None) -> Mapping[str, Glance]:
        """Every tree's record at a glance, by folder, from the derived index.

        progress: called with (read, to read) while journals are read; an exception from it stops the work without harm.
        """
        trees = self._trees().trees
        read = self._read_with_faults
        self._index = refreshed(self.path, trees, self.place.southern, self._index, read, progress)
        for folder, glance in self._index.glances.items():
            self._faults[f"{folder}/journal"] = glance.faults
        return self._index.glances

    def append(self, tree: Tree, entry: Entry) -> Entry:
        """Append one entry; it is on the disk when this returns. An entry with an empty id gets one.

        Raises NotLogged where it could not be written. What a kill left half-written before is set aside, see `faults`.
        """
        return self.append_all(tree, (entry,))[0]

    def append_all(self, tree: Tree, entries: Sequence[Entry]) -> tuple[Entry, ...]:
        """Append several entries with one flush to the disk, as `append` does with one."""
        folder = self.path / tree.folder
        path = folder / self._own_journal()
        if not entries:
            return ()
        if not self._inside(folder):
            why = "the tree's folder is gone or leads out of the garden"
            raise NotLogged(path, why, "bring the folder back and say it again", entries)
        kept = self._entries.pop(tree.folder, None)
        appended = append_entries(path, entries)
        keep_git_union(self.path)
        if appended.faults:
            before = self._faults.get("set aside", ())
            self._faults["set aside"] = before + appended.faults
            self._faults.pop(f"{tree.folder}/journal", None)
        if kept and appended.grew_from == sum(mark.size for mark in kept[0] if mark.name == path.name):
            marks = marks_of(folder)
            others = [mark for mark in kept[0] if mark.name != path.name]
            if [mark for mark in marks if mark.name != path.name] == others and appended.size in (
                mark.size for mark in marks if mark.name == path.name
            ):
                self._keep(tree.folder, marks, in_order(kept[1] + appended.entries, bool(others)))
        return appended.entries

    def look_for_trees(self) -> None:
        """List the trees anew; called after a tree was made, too."""
        self._roster = read_roster(self.path, self._root, self._roster)
        self._roster_read_s = time.monotonic()
        for folder, faults in self._roster.faults.items():
            self._faults[f"{folder}/tree"] = faults

    def forget_place(self) -> None:
        """Read garden.toml anew when next asked."""
        self._place = None

    def _keep(self, folder: str, marks: tuple[Mark, ...], entries: tuple[Entry, ...]) -> None:
        self._entries[folder] = (marks, entries)
        while len(self._entries) > _KEPT:
            del self._entries[next(iter(self._entries))]

    def _trees(self) -> Roster:
        if self._roster is None or time.monotonic() > self._roster_read_s + _FRESH_S:
            self.look_for_trees()
        assert self._roster is not None
        return self._roster

    def _inside(self, folder: Path) -> bool:
        real = os.path.realpath(folder)
        return os.path.dirname(real).startswith(self._root) and os.path.isdir(real)

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

    def _read(self, folder: str) -> tuple[Entry, ...]:
        entries, self._faults[f"{folder}/journal"] = self._read_with_faults(folder)
        return entries

    def _read_with_faults(self, folder: str) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
        return read_journals(self.path / folder)
