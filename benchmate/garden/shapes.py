"""Which keys the garden's tables have, what each may hold, and the values made of them.

One list of keys serves reading and checking. A value that cannot be used is told and set apart, never guessed at.
"""

from __future__ import annotations

import calendar
import datetime as dt
import math
import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from benchmate.garden.record import ENDS, KINDS, Entry, Place, Tree


class Slip(NamedTuple):
    """One thing wrong in a table, before it is known where the table stands. id: the entry, or ""."""

    key: str
    problem: str
    remedy: str
    id: str = ""


class Holds(NamedTuple):
    """What a key may hold. wants: in words, for the remedy."""

    wants: str
    fits: Callable[[Any], bool]


def _words(value: Any) -> bool:
    return isinstance(value, str)


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _tables(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(inner, dict) for inner in value)


def _names(value: Any) -> bool:
    return _tables(value) and all(
        row.get("back") is True or (_words(row.get("name")) and bool(row["name"].strip())) for row in value
    )


def _measures(value: Any) -> bool:
    return isinstance(value, dict) and all(map(_number, value.values()))


def _sizes(value: Any) -> bool:
    return _measures(value) and all(size > 0 for size in value.values())


def _date(value: Any) -> bool:
    return isinstance(value, dt.date)


def _list_of_words(value: Any) -> bool:
    return isinstance(value, list) and all(map(_words, value))


_SPAN = re.compile(r"(\d{4})(?:-(?:(\d\d)(?:-(\d\d))?|spring|summer|autumn|winter))?")


def span_of(when: str) -> re.Match[str] | None:
    """The parts of an ISO date, month or year or a season of a year; None for any other words or an impossible date."""
    match = _SPAN.fullmatch(when)
    if not match or int(match[1]) < 1:
        return None
    month = int(match[2] or 1)
    fits = 1 <= month <= 12 and 1 <= int(match[3] or 1) <= calendar.monthrange(int(match[1]), month)[1]
    return match if fits else None


def _when(value: Any) -> bool:
    return _date(value) or (_words(value) and span_of(value) is not None)


def month_day_of(words: Any) -> tuple[int, int] | None:
    """(month, day) of words such as "04-28", or None."""
    match = re.fullmatch(r"(\d\d?)-(\d\d?)", words) if isinstance(words, str) else None
    if not match:
        return None
    month, day = int(match[1]), int(match[2])
    return (month, day) if 1 <= month <= 12 and 1 <= day <= calendar.monthrange(2024, month)[1] else None


WORDS = Holds('words in double quotes, as in "Gatepost"', _words)
SOME_WORDS = Holds('words in double quotes, as in "Gatepost"', lambda value: _words(value) and bool(value.strip()))
DATE = Holds("a date or a date and time without quotes, as in 2026-06-14", _date)
WHEN = Holds('a date, month, year or season, as in 2026-06-14, "2026-06" or "2026-spring"', _when)
TABLES = Holds('a list of tables, as in [{ work = "repot" }]', _tables)
MEASURES = Holds("a table of numbers, as in { height_mm = 410 }", _measures)
SIZES = Holds("a table of numbers above 0 in mm, as in height_mm = 410", _sizes)
FROST = Holds('a month and a day in double quotes, as in "04-28"', lambda value: month_day_of(value) is not None)
LATITUDE = Holds("degrees from -90 to 90", lambda value: _number(value) and -90 <= value <= 90)
LONGITUDE = Holds("degrees from -180 to 180", lambda value: _number(value) and -180 <= value <= 180)
UNITS = Holds('"metric" or "imperial"', lambda value: value in ("metric", "imperial"))
NAMES = Holds('a list of tables, as in [{ name = "Gatepost", at = 2026-06-14 }]', _names)
KIND = Holds(f"one of {', '.join(KINDS)}", lambda value: isinstance(value, str) and value in KINDS)
ENDED = Holds(f"one of {', '.join(ENDS)}", lambda value: isinstance(value, str) and value in ENDS)

PLACE_KEYS = {
    "name": WORDS, "latitude": LATITUDE, "longitude": LONGITUDE, "last_frost": FROST, "first_frost": FROST,
    "units": UNITS,
}  # fmt: skip
TREE_KEYS = {
    "name": SOME_WORDS, "species": WORDS, "origin": WORDS, "phase": WORDS, "health": WORDS, "since": DATE, "pot": SIZES,
    "size": SIZES, "renamed": NAMES,
}  # fmt: skip
ENTRY_KEYS = {
    "id": SOME_WORDS, "at": DATE, "kind": KIND, "said": WORDS, "facts": TABLES, "work": TABLES, "measures": MEASURES,
    "reason": WORDS, "refused": Holds("a list of words", _list_of_words), "follow": TABLES, "strikes": WORDS,
    "photo": WORDS, "when": WHEN, "ends": ENDED, "named": SOME_WORDS, "expects": WORDS, "end": WORDS,
}  # fmt: skip


def nearest(word: str, words: list[str]) -> str:
    """The word of the list that is most like it, or ""."""
    from difflib import get_close_matches  # only where something is wrong: it is slow to import

    return next(iter(get_close_matches(word.lower(), words, 1)), "")


def shown(value: Any, most: int = 60) -> str:
    """Any value as it may stand in one plain line: no control characters, no half characters, cut to a length."""
    words = value if isinstance(value, str) else str(value)
    plain = "".join(char if char.isprintable() else " " if char.isspace() else "\ufffd" for char in words[: most + 1])
    return plain if len(words) <= most else plain[:most].rstrip() + "..."


def wrong_value(key: str, value: Any, holds: Holds) -> Slip:
    problem = f"{key} cannot be {shown(repr(value) if isinstance(value, str) else value)}"
    near = nearest(value, list(KINDS)) if holds is KIND and isinstance(value, str) else ""
    return Slip(key, problem, f"did you mean {near!r}?" if near else f"it is {holds.wants}")


def unknown_keys(table: Mapping[str, Any], keys: Mapping[str, Holds]) -> list[Slip]:
    slips = []
    for key in table:
        if key not in keys:
            near = nearest(key, list(keys))
            remedy = f"did you mean {near!r}?" if near else f"known keys are {', '.join(k for k in keys if k != 'end')}"
            slips.append(Slip(key, f"unknown key {shown(repr(key))}", remedy))
    return slips


def _fitting(table: Mapping[str, Any], keys: Mapping[str, Holds]) -> tuple[dict[str, Any], list[Slip]]:
    values, slips = {}, []
    for key, holds in keys.items():
        if key in table:
            if holds.fits(table[key]):
                values[key] = table[key]
            else:
                slips.append(wrong_value(key, table[key], holds))
    return values, slips


def place_of(table: Mapping[str, Any]) -> tuple[Place, list[Slip]]:
    """The `[place]` table; what does not fit is unknown."""
    values, slips = _fitting(table, PLACE_KEYS)
    values |= {key: month_day_of(values[key]) for key in ("last_frost", "first_frost") if key in values}
    return Place(**values), slips


def tree_of(table: Mapping[str, Any], folder: str) -> tuple[Tree, list[Slip]]:
    """tree.toml; a tree without a usable name goes by its folder."""
    values, slips = _fitting(table, TREE_KEYS)
    if "name" not in table:
        slips.append(Slip("name", "the tree has no name", 'add a line such as name = "Gatepost"'))
    since = values.get("since")
    if isinstance(since, dt.datetime):
        values["since"] = since.date()
    name, was = _names_of(values.pop("name", folder), values.pop("renamed", ()))
    return Tree(**values, name=name, was=was, folder=folder), slips


def _names_of(name: str, renamed: Iterable[Mapping[str, Any]]) -> tuple[str, tuple[str, ...]]:
    """The name that a tree goes by, and those it went by before. A table with `back` takes the last name back."""
    names = [name]
    for row in renamed:
        if row.get("back") is not True:
            names.append(row["name"])
        elif len(names) > 1:
            names.pop()
    return names[-1], tuple(old for old in dict.fromkeys(names) if old != names[-1])


_FIELDS = set(Entry.__match_args__) - {"more"}


def entry_of(table: Mapping[str, Any], made_up_id: Callable[[], str]) -> tuple[Entry | None, list[Slip]]:
    """One entry. None where its day is not known, since it could then not be put in order.

    made_up_id: gives the id of an entry that has none; it must give the same one at every reading.
    """
    values: dict[str, Any] = {}
    more: dict[str, Any] = {}
    slips: list[Slip] = []
    for key, value in table.items():
        holds = ENTRY_KEYS.get(key)
        if holds is None:
            more[key] = value
        elif key == "end":
            pass
        elif holds.fits(value):
            values[key] = tuple(value) if isinstance(value, list) else value
            if key == "follow":
                values[key] = tuple(map(dated, value))
        else:
            slips.append(wrong_value(key, value, holds))
            more[key] = value
    if "id" not in values:
        values["id"] = made_up_id()
        slips.append(Slip("id", "the entry has no id", f'add a line such as id = "{values["id"]}"'))
    if "when" in values:
        when = values["when"]
        values["when"] = when if isinstance(when, str) else when.isoformat()[:10]
    if "kind" not in values:
        if "kind" not in table:
            slips.append(Slip("kind", "the entry has no kind", f'add kind = "done", or another of {", ".join(KINDS)}'))
        values["kind"] = "note"
    if "at" not in values:
        day = _date_in_quotes(table.get("at"))
        if day is None:
            if "at" not in table:
                slips.append(Slip("at", "the entry has no day", "add a line such as at = 2026-06-14"))
            return None, [Slip(slip.key, slip.problem, slip.remedy, values["id"]) for slip in slips]
        values["at"] = day
        more.pop("at", None)
    if slips:
        slips = [Slip(slip.key, slip.problem, slip.remedy, values["id"]) for slip in slips]
    return Entry(**values, more=more), slips


def dated(follow: dict[str, Any]) -> dict[str, Any]:
    """A follow-up whose day, where it stood in quotes, is a date."""
    day = _date_in_quotes(follow.get("on"))
    return follow | {"on": day} if day else follow


def _date_in_quotes(value: Any) -> dt.date | None:
    try:
        return dt.date.fromisoformat(value) if isinstance(value, str) and len(value) == 10 else None
    except ValueError:
        return None
