"""Reads plain lines of `key = value`, as this program writes them, several times faster than a whole TOML reader.

At the first sign of anything else it gives None, and the TOML reader has the last word. What it does take, it reads to
the same values.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

_CHARS = r'[^"\\\x00-\x1f\x7f\ud800-\udfff]*'
_STRING = rf'"{_CHARS}(?:(?:\\["\\btnfr]|\\u00[017][0-9a-f]){_CHARS})*"'
_DATE = r"\d{4}-\d\d-\d\d"
_MOMENT = _DATE + r"T(?:[01]\d|2[0-3]):\d\d:\d\d(?:\.\d{6})?(?:[+-]\d\d:\d\d)?"
_KEY = re.compile(r"[A-Za-z0-9_-]+")
COMMENT = r"#[^\x00-\x08\x0a-\x1f\x7f]*"
_SIMPLE = re.compile(rf"(?:({_STRING})|({_DATE})|({_MOMENT}))(?:[ \t]*{COMMENT})?")
_COMMENT = re.compile(r"(.*[^ ])  # [\w-]+")
_STRINGS = re.compile(f"({_STRING})")
_SIGNS = re.compile(r"(?P<key>[A-Za-z0-9_-]+) = |(?P<word>[^\s,{}\[\]]+)")
_IS_DATE = re.compile(_DATE)
_PLAIN = re.compile(r"true|false|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?")
_DATE_KEY = "\x00date"  # a key that no TOML text can hold unescaped, so that it cannot come from the file


class _Other(Exception):
    pass


def _sign(match: re.Match[str]) -> str:
    if key := match["key"]:
        return f'"{key}":'
    word = match["word"]
    if _PLAIN.fullmatch(word):
        return word
    if _IS_DATE.fullmatch(word):
        return f'{{"\\u0000date":"{word}"}}'
    raise _Other


def _between_strings(text: str) -> str:
    return _SIGNS.sub(_sign, text)


# journals say the same few things between their quotes: ", side = " and the like
_often_between = lru_cache(4096)(_between_strings)


def _as_json(value: str) -> str:
    parts = _STRINGS.split(value)
    parts[::2] = [_often_between(part) if len(part) < 80 else _between_strings(part) for part in parts[::2]]
    return "".join(parts)


def _table(pairs: list[tuple[str, Any]]) -> Any:
    table = dict(pairs)
    if len(table) != len(pairs):
        raise _Other
    return dt.date.fromisoformat(table[_DATE_KEY]) if _DATE_KEY in table else table


_decode = json.JSONDecoder(object_pairs_hook=_table).decode


def _laid_out(lines: Iterator[str]) -> Iterator[Any]:
    """The values of a list with each on a line of its own, up to the line that closes it."""
    for line in lines:
        if line == "]":
            return
        if not line.endswith(","):
            raise _Other
        yield _decode(_as_json(line[:-1]))
    raise _Other


def quick_table(lines: list[str]) -> dict[str, Any] | None:
    """The `key = value` lines of one table, or None where they are not of the plain kind."""
    table: dict[str, Any] = {}
    waiting = iter(lines)
    try:
        for line in waiting:
            key, parted, value = line.partition(" = ")
            if not parted or key in table or not _KEY.fullmatch(key):
                return None
            if simple := _SIMPLE.fullmatch(value):
                words, date, moment = simple.groups()
                if words is not None:
                    table[key] = words[1:-1] if "\\" not in words else json.loads(words)
                else:
                    table[key] = dt.date.fromisoformat(date) if date else dt.datetime.fromisoformat(moment)
            elif value == "[":
                table[key] = list(_laid_out(waiting))
            else:
                tagged = _COMMENT.fullmatch(value) if value[-1:] not in ("]", "}") else None
                table[key] = _decode(_as_json(tagged[1] if tagged else value))
    except (_Other, ValueError, RecursionError):
        return None
    return table
