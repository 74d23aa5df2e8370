"""Notes from elsewhere: any CSV, with what its columns mean told in plain words.

    day is Date, said is Notes, tree is Plant, kind is done, day first

Each part names one of our keys and a column of theirs, in either order; a word that is no column stands for itself on
every line.
"""

from __future__ import annotations

import csv
import datetime as dt
import re
from collections.abc import Iterable, Mapping

from benchmate.fault import Fault, UserError
from benchmate.garden.exchange import Imported, Progress, take_in
from benchmate.garden.record import KINDS
from benchmate.garden.shapes import nearest, shown
from benchmate.garden.store import Garden
from benchmate.value import dataclass

KEYS = {
    "day": "at", "date": "at", "at": "at", "when": "at",
    "said": "said", "words": "said", "notes": "said", "note": "said", "tree": "tree",
    "kind": "kind", "work": "work", "reason": "reason", "photo": "photo", "photograph": "photo",
}  # fmt: skip
_PART = re.compile(
    r"\s*(?:the\s+)?(\w+)\s*(?:=|\bis\b|\bfrom\b|\bare\b)\s*(?:the\s+)?(?:column\s+)?[\"']?(.*?)[\"']?\s*"
)
_DAY_MONTH = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})")


@dataclass(frozen=True, slots=True)
class Meaning:
    """columns: our key -> their column. fixed: our key -> what it is on every line. day_first: None where not said."""

    columns: Mapping[str, str]
    fixed: Mapping[str, str]
    day_first: bool | None = None


def read_meaning(words: str, columns: Iterable[str]) -> Meaning:
    """What is told of a file's columns. Raises UserError for a part that cannot be understood, or where no day is."""
    by_name = {name.strip().casefold(): name for name in columns if name and name.strip()}
    found: dict[str, str] = {}
    fixed: dict[str, str] = {}
    day_first = None
    for part in filter(str.strip, re.split(r"[,;\n]|\band\b", words)):
        if order := re.fullmatch(r"\s*(days?|months?) (?:comes? |stands? )?first\s*", part.casefold()):
            day_first = order[1].startswith("day")
            continue
        match = _PART.fullmatch(part)
        ours, theirs = (match[1].casefold(), match[2].casefold()) if match else ("", "")
        if ours in by_name and theirs in KEYS and not (ours in KEYS and theirs in by_name):
            ours, theirs = theirs, ours
        key = KEYS.get(ours)
        if match is None or key is None:
            near = nearest(match[1], list(KEYS)) if match else ""
            remedy = f"did you mean {near!r}?" if near else 'say it as in "day is Date, said is Notes, tree is Plant"'
            raise UserError(f"{shown(part.strip())!r} says nothing of a column; {remedy}")
        if theirs in by_name:
            found[key] = by_name[theirs]
        elif key in ("kind", "tree", "work"):
            fixed[key] = match[2]
        else:
            raise UserError(
                f"there is no column {shown(match[2])!r}; there are {shown(', '.join(by_name.values()), 200)}"
            )
    if "at" not in found:
        raise UserError(f"no column is told for the day; there are {shown(', '.join(by_name.values()), 200)}")
    if fixed.get("kind", "done") not in KINDS:
        raise UserError(f"there is no kind {shown(fixed['kind'])!r}; it is one of {', '.join(KINDS)}")
    return Meaning(found, fixed, day_first)


def import_foreign(
    garden: Garden,
    source: Iterable[str],
    words: str,
    make_trees: bool = False,
    name: str = "-",
    *,
    dry: bool = False,
    progress: Progress | None = None,
) -> Imported:
    """Take in a CSV of any make, its columns told in words. What was taken in before is passed over.

    source: opened with newline="". Lines without a kind are `done` where they have a work, else `note`. Raises
    UserError where the words cannot be understood, NotLogged where an entry cannot be written.
    """
    csv.field_size_limit(1 << 26)
    reader = csv.DictReader(source)
    meaning = read_meaning(words, reader.fieldnames or ())
    rows: list[tuple[int, dict[str, object]]] = []
    faults: list[Fault] = []
    try:
        lines = [(reader.line_num, cells) for cells in reader]
    except csv.Error as fault:
        return Imported(0, 0, (Fault(name, reader.line_num, "", f"no CSV: {fault}", "export it anew as CSV"),))
    day_first = meaning.day_first
    if day_first is None:
        day_first = _order_of([cells.get(meaning.columns["at"]) or "" for _, cells in lines])
    for line, cells in lines:
        row: dict[str, object] = dict(meaning.fixed)
        row |= {key: value.strip() for key, theirs in meaning.columns.items() if (value := cells.get(theirs))}
        day = _day_of(str(row.get("at", "")), day_first)
        if day is None:
            words = str(row.get("at", ""))
            problem = f"no day that can be read: {shown(words)}"
            unsure = day_first is None and _DAY_MONTH.fullmatch(words)
            remedy = 'add "day first" or "month first" to the words' if unsure else "write it as 2026-06-14"
            faults.append(Fault(name, line, "", problem, remedy))
            continue
        row["at"] = day.isoformat()
        if works := [work for work in re.split(r"[,;+]", str(row.pop("work", ""))) if work.strip()]:
            row["work"] = [{"work": "-".join(work.lower().split())} for work in works]
        row.setdefault("kind", "done" if works else "note")
        rows.append((line, row))
    return take_in(garden, rows, faults, make_trees, name, dry=dry, progress=progress)


def _order_of(days: Iterable[str]) -> bool | None:
    """Whether the day stands first, where some day of the file settles it."""
    for match in filter(None, map(_DAY_MONTH.fullmatch, map(str.strip, days))):
        if int(match[1]) > 12:
            return True
        if int(match[2]) > 12:
            return False
    return None


def _day_of(words: str, day_first: bool | None) -> dt.date | None:
    try:
        if match := _DAY_MONTH.fullmatch(words):
            if day_first is None:
                return None
            first, second, year = map(int, match.groups())
            return dt.date(year, second, first) if day_first else dt.date(year, first, second)
        return dt.date.fromisoformat(words[:10])
    except ValueError:
        return None
