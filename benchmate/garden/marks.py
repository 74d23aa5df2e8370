"""Marks of journals: what tells one state of a tree's files from another without reading them."""

from __future__ import annotations

import os
import stat
import zlib
from collections.abc import Sequence
from typing import Any, NamedTuple

from benchmate.garden.reader import journal_names

_TAIL_BYTES = 256


class Mark(NamedTuple):
    """One journal file: its size, time of change, and a digest of its last bytes."""

    name: str
    size: int
    changed_ns: int
    tail: int


class Marks(NamedTuple):
    """A tree's journal files. folder_ns: when a file last came to the folder or left it; 0 where that is not known."""

    folder_ns: int
    files: tuple[Mark, ...]

    @classmethod
    def from_plain(cls, value: Sequence[Any]) -> Marks:
        """From lists as JSON has them. Raises TypeError or ValueError for anything else."""
        folder_ns, files = value
        return cls(folder_ns, tuple(Mark(*file) for file in files))


def marks_of(folder: str, known: Marks | None = None, trusted_ns: int = 0, compared: bool = False) -> Marks:
    """The marks as the files are now.

    known: earlier ones, of use where the folder changed before trusted_ns. compared: their digests were compared in
    this process already, so that size and time are enough. A file that cannot be read has a mark of its own kind, so
    that its fault is told again when that changes.
    """
    try:
        folder_ns = os.stat(folder).st_mtime_ns
        if known and known.folder_ns == folder_ns < trusted_ns:
            names = [mark.name for mark in known.files]
        else:
            names = journal_names(folder)
    except OSError:
        return Marks(0, ())
    before = {mark.name: mark for mark in known.files} if known and compared else {}
    return Marks(folder_ns, tuple(_mark(folder, name, before.get(name)) for name in names))


def _mark(folder: str, name: str, old: Mark | None) -> Mark:
    path = os.path.join(folder, name)
    try:
        state = os.lstat(path)
        if old and (old.size, old.changed_ns) == (state.st_size, state.st_mtime_ns):
            return old
        tail = _tail_digest(path, state.st_size) if stat.S_ISREG(state.st_mode) else -1
        return Mark(name, state.st_size, state.st_mtime_ns, tail)
    except OSError:
        return Mark(name, -1, 0, -1)


def _tail_digest(path: str, size: int) -> int:
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        os.lseek(descriptor, max(0, size - _TAIL_BYTES), os.SEEK_SET)
        return zlib.crc32(os.read(descriptor, _TAIL_BYTES))
    finally:
        os.close(descriptor)
