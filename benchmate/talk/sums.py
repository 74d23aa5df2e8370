"""Figures asked in words: their arguments from the statement, the tree's record, its taxon and the place."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.fault import UserError
from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import Ask, FigureTold
from benchmate.practice.facts import Facts
from benchmate.talk.dates import first_day

_LABEL = re.compile(r"(?<![\d.-])(\d{1,2}(?:\.\d+)?)-(\d{1,2}(?:\.\d+)?)-(\d{1,2}(?:\.\d+)?)(?![\d-])")
_GROWN = ("base_mm", "height_mm", "diameter_mm")
_CUTTING = ("leaf-cut", "defoliate", "shorten", "candle-cut")
_NOT_OF_WHOLE = ("diameter_mm", "length_mm", "width_mm", "angle_deg", "gap_mm", "leaves", "pairs", "buds", "days")


def figure_told(
    reading: Reading,
    tables: Mapping[str, Any],
    facts: Facts,
    place: Place,
    on: dt.date,
    *,
    tree: Tree | None = None,
    entries: Sequence[Entry] = (),
    taken: Sequence[float] = (),
    temperatures: Sequence[Any] = (),
) -> tuple[FigureTold | None, tuple[Ask, ...]]:
    """The figure that the statement asks for, or what must be known first.

    tables: rows of rules/figures by kind. facts: what is known of the tree. taken: shares of the foliage that went this
    season. temperatures: daily lows and highs of the garden. Raises UserError for measures that cannot be.
    """
    from benchmate.reckoning import FIGURES, FigureError, bind

    spec = FIGURES.get(reading.figure or "")
    if spec is None:
        return None, (Ask("figure", "Which number is meant?"),)
    known = known_values(reading, facts, place, on, tables, tree=tree, entries=entries)
    if taken:
        known["taken"] = tuple(taken)
    if temperatures:
        known["temperatures"] = tuple(temperatures)
    bound = bind(spec, known, tables)
    lacks = [need for need in bound.lacks if need.question]
    if bound.lacks and not lacks:
        names = ", ".join(need.name for need in bound.lacks)
        raise UserError(f"{spec.figure}: the rules hold no value for {names}; add it to rules/figures")
    if lacks:
        return None, tuple(Ask(need.name, need.question) for need in lacks[:2])
    try:
        figure = spec.work_out(**bound.values)
    except FigureError as error:
        raise UserError(str(error)) from error
    told = FigureTold(
        figure.figure,
        figure.value,
        figure.unit,
        figure.low,
        figure.high,
        figure.how,
        figure.source,
        figure.mark,
        figure.limits,
        notes=figure.notes,
        beside=tuple((one.name, one.value, one.unit) for one in figure.beside),
    )
    return told, ()


def known_values(
    reading: Reading,
    facts: Facts,
    place: Place,
    on: dt.date,
    tables: Mapping[str, Any],
    *,
    tree: Tree | None = None,
    entries: Sequence[Entry] = (),
) -> dict[str, Any]:
    """Everything by name that a figure may need: what was said goes over the record, the record over the place."""
    known: dict[str, Any] = {"on": on}
    if place.latitude is not None:
        known |= {"latitude_deg": place.latitude, "first_frost": place.first_frost, "last_frost": place.last_frost}
    if place.longitude is not None:
        known["longitude_deg"] = place.longitude
    if facts.taxon:
        known["species"] = facts.taxon
    for kind in ("health", "stage"):
        if fact := facts.first(kind):
            known[kind] = fact.value
    if tree:
        known |= {key: value for key, value in tree.size.items()}
        known |= {f"pot_{key}": value for key, value in tree.pot.items()}
    known |= {key: value for key, value in facts.measures.items() if key not in _NOT_OF_WHOLE}
    known |= _from_record(facts, entries, on)
    known |= _from_words(reading, tables)
    known |= dict(reading.measures)
    sizes = [fact.measures["diameter_mm"] for fact in _placed(reading) if "diameter_mm" in fact.measures]
    sizes = sizes or [value for name, value in reading.series if name in ("diameter_mm", "height_mm", "length_mm")]
    if len(sizes) > 1:
        known["diameters_mm"] = tuple(sizes)
    if reading.when and (day := first_day(reading.when, place.southern)):
        known["on"] = day
    return known


def _placed(reading: Reading) -> list[Any]:
    return [*reading.candidates, *reading.facts]


def _from_record(facts: Facts, entries: Sequence[Entry], on: dt.date) -> dict[str, Any]:
    out: dict[str, Any] = {}
    on_tree = [known for known in facts.of("finding") if known.value == "wire-on" and not known.denied]
    wired = [done for done in facts.done if done.work == "wire" and not done.denied]
    if on_tree and wired:
        out["wired_on"] = wired[0].last
    cut = [done for done in facts.done if done.work in _CUTTING and not done.denied and (on - done.last).days < 120]
    if cut:
        out["cut_on"] = cut[0].last
    readings = measured(entries, on)
    if readings:
        what = max(readings, key=lambda key: len(readings[key]))
        out |= {"readings": tuple(readings[what]), "what": what.removesuffix("_mm")}
    return out


def measured(entries: Sequence[Entry], on: dt.date) -> dict[str, list[tuple[dt.date, float]]]:
    """What was measured on the tree, by measure, oldest first: the trunk's girth and the height, from any entry."""
    out: dict[str, list[tuple[dt.date, float]]] = {}
    struck = {entry.strikes for entry in entries if entry.strikes}
    for entry in sorted(entries, key=lambda entry: entry.day):
        if entry.day > on or entry.id in struck:
            continue
        tables = [
            entry.measures,
            *(fact for fact in entry.facts if fact.get("part") in (None, "trunk", "base", "tree")),
        ]
        for table in tables:
            for key in _GROWN:
                if isinstance(table.get(key), int | float):
                    out.setdefault("base_mm" if key == "diameter_mm" else key, []).append(
                        (entry.day, float(table[key]))
                    )
    return {key: readings for key, readings in out.items() if len(readings) > 1}


def _from_words(reading: Reading, tables: Mapping[str, Any]) -> dict[str, Any]:
    """What only the words hold: a feed's label, the name of what is diluted."""
    out: dict[str, Any] = {}
    if match := _LABEL.search(reading.said):
        out["label"] = tuple(float(number) for number in match.groups())
    said = reading.said.casefold()
    for row in tables.get("substance", ()):
        names = [str(row.get("key", "")), str(row.get("name", ""))]
        if any(name and name.casefold() in said for name in names):
            out["liquid"] = row.get("key")
            break
    return out
