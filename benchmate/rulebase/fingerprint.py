"""A short name for the content of folders. Looked at by size and time first; read only where these changed."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Looks:
    """What folders look like from outside. mark: of places, names, sizes and times. sizes: of names and sizes alone,
    the same wherever the folders stand. newest_ns: when the last of the files changed."""

    mark: str
    sizes: str
    newest_ns: int


def walk(folder: str, suffix: str | tuple[str, ...]) -> Iterator[os.DirEntry[str]]:
    """Files of a folder and the folders in it, sorted, hidden ones left out."""
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith((".", "__")):
            continue
        if entry.name.endswith(suffix) and entry.is_file():
            yield entry
        elif entry.is_dir():
            yield from walk(entry.path, suffix)


def looks(folders: Sequence[tuple[Path, str | tuple[str, ...]]]) -> Looks:
    """Changes whenever a file comes, goes, or is written to; no content is read. About 5 us a file.

    folders: each with the ending of the files that count.
    """
    placed, sized, newest = [], [], 0
    for folder, suffix in folders:
        placed.append(os.path.abspath(folder))
        sized.append("|")
        start = len(str(folder))
        for entry in walk(str(folder), suffix):
            told = entry.stat()
            placed.append(f"{told.st_mtime_ns} {told.st_ctime_ns}")
            sized.append(f"{entry.path[start:].replace(os.sep, '/')} {told.st_size}")
            newest = max(newest, told.st_mtime_ns, told.st_ctime_ns)
    sizes = hashlib.blake2b("\n".join(sized).encode(), digest_size=12).hexdigest()
    mark = hashlib.blake2b("\n".join([sizes, *placed]).encode(), digest_size=12).hexdigest()
    return Looks(mark, sizes, newest)


def content_mark(folders: Sequence[Path], suffix: str | tuple[str, ...]) -> str:
    """Hash of relative names and bytes: the same for equal content wherever it stands. Unreadable files count as
    such."""
    mark = hashlib.blake2b(digest_size=12)
    for folder in folders:
        mark.update(b"|")
        for entry in walk(str(folder), suffix):
            name = os.path.relpath(entry.path, folder).replace(os.sep, "/")
            try:
                with open(entry.path, "rb") as file:
                    body = file.read()
            except OSError as error:
                body = f"unreadable {error.errno}".encode()
            mark.update(f"{name}\0{len(body)}\0".encode() + body)
    return mark.hexdigest()
