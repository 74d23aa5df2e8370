"""A tree's journal files from the disk: which ones count, and what they hold together."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

from benchmate.fault import Fault
from benchmate.garden.journal import Journal, read_journal, union
from benchmate.garden.lock import read_undisturbed
from benchmate.garden.record import Entry
from benchmate.garden.shapes import shown

LARGEST_BYTES = 1 << 26


def journal_names(folder: Path | str) -> list[str]:
    """The names of a tree's journal files, `journal.toml` first. Raises OSError."""
    names = [name for name in os.listdir(folder) if name.startswith("journal") and name.endswith(".toml")]
    return sorted(names, key=lambda name: (name != "journal.toml", name)) if len(names) > 1 else names


def journal_paths(folder: Path) -> Iterator[tuple[Path, Fault | None]]:
    """Each journal file, with a fault where it is not to be read: a link, or no plain file."""
    try:
        names = journal_names(folder)
    except OSError:
        return
    for name in names:
        path = folder / name
        try:
            plain = stat.S_ISREG(os.lstat(path).st_mode)
            problem, remedy = "it is a link or no plain file, and is not read", "put a plain file there"
            yield path, None if plain else _unread(path, problem, remedy)
        except OSError as fault:
            yield path, _unread(path, fault.strerror or "it cannot be read", "see that it may be read")


def _unread(path: Path, problem: str, remedy: str) -> Fault:
    return Fault(shown(str(path), 300), 0, "", problem, remedy)


def read_journal_file(path: Path, strict: bool = False) -> Journal:
    """One journal file from the disk; one that cannot be read is a journal without entries and with a fault."""
    name = shown(str(path), 300)
    try:
        if path.stat().st_size > LARGEST_BYTES:
            problem = f"it is larger than {LARGEST_BYTES >> 20} MB, and is not read"
            return Journal(faults=(_unread(path, problem, "split it into journal.toml and journal-2.toml"),))
        journal = read_journal(path.read_bytes(), name, strict)
        if journal.cut:  # another process may be at it this moment
            journal = read_journal(read_undisturbed(path), name, strict)
        return journal
    except OSError as fault:
        return Journal(faults=(_unread(path, fault.strerror or "it cannot be read", "see that it may be read"),))


def read_each(folder: Path, strict: bool = False) -> list[tuple[str, Journal]]:
    """Every journal file of a tree by itself, with the name that its faults carry. strict: tell small things too."""
    return [
        (shown(str(path), 300), Journal(faults=(trouble,)) if trouble else read_journal_file(path, strict))
        for path, trouble in journal_paths(folder)
    ]


def read_journals(folder: Path) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
    """All entries of a tree as one, oldest first, and what is wrong in its journals."""
    journals = read_each(folder)
    entries, clashes = union(journals)
    return entries, (*(fault for _, journal in journals for fault in journal.faults), *clashes)
