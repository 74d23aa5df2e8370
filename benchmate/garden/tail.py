"""The end of a journal: its last entries without reading the rest, and what a kill left half-written there."""

from __future__ import annotations

import os
import re
import zlib
from pathlib import Path
from typing import NamedTuple

from benchmate.fault import Fault
from benchmate.garden.disk import write_whole
from benchmate.garden.journal import Journal, decoded, read_journal, reads_as_a_whole
from benchmate.garden.pieces import Piece, read_piece
from benchmate.garden.shapes import shown

BLOCK_BYTES = 1 << 14
_HEADER = re.compile(rb"^[ \t]*\[\[[ \t]*entry[ \t]*\]\]", re.MULTILINE)


class Tail(NamedTuple):
    """The bytes of a file from start to its end."""

    start: int
    data: bytes

    @property
    def stop(self) -> int:
        return self.start + len(self.data)


def _read(descriptor: int, start: int, stop: int) -> bytes:
    os.lseek(descriptor, start, os.SEEK_SET)
    parts = []
    while start < stop and (part := os.read(descriptor, stop - start)):
        parts.append(part)
        start += len(part)
    return b"".join(parts)


def read_tail(descriptor: int, count: int = 1) -> Tail:
    """The file's end with its last `count` entries in it, or all of the file where it has fewer."""
    stop = os.fstat(descriptor).st_size
    span = BLOCK_BYTES
    while True:
        start = max(0, stop - span)
        data = _read(descriptor, start, stop)
        if start == 0 or len(_HEADER.findall(data, 1)) >= count:
            return Tail(start, data)
        span *= 4


def torn_from(descriptor: int, tail: Tail) -> int | None:
    """Where in the file a last entry begins that was cut off while it was written, or None."""
    headers = [match.start() for match in _HEADER.finditer(tail.data)]
    raw = tail.data[headers[-1] :] if headers else tail.data
    piece = Piece(0, decoded(raw))
    held = read_piece(piece)
    if not held.cut:
        return None
    whole = decoded(_read(descriptor, 0, tail.stop))
    if ('"""' in whole or "'''" in whole) and reads_as_a_whole(whole):
        return None  # the line that looks like an entry's first stands inside words over many lines
    rows = piece.text.count("\n", 0, held.words_from + 1) if held.words_from else 0
    at = 0
    for _ in range(rows):
        at = raw.index(b"\n", at) + 1
    return tail.stop - len(raw) + at


def set_aside(journal: Path, words: bytes) -> Fault:
    """Keep what was cut off in a file beside the journal, on the disk before this returns. Raises OSError.

    The same words again, after a kill between this step and the next, go to the same file.
    """
    text = decoded(words)
    own = Piece(0, text).own_id or ""
    name = own if re.fullmatch(r"[\w-]{1,60}", own, re.ASCII) else f"{zlib.crc32(words):08x}"
    path = journal.with_name(f"journal.torn-{name}.txt")
    number = 1
    while path.exists() and path.read_bytes() != words:
        number += 1
        path = journal.with_name(f"journal.torn-{name}-{number}.txt")
    if not path.exists():
        write_whole(path, words)
    return torn_fault(path, text, own)


def torn_fault(path: Path, text: str, own: str = "") -> Fault:
    """What the grower is told of words that were set aside."""
    problem = f"an entry that was cut off while it was written; its words: {shown(' '.join(text.split()), 200)}"
    return Fault(str(path), 0, shown(own), problem, "say it again if it is missing, then delete this file")


def read_last(path: Path, shown_path: str, count: int) -> Journal:
    """The last `count` entries of one journal file, without reading what stands before them. Raises OSError."""
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        tail = read_tail(descriptor, count)
    finally:
        os.close(descriptor)
    headers = [match.start() for match in _HEADER.finditer(tail.data)]
    data = tail.data[headers[-count] :] if len(headers) >= count else tail.data
    return read_journal(data, shown_path)
