"""Bytes brought safely to the disk."""

from __future__ import annotations

import os
from pathlib import Path

_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def write_all(descriptor: int, data: bytes) -> None:
    """All of the data; the system may take a part at a time. Raises OSError."""
    view = memoryview(data)
    while view:
        view = view[os.write(descriptor, view) :]


def flush_folder(folder: Path) -> None:
    """A new file's name is on the disk only when its folder is; Windows has no such step. Raises OSError."""
    if os.name == "nt":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def write_whole(path: Path, data: bytes, flush: bool = True) -> None:
    """The file with this content, or as it was: written beside and put in its place. Raises OSError.

    flush: wait until it is on the disk; not needed for what can be made again.
    """
    beside = path.with_name(f".{path.name}.{os.getpid()}-{os.urandom(3).hex()}")
    descriptor = os.open(beside, _NEW, 0o666)
    try:
        try:
            write_all(descriptor, data)
            if flush:
                os.fsync(descriptor)
        finally:
            os.close(descriptor)
        os.replace(beside, path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    if flush:
        flush_folder(path.parent)
