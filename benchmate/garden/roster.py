"""Which trees the garden has: every tree.toml, read once and again only when it changed."""

from __future__ import annotations

import datetime as dt
import os
import stat
import time
from pathlib import Path
from typing import Any

from benchmate.fault import Fault
from benchmate.garden.derived import SETTLED_NS, read_derived, write_derived
from benchmate.garden.journal import decoded, wrong_letters
from benchmate.garden.record import Tree
from benchmate.garden.shapes import SIZES, Slip, shown, tree_of
from benchmate.garden.toml_fault import told
from benchmate.value import dataclass, field

FILE = "trees.json"
LARGEST_BYTES = 1 << 20
Mark = list[int]  # size, time of change, time of change of its place: what tells one state of a file from another


@dataclass(slots=True)
class Roster:
    """trees, faults and marks by folder. read_ns: the clock when the files were looked at."""

    trees: dict[str, Tree] = field(default_factory=dict)
    faults: dict[str, tuple[Fault, ...]] = field(default_factory=dict)
    marks: dict[str, Mark] = field(default_factory=dict)
    read_ns: int = 0


def read_roster(garden: Path, root: str, known: Roster | None = None) -> Roster:
    """All trees, from what is known of files that did not change since. root: the garden's real path.

    Raises OSError where the garden itself cannot be listed.
    """
    known = known or _from_derived(garden) or Roster()
    roster, changed = Roster(read_ns=time.time_ns()), False
    with os.scandir(garden) as listing:
        found = sorted((item for item in listing if not item.name.startswith(".")), key=lambda item: item.name)
    for item in found:
        folder = item.name
        if item.is_symlink() and (trouble := _link_trouble(garden, root, folder)):
            roster.faults[folder] = trouble
            continue
        mark, trouble = _mark_of(garden, folder)
        if trouble:
            roster.faults[folder] = trouble
        if mark is None:
            continue
        if known.marks.get(folder) == mark and mark[1] < known.read_ns - SETTLED_NS:
            roster.trees[folder] = known.trees[folder]
            if folder in known.faults:
                roster.faults[folder] = known.faults[folder]
        else:
            changed = True
            tree, roster.faults[folder] = read_tree(garden / folder / "tree.toml", folder)
            roster.trees[folder] = tree
        roster.marks[folder] = mark
    if changed or roster.marks.keys() != known.marks.keys():
        _keep(garden, roster)
    return roster


def _link_trouble(garden: Path, root: str, folder: str) -> tuple[Fault, ...]:
    target = os.path.realpath(garden / folder)
    if not os.path.isdir(target) or target.startswith(root + os.sep):
        return ()
    problem, remedy = "a link that leads out of the garden is not followed", "move the folder itself here"
    return (Fault(shown(str(garden / folder), 300), 0, "", problem, remedy),)


def _mark_of(garden: Path, folder: str) -> tuple[Mark | None, tuple[Fault, ...]]:
    path = os.path.join(garden, folder, "tree.toml")
    try:
        state = os.lstat(path)
    except (OSError, ValueError):
        return None, ()
    if not folder.isprintable():
        problem, remedy = "a folder name with control characters is passed over", "rename the folder"
        return None, (Fault(shown(path, 300), 0, "", problem, remedy),)
    if not stat.S_ISREG(state.st_mode):
        problem = "it is a link or no plain file, and is not read"
        return None, (Fault(path, 0, "", problem, "put a plain file there"),)
    return [state.st_size, state.st_mtime_ns, state.st_ctime_ns], ()


def is_as_read(garden: Path, tree: Tree, roster: Roster) -> bool:
    """The tree's file is in the state in which it was read."""
    return _mark_of(garden, tree.folder)[0] == roster.marks.get(tree.folder)


def read_tree(path: Path, folder: str, strict: bool = False) -> tuple[Tree, tuple[Fault, ...]]:
    """One tree.toml; what cannot be read of it leaves a tree that goes by its folder."""
    table, text, faults = read_table(path)
    tree, slips = tree_of(table, folder)
    return tree, faults or tuple(fault_at(slip, path, text) for slip in slips)


def read_table(path: Path) -> tuple[dict[str, Any], str, tuple[Fault, ...]]:
    """A small TOML file: its table, its text, and what is wrong with it as a whole."""
    import tomllib  # slow to import, and not needed where nothing changed

    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as fault:
        why = fault.strerror or "it cannot be read"
        return {}, "", (Fault(str(path), 0, "", why, "see that the file is there and may be read"),)
    if len(data) > LARGEST_BYTES:
        return (
            {},
            "",
            (Fault(str(path), 0, "", "it is larger than 1 MB, and is not read", "keep long notes elsewhere"),),
        )
    text = decoded(data)
    faults = wrong_letters(data, str(path)) if "\ufffd" in text else ()
    try:
        return tomllib.loads(text), text, faults
    except (ValueError, RecursionError) as fault:
        row, problem, remedy = told(str(fault), text)
        return {}, text, (*faults, Fault(str(path), row + 1, "", problem, remedy))


def fault_at(slip: Slip, path: Path, text: str) -> Fault:
    """The slip with the line of its key."""
    rows = text.split("\n")
    line = next((row for row, words in enumerate(rows, 1) if words.lstrip(" \t[").startswith(slip.key)), 0)
    return Fault(str(path), line, shown(slip.id or slip.key), slip.problem, slip.remedy)


def _keep(garden: Path, roster: Roster) -> None:
    trees = {
        folder: [
            mark,
            [tree.name, tree.species, tree.origin, tree.phase, tree.health, tree.since and tree.since.isoformat()],
            dict(tree.pot),
            dict(tree.size),
            list(tree.was),
            [list(fault.as_json().values())[1:] for fault in roster.faults.get(folder, ())],
        ]
        for folder, mark in roster.marks.items()
        for tree in [roster.trees[folder]]
    }
    write_derived(garden, FILE, {"read_ns": roster.read_ns, "trees": trees})


def _from_derived(garden: Path) -> Roster | None:
    kept = read_derived(garden, FILE)
    try:
        roster = Roster(read_ns=kept["read_ns"])
        for folder, (mark, words, pot, size, was, faults) in kept["trees"].items():
            if not all(word is None or isinstance(word, str) for word in words) or not isinstance(words[0], str):
                return None
            if not (SIZES.fits(pot) and SIZES.fits(size) and all(isinstance(old, str) for old in was)):
                return None
            name, species, origin, phase, health, since = words
            since = since and dt.date.fromisoformat(since)
            roster.marks[folder] = mark
            roster.trees[folder] = Tree(name, folder, species, origin, phase, health, since, pot, size, tuple(was))
            if faults:
                path = str(garden / folder / "tree.toml")
                roster.faults[folder] = tuple(Fault(path, *fault) for fault in faults)
    except (KeyError, TypeError, ValueError, AttributeError):
        return None
    return roster
