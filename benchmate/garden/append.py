"""Appends entries to a journal so that what was acknowledged stays, whatever happens a moment later.

The file is locked; its tail is looked at; what a kill left half-written there is set aside in a file of its own, under
the lock and safely on the disk before it leaves the journal; then the entry is written and flushed to the disk, and
only then acknowledged. Nothing before the tail is ever touched.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple

from benchmate.fault import Fault, UserError
from benchmate.garden.disk import flush_folder, write_all
from benchmate.garden.ids import new_id
from benchmate.garden.lock import Busy, held
from benchmate.garden.record import KINDS, Entry
from benchmate.garden.shapes import dated, shown
from benchmate.garden.tail import Tail, read_tail, set_aside, torn_from
from benchmate.garden.toml_text import entry_text
from benchmate.value import replace

_REASONS = {
    errno.ENOSPC: ("the disk is full", "make room and say it again"),
    errno.EDQUOT: ("the disk is full for this user", "make room and say it again"),
    errno.EROFS: ("the disk is read-only", "make it writable, or use a copy of the garden, and say it again"),
    errno.EACCES: ("there is no permission to write", "allow writing there and say it again"),
    errno.EPERM: ("there is no permission to write", "allow writing there and say it again"),
    errno.EFBIG: ("the file has reached the largest size allowed", "begin a new journal file and say it again"),
    errno.ENOENT: ("the folder is gone", "bring it back and say it again"),
    errno.ELOOP: ("it is a link that leads out of the garden", "put a plain file there and say it again"),
    errno.EISDIR: ("it is a folder", "put a plain file there and say it again"),
}


class NotLogged(UserError):
    """An entry could not be written; its words are kept in `entries` for another try."""

    def __init__(self, path: Path, why: str, remedy: str, entries: Sequence[Entry]) -> None:
        super().__init__(f"not logged: {shown(str(path), 300)}: {why}; {remedy}")
        self.entries = tuple(entries)


class Appended(NamedTuple):
    """entries: as written, with their ids. faults: what was set aside. grew_from, size: the file before and after, in
    bytes."""

    entries: tuple[Entry, ...]
    faults: tuple[Fault, ...]
    grew_from: int
    size: int


def append_entries(path: Path, entries: Sequence[Entry]) -> Appended:
    """Append entries to the journal at path, with one flush to the disk. Entries without an id get one.

    Raises NotLogged where it could not be done; the journal is then as it was, but for a part that a failing disk would
    not give back, which the next append sets aside.
    """
    try:
        _refuse_special(path)
        with held(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_NOFOLLOW", 0)) as descriptor:
            return _append(descriptor, path, entries)
    except Busy as busy:
        raise NotLogged(path, str(busy), "close it and say it again", entries) from busy
    except OSError as fault:
        why, remedy = _REASONS.get(fault.errno or 0, (fault.strerror or "it could not be written", "say it again"))
        raise NotLogged(path, why, remedy, entries) from fault


def _refuse_special(path: Path) -> None:
    """A pipe or a device in the journal's place would be waited for without end."""
    if os.path.lexists(path) and not path.is_symlink() and not path.is_file():
        raise OSError(errno.EISDIR if path.is_dir() else errno.EINVAL, "it is no plain file")


def _append(descriptor: int, path: Path, entries: Sequence[Entry]) -> Appended:
    tail = read_tail(descriptor)
    faults: tuple[Fault, ...] = ()
    if (torn := torn_from(descriptor, tail)) is not None:
        faults = (set_aside(path, tail.data[torn - tail.start :]),)
        os.ftruncate(descriptor, torn)
        os.fsync(descriptor)
        tail = Tail(tail.start, tail.data[: torn - tail.start])
    taken: set[str] = set()
    written: list[Entry] = []
    for entry in entries:
        own = entry.id or new_id(entry.day, lambda own: own in taken or own.encode() in tail.data)
        taken.add(own)
        written.append(replace(tidy(entry), id=own))
    if not tail.stop:
        flush_folder(path.parent)
    data = (_lead(tail) + "\n".join(map(entry_text, written))).encode()
    _write(descriptor, data, tail.stop)
    return Appended(tuple(written), faults, tail.stop, tail.stop + len(data))


def _lead(tail: Tail) -> str:
    """What parts the new entry from the one before: a blank line, and the line's end where a hand left it out."""
    if not tail.stop or tail.data.endswith(b"\n\n"):
        return ""
    return "\n" if not tail.data or tail.data.endswith(b"\n") else "\n\n"


def _write(descriptor: int, data: bytes, size: int) -> None:
    """All of the data, down to the disk, or the file as it was."""
    try:
        write_all(descriptor, data)
        os.fsync(descriptor)
    except OSError:
        with suppress(OSError):
            os.ftruncate(descriptor, size)
        raise


def tidy(entry: Entry) -> Entry:
    """The entry as it will be read back: no empty keys, days of follow-ups as dates. Raises ValueError for a kind of
    entry that there is none of."""
    if entry.kind not in KINDS:
        raise ValueError(f"no such kind of entry: {entry.kind}")
    return replace(
        entry,
        facts=tuple(map(_tidy_table, entry.facts)),
        work=tuple(map(_tidy_table, entry.work)),
        measures=_tidy_table(entry.measures),
        refused=tuple(entry.refused),
        follow=tuple(dated(_tidy_table(follow)) for follow in entry.follow),
        more=_tidy_table(entry.more),
    )


def _tidy_table(table: Mapping[str, Any]) -> dict[str, Any]:
    return {key: _tidy_value(value) for key, value in table.items() if value is not None}


def _tidy_value(value: Any) -> Any:
    match value:
        case Mapping():
            return _tidy_table(value)
        case list() | tuple():
            return [_tidy_value(inner) for inner in value if inner is not None]
    return value
