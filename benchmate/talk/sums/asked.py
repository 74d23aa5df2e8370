"""Figures asked in words: their arguments from the statement, the tree's record, its taxon and the place."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError
from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import Ask, FigureTold
from benchmate.practice.facts import Facts
from benchmate.talk.sums.record import recorded_values
from benchmate.talk.sums.units import in_unit
from benchmate.talk.sums.words import said_values, warm_days

if TYPE_CHECKING:
    from benchmate.hearing import Ear
    from benchmate.reckoning import FigureSpec


class CannotBe(UserError):
    """A figure was asked for measures that no tree and no tool has."""


def figure_told(
    reading: Reading,
    tables: Mapping[str, Any],
    facts: Facts,
    place: Place,
    on: dt.date,
    *,
    ear: Ear,
    tree: Tree | None = None,
    entries: Sequence[Entry] = (),
    taken: Sequence[float] = (),
    leaf_left: float = 1.0,
    temperatures: Sequence[Any] = (),
) -> tuple[FigureTold | None, tuple[Ask, ...]]:
    """The figure that the statement asks for, or what must be known first.

    tables: rows of rules/figures by kind. facts: what is known of the tree. ear: takes the numbers of the statement
    apart. taken: shares of the foliage that went this season. leaf_left: share of the leaf that it carries now, 0 to 1.
    temperatures: daily lows and highs of the garden, from its temperatures.csv. Raises CannotBe for measures that
    cannot be.
    """
    from benchmate.reckoning import FIGURES, FigureError, bind

    if reading.either:
        one, other = (FIGURES[figure].says for figure in reading.either)
        return None, (Ask("figure", f"Which is meant: {one}, or {other}?"),)
    spec = FIGURES.get(reading.figure or "")
    if spec is None:
        return None, (Ask("figure", "Which number is meant?"),)
    known: dict[str, Any] = {"leaf_left": leaf_left}
    if taken:
        known["taken"] = tuple(taken)
    if days := warm_days(temperatures, reading, on, place.southern):
        known["temperatures"] = days
    known |= known_values(reading, tables, facts, place, on, ear=ear, tree=tree, entries=entries)
    bound = bind(spec, known, tables)
    unsaid = [need for need in spec.needs if need.name in known.get("lacks", ())]
    lacks = [need for need in (*bound.lacks, *unsaid) if need.question]
    if bound.lacks and not lacks:
        names = ", ".join(need.name for need in bound.lacks)
        raise UserError(f"{spec.figure}: the rules hold no value for {names}; add it to rules/figures")
    if lacks:
        return None, tuple(Ask(need.asks or need.name, need.question) for need in lacks[:2])
    try:
        figure = spec.work_out(**bound.values)
    except FigureError as error:
        raise CannotBe(str(error)) from error
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
        notes=(*known.get("notes", ()), *figure.notes),
        beside=tuple((one.name, one.value, one.unit) for one in figure.beside),
        opens=figure.opens,
    )
    return in_unit(told, known.get("asked_in", ())), _better_with(spec, known)


def _better_with(spec: FigureSpec, known: Mapping[str, Any]) -> tuple[Ask, ...]:
    """What is asked beside a figure that stands on something assumed: wood is as strong as its species."""
    if spec.figure == "bend-limit" and not known.get("species"):
        return (Ask("species", "Which species is it? The wood is taken as middling until then."),)
    return ()


def known_values(
    reading: Reading,
    tables: Mapping[str, Any],
    facts: Facts,
    place: Place,
    on: dt.date,
    *,
    ear: Ear,
    tree: Tree | None = None,
    entries: Sequence[Entry] = (),
) -> dict[str, Any]:
    """Everything by name that a figure may need: what was said goes over the record, the record over the place.

    A pot whose size is said is another pot than the tree's, so nothing of the tree's own is mixed into it.
    """
    known: dict[str, Any] = {"on": on}
    if place.latitude is not None:
        known |= {"latitude_deg": place.latitude, "first_frost": place.first_frost, "last_frost": place.last_frost}
    if place.longitude is not None:
        known["longitude_deg"] = place.longitude
    said = said_values(reading, tables, ear, on, place.southern)
    recorded = recorded_values(facts, tree, entries, on, said.values.get("what"))
    if said.of_pot:
        recorded = {name: value for name, value in recorded.items() if not name.startswith("pot_")}
    # a measure that the statement alone gave the facts counts as what its words say it is, or not at all
    recorded = {name: value for name, value in recorded.items() if reading.measures.get(name) != value}
    known |= recorded | dict(said.values)
    for name, there in said.of_record.items():
        if name not in said.values and there in recorded:
            known[name] = recorded[there]
    if reading.figure == "frost-margin":  # a day that is the frost's own names the frost, not the day asked from
        frosts = (place.first_frost, place.last_frost)
        days = known.pop("days_said", (known["on"],))
        known["on"] = next((day for day in days if (day.month, day.day) not in frosts), on)
    return known
