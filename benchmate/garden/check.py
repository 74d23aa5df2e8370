"""Looks over all the files of a garden: what is wrong, where, and what mends it. Changes nothing."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

from benchmate.fault import Fault
from benchmate.garden.journal import union
from benchmate.garden.making import GIT_UNION
from benchmate.garden.naming import spoken
from benchmate.garden.reader import journal_names, read_each
from benchmate.garden.record import Entry, Tree
from benchmate.garden.roster import fault_at, read_roster, read_table, read_tree
from benchmate.garden.shapes import PLACE_KEYS, TREE_KEYS, Slip, nearest, place_of, shown, unknown_keys
from benchmate.garden.tail import torn_fault

Words = Mapping[str, Collection[str]]


def check_garden(
    path: Path | str, words: Words | None = None, progress: Callable[[int, int], None] | None = None
) -> list[Fault]:
    """All faults of a garden's files, sorted by place; an empty list where nothing is wrong.

    words: the values that are known, under "phase", "health" and "work"; what is not given is not checked.
    progress: is told (trees looked at, trees). Never raises for what the files hold.
    """
    garden, words = Path(path), words or {}
    faults = list(_place_faults(garden))
    try:
        root = os.path.realpath(garden)
        roster = read_roster(garden, root)
        faults += _git_faults(garden)
        faults += _stray_folders(garden, set(roster.trees))
    except (OSError, ValueError) as fault:
        why = (getattr(fault, "strerror", None) or "it cannot be read").lower()
        return [*faults, Fault(shown(str(path), 300), 0, "", why, "give the garden's folder")]
    faults += [fault for folder, found in roster.faults.items() if folder not in roster.trees for fault in found]
    faults += _same_names(garden, roster.trees.values())
    for number, folder in enumerate(roster.trees, 1):
        faults += _tree_faults(garden / folder, folder, words)
        if progress:
            progress(number, len(roster.trees))
    return sorted(set(faults))


def _place_faults(garden: Path) -> Iterator[Fault]:
    path = garden / "garden.toml"
    table, text, faults = read_table(path)
    yield from faults
    if faults:
        return
    inner = table.get("place")
    if not isinstance(inner, dict):
        yield Fault(
            str(path), 0, "", "there is no [place]", "add a line [place], and below it name, latitude and frosts"
        )
        inner = {}
    slips = [*unknown_keys(inner, PLACE_KEYS), *place_of(inner)[1]]
    slips += [
        Slip(key, f"unknown table or key {shown(repr(key))}", "what the place tells stands below [place]")
        for key in table
        if key != "place"
    ]
    yield from (fault_at(slip, path, text) for slip in slips)


def _git_faults(garden: Path) -> Iterator[Fault]:
    path = garden / ".gitattributes"
    home = Path(os.path.realpath(garden))
    if not any((folder / ".git").exists() for folder in (home, *home.parents)):
        return
    try:
        rules = path.read_text(encoding="utf-8", errors="replace")
    except OSError:
        rules = ""
    if not re.search(r"^\S*journal\S*\.toml\s.*\bmerge=union\b", rules, re.MULTILINE):
        problem = "git is not told to merge two copies of a journal into the union of their entries"
        yield Fault(str(path), 0, "", problem, f"add the line {GIT_UNION.strip()}")


def _stray_folders(garden: Path, trees: set[str]) -> Iterator[Fault]:
    for name in sorted(os.listdir(garden)):
        folder = garden / name
        if name.startswith(".") or name in trees or not folder.is_dir() or folder.is_symlink():
            continue
        if any(journal_names(folder)) and not os.path.lexists(folder / "tree.toml"):
            problem = "a journal without a tree.toml belongs to no tree"
            yield Fault(
                shown(str(folder), 300), 0, "", problem, 'add a tree.toml with a line such as name = "Gatepost"'
            )


def _same_names(garden: Path, trees: Collection[Tree]) -> Iterator[Fault]:
    first: dict[str, Tree] = {}
    for tree in trees:
        other = first.setdefault(spoken(tree.name), tree)
        if other is not tree:
            problem = f"it has the same name as the tree in {shown(other.folder)}, so neither is found by it"
            yield Fault(
                str(garden / tree.folder / "tree.toml"), 0, shown(tree.name), problem, "change one of the names"
            )


def _tree_faults(folder: Path, name: str, words: Words) -> Iterator[Fault]:
    path = folder / "tree.toml"
    table, text, broken = read_table(path)
    tree, faults = read_tree(path, name)
    yield from faults
    if not broken:
        slips = [*unknown_keys(table, TREE_KEYS), *_unknown_words({"phase": tree.phase, "health": tree.health}, words)]
        yield from (fault_at(slip, path, text) for slip in slips)
    journals = read_each(folder, strict=True)
    entries, clashes = union(journals)
    yield from (fault for _, journal in journals for fault in journal.faults)
    yield from clashes
    places = {
        entry.id: (name, line)
        for name, journal in journals
        for entry, line in zip(journal.entries, journal.lines, strict=True)
    }
    for entry in entries:
        for slip in (*_strike_slips(entry, places), *_table_slips(entry, words)):
            yield Fault(*places[entry.id], shown(entry.id), slip.problem, slip.remedy)
    yield from _set_aside(folder)


def _unknown_words(values: Mapping[str, Any], words: Words) -> Iterator[Slip]:
    for key, value in values.items():
        known = words.get(key)
        if known and isinstance(value, str) and value not in known:
            near = nearest(value, list(known))
            remedy = f"did you mean {near!r}?" if near else f"it is one of {', '.join(sorted(known))}"
            yield Slip(key, f"unknown {key} {shown(repr(value))}", remedy)


def _strike_slips(entry: Entry, places: Mapping[str, Any]) -> Iterator[Slip]:
    aim = entry.strikes
    if entry.kind == "struck" and not aim:
        yield Slip("strikes", "it strikes nothing", 'add a line such as strikes = "2026-03-14-a"')
    elif aim == entry.id:
        yield Slip("strikes", "it strikes itself", "give it the id of the entry that it takes back")
    elif aim and aim not in places:
        near = nearest(aim, list(places))
        remedy = f"did you mean {shown(near)}?" if near else "bring the other journal file here, or take the strike out"
        yield Slip("strikes", f"it strikes {shown(aim)}, which no journal of the tree has", remedy)


def _table_slips(entry: Entry, words: Words) -> Iterator[Slip]:
    for table in (*entry.work, *entry.follow):
        yield from _unknown_words({"work": table.get("work")}, words)
    if entry.photo and (Path(entry.photo).is_absolute() or ".." in Path(entry.photo).parts):
        yield Slip("photo", "the photograph is outside of the tree's folder", "put it there and give its name")


def _set_aside(folder: Path) -> Iterator[Fault]:
    for path in sorted(folder.glob("journal.torn-*.txt")):
        try:
            text = path.read_bytes()[:1000].decode("utf-8", "replace") if path.is_file() else ""
        except OSError:
            text = ""
        yield torn_fault(path, text)
