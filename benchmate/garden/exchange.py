"""Journals out to JSON Lines and CSV, and in again without loss.

What JSON has no form for (dates other than an entry's and a follow-up's, numbers beyond counting) goes out as a table
with one key that begins with $. In CSV the facts, works and the like are cells of JSON.
"""

from __future__ import annotations

import csv
import datetime as dt
import json
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, TextIO

from benchmate.fault import Fault
from benchmate.garden.append import tidy
from benchmate.garden.journal import made_up_id
from benchmate.garden.json_text import json_text
from benchmate.garden.making import new_tree
from benchmate.garden.naming import folder_for, refuse_name, spoken
from benchmate.garden.record import Entry, Tree
from benchmate.garden.shapes import ENTRY_KEYS, entry_of, shown
from benchmate.garden.store import Garden
from benchmate.value import dataclass, replace

Progress = Callable[[int, int], None]
CHUNK = 1000  # entries that are written at once: between two of them the work may be stopped
WORDS = ("said", "reason", "photo", "strikes", "when", "ends", "named", "expects")
NESTED = ("facts", "work", "measures", "refused", "follow", "more")
COLUMNS = ("tree", "name", "id", "at", "kind", *WORDS, *NESTED)
_DATES: dict[str, type] = {"$moment": dt.datetime, "$date": dt.date, "$time": dt.time}
_READ: dict[str, Callable[[str], Any]] = {
    "$moment": dt.datetime.fromisoformat,
    "$date": dt.date.fromisoformat,
    "$time": dt.time.fromisoformat,
    "$number": float,
}
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")  # a spreadsheet would run such a cell


@dataclass(frozen=True, slots=True)
class Imported:
    """added: entries written. known: those that the garden had already. faults: what could not be taken in, by line."""

    added: int
    known: int
    faults: tuple[Fault, ...] = ()


def _plain(value: Any, key: str = "") -> Any:
    match value:
        case bool() | int() | str() | None:
            return value
        case float():
            return value if math.isfinite(value) else {"$number": str(value)}
        case dt.date() if key == "on" and not isinstance(value, dt.datetime):
            return value.isoformat()
        case dt.date() | dt.time():
            tag = next(tag for tag, kind in _DATES.items() if isinstance(value, kind))
            return {tag: value.isoformat()}
        case Mapping():
            table = {name: _plain(inner, name) for name, inner in value.items()}
            return {"$table": table} if any(name.startswith("$") for name in value) else table
        case list() | tuple():
            return [_plain(inner) for inner in value]
    raise TypeError(f"no form for {type(value).__name__}")


def _from_plain(value: Any) -> Any:
    if isinstance(value, list):
        return [_from_plain(inner) for inner in value]
    if not isinstance(value, dict):
        return value
    tag, inner = next(iter(value.items())) if len(value) == 1 else ("", None)
    if tag in _READ:
        return _READ[tag](str(inner))
    table = inner if tag == "$table" and isinstance(inner, dict) else value
    return {name: _from_plain(each) for name, each in table.items()}


def _row(tree: Tree, entry: Entry) -> dict[str, Any]:
    row: dict[str, Any] = {"tree": tree.folder, "name": tree.name, "id": entry.id, "at": entry.at.isoformat()}
    row["kind"] = entry.kind
    for key in (*WORDS, *NESTED):
        value = getattr(entry, key)
        if value:
            row[key] = _plain(value) if key != "follow" else [_plain(table) for table in value]
    return row


def _rows(garden: Garden, trees: Iterable[Tree] | None) -> Iterator[dict[str, Any]]:
    for tree in garden.trees() if trees is None else trees:
        for entry in garden.entries(tree):
            yield _row(tree, entry)


def export_json_lines(garden: Garden, out: TextIO, trees: Iterable[Tree] | None = None) -> int:
    """Write every entry, struck ones too, as one JSON object a line; gives how many. trees: all by default."""
    count = 0
    for row in _rows(garden, trees):
        out.write(json_text(row) + "\n")
        count += 1
    return count


def export_csv(garden: Garden, out: TextIO, trees: Iterable[Tree] | None = None) -> int:
    """Write every entry as a line of CSV below a line of headings; gives how many.

    out: opened with newline="". A cell that a spreadsheet would take for a formula has a ' before it.
    """
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    count = 0
    for row in _rows(garden, trees):
        writer.writerow([_cell(row.get(key, ""), key) for key in COLUMNS])
        count += 1
    return count


def _cell(value: Any, key: str) -> str:
    words = json.dumps(value, ensure_ascii=False) if key in NESTED and value != "" else str(value)
    return f"'{words}" if words.startswith(_FORMULA) else words


def import_json_lines(
    garden: Garden,
    source: Iterable[str],
    make_trees: bool = False,
    name: str = "-",
    *,
    dry: bool = False,
    progress: Progress | None = None,
) -> Imported:
    """Take in what export_json_lines wrote. Entries that the garden has are passed over, so it may be run again.

    make_trees: make trees that the garden lacks. name: of the source, for its faults. dry: write nothing, tell what
    would be. progress: as in take_in. Raises NotLogged.
    """
    rows: list[tuple[int, dict[str, Any]]] = []
    faults = []
    for line, text in enumerate(source, 1):
        if not text.strip():
            continue
        try:
            row = json.loads(text)
            if not isinstance(row, dict):
                raise ValueError
            rows.append((line, row))
        except (ValueError, RecursionError):
            problem = f"the line is no JSON object: {shown(text)}"
            faults.append(Fault(name, line, "", problem, "write one object in braces a line"))
    return take_in(garden, rows, faults, make_trees, name, dry=dry, progress=progress)


def import_csv(
    garden: Garden,
    source: Iterable[str],
    make_trees: bool = False,
    name: str = "-",
    *,
    dry: bool = False,
    progress: Progress | None = None,
) -> Imported:
    """Take in what export_csv wrote, as import_json_lines does. source: opened with newline=""."""
    rows: list[tuple[int, dict[str, Any]]] = []
    faults = []
    csv.field_size_limit(1 << 26)
    reader = csv.DictReader(source)
    if missing := {"tree", "at"} - set(reader.fieldnames or ()):
        problem = f"the first line names no column {', '.join(sorted(missing))}"
        return Imported(0, 0, (Fault(name, 1, "", problem, f"the columns are {', '.join(COLUMNS)}"),))
    try:
        for cells in reader:
            row: dict[str, Any] = {}
            try:
                for key, words in cells.items():
                    if key and words:
                        plain = words.removeprefix("'")
                        row[key] = json.loads(plain) if key in NESTED else plain
                rows.append((reader.line_num, row))
            except (ValueError, RecursionError):
                problem = f"the cell {shown(key)} holds no JSON: {shown(words)}"
                faults.append(Fault(name, reader.line_num, "", problem, "leave it empty, or mend its brackets"))
    except csv.Error as fault:
        faults.append(Fault(name, reader.line_num, "", f"no CSV: {fault}", "export it anew as CSV"))
    return take_in(garden, rows, faults, make_trees, name, dry=dry, progress=progress)


def take_in(
    garden: Garden,
    rows: Iterable[tuple[int, dict[str, Any]]],
    faults: list[Fault],
    make_trees: bool,
    name: str,
    *,
    dry: bool = False,
    progress: Progress | None = None,
) -> Imported:
    """Append the rows, by line of their source, that the garden has not got, tree by tree. faults: found before.

    progress: told (entries done, all) before each write and after the last. An exception from it stops the work: what
    was written stands whole, and the rest comes in when it is run again.
    """
    waiting: dict[str, list[tuple[int, Entry]]] = {}
    titles: dict[str, str] = {}
    for line, row in rows:
        folder = str(row.pop("tree", ""))
        titles[folder] = str(row.pop("name", "") or folder)
        entry, problems = _entry_from(row)
        faults += [Fault(name, line, slip.id, slip.problem, slip.remedy) for slip in problems if slip.key != "id"]
        if entry:
            waiting.setdefault(folder, []).append((line, entry))
    added = known = done = 0
    total = sum(map(len, waiting.values()))
    for folder, entries in waiting.items():
        tree = _tree_for(garden, folder, titles[folder], make_trees, dry)
        if tree is None:
            problem = f"no tree {shown(titles[folder])!r} in the garden for {len(entries)} entries"
            faults.append(Fault(name, entries[0][0], "", problem, "make the tree first, or have trees made on the way"))
            continue
        fresh, had = _fresh(garden, tree, entries, faults, name)
        for start in range(0, len(fresh), CHUNK):
            if progress:
                progress(done + start, total)
            if not dry:
                garden.append_all(tree, fresh[start : start + CHUNK])
        added += len(fresh)
        known += had
        done += len(entries)
    if progress:
        progress(total, total)
    return Imported(added, known, tuple(sorted(faults)))


def _entry_from(row: dict[str, Any]) -> tuple[Entry | None, list[Any]]:
    more = row.pop("more", None)
    try:
        row = {key: _from_plain(value) for key, value in row.items()}
        table = row | (_from_plain(more) if isinstance(more, dict) else {})
        at = str(table.get("at", ""))
        table["at"] = dt.date.fromisoformat(at) if len(at) == 10 else dt.datetime.fromisoformat(at)
    except (ValueError, TypeError, AttributeError):
        table = row
    entry, slips = entry_of(table, lambda: made_up_id(table))
    return (tidy(entry) if entry else None), slips


def _tree_for(garden: Garden, folder: str, title: str, make_trees: bool, dry: bool) -> Tree | None:
    trees = garden.trees()
    for tree in trees:
        if tree.folder == folder:
            return tree
    named = [tree for tree in trees if spoken(tree.name) in (spoken(folder), spoken(title))]
    if len(named) == 1:
        return named[0]
    if not make_trees or named:
        return None
    return Tree(title, folder_for(refuse_name(title))) if dry else new_tree(garden, title)


def _fresh(
    garden: Garden, tree: Tree, entries: list[tuple[int, Entry]], faults: list[Fault], name: str
) -> tuple[list[Entry], int]:
    """Those that the tree's record lacks, and how many it has."""
    known = {entry.id: entry for entry in garden.entries(tree)}
    fresh, had = [], 0
    for line, entry in entries:
        other = known.setdefault(entry.id, entry)
        if other is entry:
            fresh.append(entry)
        elif _same(other, entry):
            had += 1
        else:
            problem = "another entry of the tree has this id and says something else"
            faults.append(Fault(name, line, shown(entry.id), problem, "give it another id and import it again"))
    return fresh, had


def _same(one: Entry, other: Entry) -> bool:
    return repr(replace(one, measures=dict(one.measures))) == repr(replace(other, measures=dict(other.measures)))


assert set(WORDS) | set(NESTED) | {"id", "at", "kind", "more"} == (set(ENTRY_KEYS) | {"more"}) - {"end"}
