"""A file held for one writer at a time, on every system that this runs on."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

PATIENCE_S = 10.0
# the byte that Windows locks: past any journal, since a lock there keeps readers out as well, and within 31 bits, in
# which its C library counts
_BEYOND = (1 << 31) - 2

if sys.platform == "win32":
    import msvcrt

    def _try(descriptor: int) -> None:
        os.lseek(descriptor, _BEYOND, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)

    def _free(descriptor: int) -> None:
        os.lseek(descriptor, _BEYOND, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _try(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)

    def _free(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_UN)


class Busy(OSError):
    """Another program held the file for longer than one waits."""


def _wait_for(descriptor: int, until: float) -> None:
    while True:
        try:
            return _try(descriptor)
        except (BlockingIOError, PermissionError):
            if time.monotonic() > until:
                raise Busy("another program has been writing to it for too long") from None
            time.sleep(0.005)


def _same_file(descriptor: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(descriptor), os.stat(path))
    except FileNotFoundError:
        return False


def _let_go(descriptor: int) -> None:
    """By now all is written and flushed, or refused: a fault in closing must not turn one into the other."""
    for step in (_free, os.close):
        with suppress(OSError):
            step(descriptor)


@contextmanager
def held(path: Path, flags: int) -> Iterator[int]:
    """The file opened with these flags and locked, as a descriptor; it is let go at the end, also by a kill.

    A synchroniser may put another file in its place while one waits: then that one is opened. Raises OSError, and Busy
    after PATIENCE_S seconds.
    """
    until = time.monotonic() + PATIENCE_S
    while True:
        descriptor = os.open(path, flags | getattr(os, "O_CLOEXEC", 0) | getattr(os, "O_BINARY", 0), 0o666)
        try:
            _wait_for(descriptor, until)
            if _same_file(descriptor, path):
                yield descriptor
                return
        finally:
            _let_go(descriptor)


def read_undisturbed(path: Path, patience_s: float = 1.0) -> bytes:
    """The file's bytes while no writer of this program is at it, or after patience_s seconds. Raises OSError."""
    with path.open("rb") as file:
        try:
            _wait_for(file.fileno(), time.monotonic() + patience_s)
        except OSError:
            return file.read()
        try:
            file.seek(0)
            return file.read()
        finally:
            _free(file.fileno())
