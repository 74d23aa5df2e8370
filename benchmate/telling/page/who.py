"""Who the tree is: what its file tells, and what was seen of it since, each with its day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry
from benchmate.telling.dates import day_words
from benchmate.telling.lines import cut_short
from benchmate.telling.measures import measure_words
from benchmate.telling.page.growth import series_of
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.wording import list_words

_NAME_MOST = 80


def name_words(sheet: Sheet) -> str:
    """The tree's name, fit for a heading."""
    return cut_short(sheet.tree.name, _NAME_MOST) or cut_short(sheet.tree.folder, _NAME_MOST)


def who_rows(sheet: Sheet) -> list[tuple[str, str]]:
    """Pairs such as ("Origin", "hedge-collected"). What nobody told says so where advice rests on it."""
    tree, units = sheet.tree, sheet.units
    rows = [
        ("Kind", kind_words(sheet)),
        ("Origin", cut_short(tree.origin or "not told")),
        ("Phase", _latest(sheet.entries, "phase") or _plain(tree.phase)),
        ("Health", _latest(sheet.entries, "health") or _plain(tree.health)),
        ("Here since", _since(tree.since, sheet.on) if tree.since else "not told"),
        ("Pot", _measures(as_potted(tree, sheet.entries, sheet.on).pot, units) or "not told"),
        ("Size", _size(sheet) or "not told"),
    ]
    return rows


def kind_words(sheet: Sheet) -> str:
    """The taxon with what growers call it: "Acer campestre, field maple"."""
    species = cut_short(sheet.tree.species or "")
    return ", ".join(filter(None, [species, sheet.common_name or ""])) or "species not told"


def _plain(value: str | None) -> str:
    return cut_short(value.replace("-", " ")) if value else "not told"


def _latest(entries: Iterable[Entry], kind: str) -> str:
    """The last value of a kind that was seen and not denied since, with its day."""
    denied: set[object] = set()
    for entry in reversed(list(entries)):
        for fact in reversed(entry.facts):
            if fact.get("kind") != kind or fact.get("value") in (None, *denied):
                continue
            if fact.get("not"):
                denied.add(fact["value"])
                continue
            return f"{_plain(str(fact['value']))} (seen {day_words(entry.day)})"
    return ""


def _since(since: dt.date, on: dt.date) -> str:
    whole = on.year - since.year - ((on.month, on.day) < (since.month, since.day))
    told = f", {whole} years" if whole > 1 else ", 1 year" if whole == 1 else ""
    return day_words(since) + told


def _measures(measures: Mapping[str, float], units: str) -> str:
    return list_words([measure_words(key, value, units) for key, value in measures.items()])


def _size(sheet: Sheet) -> str:
    """The file's measures, then the last of each kind that the journal holds, with its day."""
    told = [measure_words(key, value, sheet.units) for key, value in sheet.tree.size.items()]
    for series in series_of(sheet.entries):
        last = series.points[-1]
        told.append(f"{measure_words(series.key, last.mm, sheet.units)} ({day_words(last.day)})")
    return ", ".join(told)
