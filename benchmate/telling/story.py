"""A tree's record as a short story: by season, an entry a line."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Fact, Spot
from benchmate.telling import lines as role
from benchmate.telling.dates import day_words, when_words
from benchmate.telling.heard import fact_words
from benchmate.telling.lines import Line, cut_short
from benchmate.telling.measures import measure_words
from benchmate.telling.wording import list_words, sentence, small, work_words

_PLACE = ("part", "side", "level", "ordinal", "count")
_LEAVING = ("leave", "wait")
_NOT_MEASURE = {*_PLACE, "kind", "value", "work", "when", "not", "done", "manner", "span"}
_SEASONS = ("Winter", "Spring", "Summer", "Autumn")


def spot_of(table: Mapping[str, Any]) -> Spot:
    """The place on the tree that a journal's table names."""
    return Spot(*(table.get(key) for key in _PLACE))


def measures_of(table: Mapping[str, Any]) -> dict[str, float]:
    """The measures that a journal's table carries."""
    return {
        key: value
        for key, value in table.items()
        if key not in _NOT_MEASURE and isinstance(value, int | float) and not isinstance(value, bool)
    }


def table_work_words(table: Mapping[str, Any], done: bool = True, units: str = "metric") -> str:
    """A journal's work in words."""
    manner = table.get("manner")
    ways = tuple(map(str, manner)) if isinstance(manner, list | tuple) else ()
    name = str(table.get("work", "work"))
    return work_words(name, spot_of(table), measures_of(table), done=done, manner=ways, units=units)


def table_fact_words(table: Mapping[str, Any], on: dt.date, units: str = "metric") -> str:
    """A journal's fact in words."""
    value = table.get("value", "")
    kind = str(table.get("kind", ""))
    if kind == "flush" and not isinstance(value, int):
        kind = "finding"
    fact = Fact(kind, value, spot_of(table), measures_of(table), table.get("when"), bool(table.get("not")))
    return fact_words(fact, on, units)


def entry_words(entry: Entry, on: dt.date, units: str = "metric") -> str:
    """What an entry says, in one line: "done, shortened the left branch to 2 leaves, because ..."."""
    done = entry.kind == "done"
    works = [table_work_words(table, done, units) for table in entry.work]
    facts = [table_fact_words(table, on, units) for table in entry.facts]
    facts += [measure_words(key, value, units) for key, value in entry.measures.items()]
    match entry.kind:
        case "struck":
            words = f"taken back: {entry.strikes}" + (f", {cut_short(entry.said)}" if entry.said else "")
        case "left" if works and all(table.get("work") in _LEAVING for table in entry.work):
            words = "left: " + list_words(works)
        case "left" if any(table.get("work") in _LEAVING for table in entry.work):
            not_done = [table_work_words(one, False, units) for one in entry.work if one.get("work") not in _LEAVING]
            still = [table_work_words(one, True, units) for one in entry.work if one.get("work") in _LEAVING]
            words = f"left, did not {list_words(not_done, 'or')}; {list_words(still)}"
        case "left":
            words = "left, did not " + list_words(works, "or") if works else f"left: {cut_short(entry.said)}"
        case "note" if entry.ends:
            words = f"record closed ({entry.ends}): {cut_short(entry.said, 400)}"
        case "note" if entry.expects:
            words = f"expected, not seen: {cut_short(entry.expects, 400)}"
        case "note" if entry.named:
            words = f"named {entry.named}: {cut_short(entry.said, 400)}"
        case "note":
            words = f"note: {cut_short(entry.said, 400)}"
        case _:
            told = list_words(works) or ("" if facts else cut_short(entry.said, 200))
            words = f"{entry.kind}: {told}" if told else f"{entry.kind}:"
    if facts:
        words += ("; " if words[-1] != ":" else " ") + "; ".join(facts)
    if entry.when and entry.when.count("-") < 2:
        words += f", {when_words(entry.when)}"
    elif entry.kind in ("plan", "left") and entry.when:
        words += f", {when_words(entry.when, on)}"
    elif entry.day != on and entry.kind != "struck":
        words += f" ({day_words(entry.day, on)})"
    if entry.photo:
        words += f", photograph {cut_short(entry.photo)}"
    if entry.reason:
        words += f", because {small(cut_short(entry.reason, 200)).rstrip('.')}"
    return words


def season_of(day: dt.date, southern: bool) -> str:
    """The season that a day falls in, in words; one that runs over the new year carries both years.

    >>> season_of(dt.date(2026, 1, 5), False), season_of(dt.date(2026, 7, 5), False)
    ('Winter 2025-26', 'Summer 2026')
    """
    number = day.month % 12 // 3
    year = day.year - (day.month < 3)
    name = _SEASONS[(number + 2) % 4 if southern else number]
    return f"{name} {year}-{(year + 1) % 100:02d}" if number == 0 else f"{name} {year}"


def story_lines(
    tree: Tree,
    entries: Sequence[Entry],
    on: dt.date,
    *,
    southern: bool = False,
    newest_first: bool = True,
    units: str = "metric",
    head: bool = True,
) -> list[Line]:
    """The tree in a line or two, then its entries under their seasons; those taken back say so."""
    struck = {entry.strikes for entry in entries if entry.kind == "struck"}
    told = [entry for entry in entries if entry.kind != "struck"]
    lines = [Line(tree_words(as_potted(tree, entries, on), units), role.ANSWER)] if head else []
    if not told:
        return [*lines, Line("Nothing is in its record yet.", role.ASIDE)]
    now = ""
    for entry in sorted(told, key=lambda entry: entry.day, reverse=newest_first):
        season = season_of(entry.day, southern)
        if season != now:
            lines.append(Line(season, role.OPTION))
            now = season
        words = entry_words(entry, entry.day, units)
        if entry.id in struck:
            words += " (taken back)"
        lines.append(Line(sentence(words), role.REASON, f"{day_words(entry.day, entry.day)}: ", 2))
    return lines


def tree_words(tree: Tree, units: str = "metric") -> str:
    """Who the tree is: "Gatepost: Acer campestre, hedge-collected, since 4 March 2023, structure, healthy"."""
    size = [measure_words(key, value, units) for key, value in tree.size.items()]
    pot = [measure_words(key, value, units) for key, value in tree.pot.items()]
    bits = [
        f"once {list_words(list(tree.was))}" if tree.was else "",
        tree.species or "species not told",
        tree.origin or "",
        f"since {day_words(tree.since)}" if tree.since else "",
        f"phase {tree.phase}" if tree.phase else "",
        tree.health or "",
        *size,
        f"pot {list_words(pot)}" if pot else "",
    ]
    return sentence(f"{tree.name}: {', '.join(filter(None, bits))}")


def matching(
    entries: Iterable[Entry],
    *,
    work: str | None = None,
    kinds: Sequence[str] = (),
    start: dt.date | None = None,
    end: dt.date | None = None,
) -> list[Entry]:
    """The entries of a kind, with a work, within days (both ends in); what was taken back is left out."""
    entries = list(entries)
    struck = {entry.strikes for entry in entries if entry.kind == "struck"}
    return [
        entry
        for entry in entries
        if entry.kind != "struck"
        and entry.id not in struck
        and (not kinds or entry.kind in kinds)
        and (work is None or any(table.get("work") == work for table in entry.work))
        and (start is None or entry.day >= start)
        and (end is None or entry.day <= end)
    ]
