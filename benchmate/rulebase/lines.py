"""On which line of a TOML file an id or a key stands. tomllib tells a line for bad syntax only."""

from __future__ import annotations

import re

_HEADER = re.compile(r"^\s*\[\[?\s*([^\]]+?)\s*\]\]?\s*(#.*)?$")
_SYNTAX_LINE = re.compile(r"\(at line (\d+), column \d+\)")


def line_of(text: str, id: str, key: str = "") -> int:
    """The line, 1 and up, of the table that `id` names, or of `key` inside it; 0 where it is not found.

    id: the value of an `id =` line (`[[rule]]`), of `taxon =`, or a table's dotted name (`caution.weak-tree`).

    >>> line_of('[[rule]]\\nid = "a"\\nsays = "b"\\n', "a", "says")
    3
    """
    lines = text.splitlines()
    start = _start_of(lines, id)
    if start is None:
        return _key_line(lines, 0, len(lines), key) if key and not id else 0
    top = start
    while top > 0 and not _HEADER.match(lines[top]):
        top -= 1
    if not key:
        return start + 1
    return _key_line(lines, top, _end_of(lines, start), key) or start + 1


def syntax_line(message: str) -> int:
    """The line that a TOML error names, or 0."""
    found = _SYNTAX_LINE.search(message)
    return int(found[1]) if found else 0


def _start_of(lines: list[str], id: str) -> int | None:
    if not id:
        return None
    bare = id.rsplit(".", 1)[-1]
    wanted = re.compile(rf"""^\s*(id|taxon)\s*=\s*["']{re.escape(id)}["']""")
    dotted = re.compile(rf"""^\s*["']?{re.escape(bare)}["']?\s*=""")
    for number, line in enumerate(lines):
        header = _HEADER.match(line)
        if wanted.match(line) or (header and header[1].replace('"', "") == id):
            return number
    for number, line in enumerate(lines):
        if "." in id and dotted.match(line):
            return number
    return None


def _end_of(lines: list[str], start: int) -> int:
    """Where the table ends: at the next table that is not a part of it (`[[rule.example]]` belongs to its rule)."""
    kind = ""
    for number in range(start, -1, -1):
        if header := _HEADER.match(lines[number]):
            kind = header[1]
            break
    for number in range(start + 1, len(lines)):
        header = _HEADER.match(lines[number])
        if header and not header[1].startswith(kind + "."):
            return number
    return len(lines)


def _key_line(lines: list[str], start: int, end: int, key: str) -> int:
    wanted = re.compile(rf"""(^|[\s{{,.])["']?{re.escape(key)}["']?\s*[=.]""")
    for number in range(start, end):
        header = _HEADER.match(lines[number])
        if header and header[1].split(".")[-1] == key:
            return number + 1
        if not header and wanted.search(lines[number].split("#", 1)[0]):
            return number + 1
    return 0
