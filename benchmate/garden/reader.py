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
    """Each journal file, with a fault where it is not to be read: a link, no plain file, or beyond any size."""
    try:
        names = journal_names(folder)
    except OSError:
        return
    for name in names:
        path = folder / name
        try:
            state = os.lstat(path)
            if not stat.S_ISREG(state.st_mode):
                yield path, _unread(path, "it is a link or no plain file, and is not read", "put a plain file there")
            elif state.st_size > LARGEST_BYTES:
                problem = f"it is larger than {LARGEST_BYTES >> 20} MB, and is not read"
                yield path, _unread(path, problem, "split it into journal.toml and journal-2.toml")
            else:
                yield path, None
        except OSError as fault:
            yield path, _unread(path, fault.strerror or "it cannot be read", "see that it may be read")


def _unread(path: Path, problem: str, remedy: str) -> Fault:
    return Fault(shown(str(path), 300), 0, "", problem, remedy)


def read_journals(folder: Path, strict: bool = False) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
    """All entries of a tree as one, oldest first, and what is wrong in its journals. strict: tell small things too."""
    journals: list[tuple[str, Journal]] = []
    faults: list[Fault] = []
    for path, trouble in journal_paths(folder):
        name = shown(str(path), 300)
        if trouble is None:
            try:
                journal = read_journal(path.read_bytes(), name, strict)
                if journal.cut:  # another process may be at it this moment
                    journal = read_journal(read_undisturbed(path), name, strict)
                journals.append((name, journal))
                faults += journal.faults
            except OSError as fault:
                trouble = _unread(path, fault.strerror or "it cannot be read", "see that it may be read")
        if trouble:
            faults.append(trouble)
    entries, clashes = union(journals)
    return entries, (*faults, *clashes)
