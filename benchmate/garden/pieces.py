"""A journal's text in pieces, one an entry: where each begins, whether it was written to its end, what it holds.

Pieces are read one by one, so that a broken one costs only itself. An entry of this program's own writing carries its
id in its first line and must close with it (`end = ID`); an entry written by hand carries neither and need not.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from benchmate.garden.quick import COMMENT, quick_table

HEADER = re.compile(r"^[ \t]*\[\[[ \t]*entry[ \t]*\]\]", re.MULTILINE)
_HEADER_LINE = re.compile(rf"[ \t]*\[\[[ \t]*entry[ \t]*\]\][ \t]*(?:{COMMENT})?")
_COMMENT = re.compile(COMMENT)
_FEW = 3
_OWN_HEADER = re.compile(r"\[\[entry\]\]  # ([^\n]+)\n")
_IDLE = re.compile(r"(?:[ \t\r]*(?:#[^\n\x00]*)?(?:\n|\Z))*")
_BEGUN = re.compile(r"^<{7} ", re.MULTILINE)
_MARKERS = re.compile(r"^(?:<{7}|>{7}|\|{7}|={7})(?: [^\n]*)?$", re.MULTILINE)


class Piece(NamedTuple):
    """start: its first character's place in the text. text: from one `[[entry]]` line up to the next."""

    start: int
    text: str

    @property
    def own_id(self) -> str | None:
        """The id, as quoted text, in the first line of an entry of this program's writing; else None."""
        match = _OWN_HEADER.match(self.text)
        return match[1] if match and self._line_at(f'id = "{match[1]}"', match.end()) else None

    def closed_at(self, own_id: str) -> int | None:
        """Where the entry's closing line ends in the piece, or None where it never came to be written."""
        line = f'end = "{own_id}"'
        at = self.text.find(f"\n{line}") + 1
        return at + len(line) if at and self._line_at(line, at) else None

    def _line_at(self, line: str, at: int) -> bool:
        stop = at + len(line)
        return self.text.startswith(line, at) and (stop == len(self.text) or self.text[stop] == "\n")


class Held(NamedTuple):
    """What a piece holds. tables: its entries. rest: keys beside `entry`. broken: why not all of it could be read.

    cut: it was begun by this program and not written to its end, or stops in the middle of a line. words_from: where in
    the piece the words begin that could not be taken in; with 0, `tables` are what can be read of the cut entry itself.
    """

    tables: tuple[dict[str, Any], ...] = ()
    rest: tuple[str, ...] = ()
    broken: str = ""
    cut: bool = False
    words_from: int = 0


def idle(text: str) -> bool:
    """Nothing but blank lines and comments."""
    match = _IDLE.match(text)
    return match is not None and match.end() == len(text)


def without_markers(text: str) -> tuple[str, int]:
    """The text with the marker lines of an unfinished merge made blank, and where the first of them stood, or -1.

    Both sides of such a merge stay: entries are a union by id.
    """
    if "<<<<<<<" not in text or not (first := _BEGUN.search(text)):
        return text, -1
    return _MARKERS.sub(lambda match: "#" + " " * (len(match.group()) - 1), text), first.start()


def split(text: str) -> Iterator[Piece]:
    """The pieces of a text in order; the first may be what stands before the first entry."""
    starts = [match.start() for match in HEADER.finditer(text)]
    if not starts or starts[0] > 0:
        starts.insert(0, 0)
    for start, stop in zip(starts, [*starts[1:], len(text)], strict=True):
        yield Piece(start, text[start:stop])


def read_quickly(piece: Piece) -> Held | None:
    """The one entry of a piece that is whole and plain; None for any other piece."""
    own_id, text = piece.own_id, piece.text
    if "\r" in text:
        return None
    if own_id is None:
        lines = text.split("\n")
        if not _HEADER_LINE.fullmatch(lines[0]):
            return Held() if idle(text) else None
        lines = [line for line in (line.strip(" \t") for line in lines[1:]) if line and not _COMMENT.fullmatch(line)]
    else:
        stop = piece.closed_at(own_id)
        if stop is None or not (text[stop:] == "\n" or idle(text[stop:])):
            return None
        lines = text[:stop].split("\n")[1:]
    table = quick_table(lines)
    return Held((table,)) if table else None


def read_piece(piece: Piece) -> Held:
    """The entries of one piece. Never raises for what the text holds."""
    text, own_id = piece.text, piece.own_id
    if own_id is None:
        held = _read(text)
        if held.tables == ({},) and not held.broken:
            return Held(broken="the entry is empty", cut=not text.endswith("\n") or text.count("\n") == 1)
        return _with_cut_line(held, text) if held.broken else held
    stop, held = piece.closed_at(own_id), _read(text)
    if stop is None:
        return Held(held.tables, held.rest, "the entry was not written to its end", True)
    return _leftover(_read(text[:stop]), text[stop:], stop) if held.broken else held


def read_together(pieces: Sequence[Piece], text: str) -> list[Held]:
    """Each piece's entries, in the quickest of the ways that read them right."""
    read: list[Held | None] = []
    for piece in pieces:
        read.append(read_quickly(piece))
        if read[-1] is None and read.count(None) > _FEW:  # laid out as no grower does: all at once is quicker
            return _read_at_once(pieces, text)
    return [held or read_piece(piece) for held, piece in zip(read, pieces, strict=True)]


def _read_at_once(pieces: Sequence[Piece], text: str) -> list[Held]:
    """As read_piece, where the text is sound as a whole: its tables are those of the pieces."""
    starts = [number for number, piece in enumerate(pieces) if HEADER.match(piece.text)]
    tables = _read(text).tables
    at_once = dict(zip(starts, tables, strict=True)) if len(tables) == len(starts) else {}
    return [
        Held((at_once[number],)) if at_once.get(number) and not piece.own_id else read_piece(piece)
        for number, piece in enumerate(pieces)
    ]


def _leftover(held: Held, after: str, stop: int) -> Held:
    """A whole entry with words behind it that are none: the beginning of a next one, or a slip of the hand."""
    if held.broken:
        return held
    cut = "\x00" in after or not after.endswith("\n")
    return Held(held.tables, held.rest, "words after the entry's end cannot be read", cut, stop)


def _with_cut_line(held: Held, text: str) -> Held:
    """Written by hand and broken: where the last line is the beginning of a next entry, only that line is.

    Zeros at the very end are what a power cut leaves; zeros elsewhere are a file in another encoding.
    """
    written = text.rstrip("\x00")
    if "\x00" in written or (written == text and text.endswith("\n")):
        return held
    last = text.rfind("\n") + 1
    if text[last:].startswith(("[", "\x00")):
        before = _read(text[:last])
        if not before.broken and before.tables != ({},):
            return Held(before.tables, before.rest, held.broken, True, last)
    return Held(broken=held.broken, cut=True)


def _read(text: str) -> Held:
    import tomllib  # not needed for what this program wrote itself

    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError) as fault:
        return Held(broken=str(fault) or "it cannot be read")
    entries = table.pop("entry", [])
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        return Held(rest=tuple(table), broken="entry must be a list of tables: begin each one with [[entry]]")
    return Held(tuple(entries), tuple(table))
