"""A short name for the content of folders. Looked at by size and time first; read only where these changed."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path


def walk(folder: str, suffix: str) -> Iterator[os.DirEntry[str]]:
    """Files of a folder and the folders in it, sorted, hidden ones left out."""
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.name.startswith((".", "__")):
            continue
        if entry.is_dir():
            yield from walk(entry.path, suffix)
        elif entry.name.endswith(suffix):
            yield entry


def stat_mark(folders: Sequence[Path], suffix: str) -> str:
    """Changes whenever a file comes, goes, or is written to: names, sizes and times, no content. About 5 us a file."""
    mark = hashlib.blake2b(digest_size=12)
    for folder in folders:
        mark.update(f"|{os.path.abspath(folder)}\n".encode())
        for entry in walk(str(folder), suffix):
            told = entry.stat()
            mark.update(f"{entry.path} {told.st_size} {told.st_mtime_ns} {told.st_ctime_ns}\n".encode())
    return mark.hexdigest()


def content_mark(folders: Sequence[Path], suffix: str) -> str:
    """Hash of relative names and bytes: the same for equal content wherever it stands. Unreadable files count as
    such."""
    mark = hashlib.blake2b(digest_size=12)
    for folder in folders:
        mark.update(b"|")
        for entry in walk(str(folder), suffix):
            name = os.path.relpath(entry.path, folder)
            try:
                with open(entry.path, "rb") as file:
                    body = file.read()
            except OSError as error:
                body = f"unreadable {error.errno}".encode()
            mark.update(f"{name}\0{len(body)}\0".encode() + body)
    return mark.hexdigest()
