"""Entries and tables to TOML text.

Written here rather than with tomli_w: that lays each piece of work out over many lines, costs an import on the way of
every answer, and could change how it lays out a table from one release to the next, while an entry that is written,
read and written again has to be the same bytes.
"""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Mapping
from typing import Any

from benchmate.garden.record import Entry, Place, Tree

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}
_AWKWARD = re.compile(r'["\\\x00-\x1f\x7f\ud800-\udfff]')


def _escape(match: re.Match[str]) -> str:
    char = match.group()
    if "\ud800" <= char <= "\udfff":  # half a character, from words that were not UTF-8; TOML cannot hold it
        return "\ufffd"
    return _ESCAPES.get(char) or f"\\u{ord(char):04x}"


def quoted(words: str) -> str:
    """The words as a TOML string on one line."""
    return f'"{_AWKWARD.sub(_escape, words)}"'


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else quoted(name)


def value_text(value: Any) -> str:
    """A value on one line: words, numbers, dates, lists, inline tables. Raises TypeError for anything else.

    >>> value_text([{"work": "repot", "share": 0.33}])
    '[{ work = "repot", share = 0.33 }]'
    """
    match value:
        case str():
            return quoted(value)
        case bool():
            return "true" if value else "false"
        case int():
            return str(value)
        case float():
            return repr(value) if math.isfinite(value) else str(value)
        case dt.datetime() | dt.date() | dt.time():
            return value.isoformat()
        case Mapping():
            pairs = [f"{_key(name)} = {value_text(inner)}" for name, inner in value.items() if inner is not None]
            return f"{{ {', '.join(pairs)} }}" if pairs else "{}"
        case list() | tuple():
            return f"[{', '.join(map(value_text, value))}]"
    raise TypeError(f"no TOML for {type(value).__name__}")


def _pairs(entry: Entry) -> dict[str, Any]:
    pairs = {
        "id": entry.id, "at": entry.at, "kind": entry.kind, "said": entry.said, "strikes": entry.strikes,
        "facts": entry.facts, "work": entry.work, "measures": entry.measures, "when": _date_or_words(entry.when),
        "reason": entry.reason, "refused": entry.refused, "follow": entry.follow, "photo": entry.photo,
        "ends": entry.ends, "named": entry.named, "expects": entry.expects,
    }  # fmt: skip
    pairs = {name: value for name, value in pairs.items() if value}
    return pairs | {name: value for name, value in entry.more.items() if name not in pairs and name != "end"}


def _date_or_words(when: str | None) -> dt.date | str | None:
    try:
        return dt.date.fromisoformat(when) if when and len(when) == 10 else when
    except ValueError:
        return when


def entry_text(entry: Entry) -> str:
    """One `[[entry]]` table, ending in a newline.

    The first and the last line carry the id, and no more than three lines stand between two that do: a journal merged
    line by line then keeps each entry whole, because git takes lines that two entries share for one only in longer
    runs. The closing key tells an entry that was written to its end from one that was cut off.
    """
    own = quoted(entry.id)
    tag = entry.id.rpartition("-")[2] if re.fullmatch(r"[\w-]*\w", entry.id) else own
    lines, since_own = [f"[[entry]]  # {own[1:-1]}"], 0
    for name, value in _pairs(entry).items():
        line = f"{_key(name)} = {value_text(value)}"
        if since_own == 3:
            line, since_own = f"{line}  # {tag}", -1
        since_own = 0 if name == "id" else since_own + 1
        lines.append(line)
    lines.append(f"end = {own}")
    return "\n".join(lines) + "\n"


def _lines(pairs: Mapping[str, Any]) -> str:
    told = {name: value for name, value in pairs.items() if value not in (None, "", {})}
    return "".join(f"{_key(name)} = {value_text(value)}\n" for name, value in told.items())


def month_day(day: tuple[int, int] | None) -> str | None:
    return f"{day[0]:02d}-{day[1]:02d}" if day else None


def place_text(place: Place) -> str:
    """garden.toml. What the place has not told is left out, to be told later."""
    return "[place]\n" + _lines(
        {
            "name": place.name,
            "latitude": place.latitude,
            "longitude": place.longitude,
            "last_frost": month_day(place.last_frost),
            "first_frost": month_day(place.first_frost),
            "units": place.units,
        }
    )


def tree_text(tree: Tree) -> str:
    """tree.toml."""
    text = _lines(
        {
            "name": tree.name,
            "species": tree.species,
            "origin": tree.origin,
            "phase": tree.phase,
            "health": tree.health,
            "since": tree.since,
        }
    )
    for name, table in (("pot", tree.pot), ("size", tree.size)):
        text += f"\n[{name}]\n{_lines(table)}" if table else ""
    return text
