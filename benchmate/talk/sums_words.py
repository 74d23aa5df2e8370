"""What the words of a figure question tell a sum: which number is what, a feed's label, what is diluted, sizes."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError
from benchmate.hearing.reading import Reading
from benchmate.hearing.roles import Role, SaidNumber, figure_roles, said_numbers
from benchmate.talk.dates import first_day, span_of
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.hearing import Ear

_LABEL = re.compile(r"(?<![\d.-])(\d{1,3}(?:\.\d+)?)-(\d{1,3}(?:\.\d+)?)-(\d{1,3}(?:\.\d+)?)(?![\d-])")
_SIZES = ("diameter_mm", "height_mm", "length_mm")
_BELOW_ZERO = ("degree-days", "water-need", "days-to-dry", "day-length")  # of warmth, or of a southern latitude
_OF_WORK = ("share", "leaves", "buds", "pairs")  # of a work, they are none of the whole tree
_OF_STEMS = ("union-ratio", "pipe-sum")
_HALF_A_YEAR = 183
_OF_POT = ("length_mm", "width_mm", "depth_mm")


# Work that has a figure of its own once the size of the branch is said.
_FIGURE_OF = {"bend": "bend-limit"}


@dataclass(frozen=True, slots=True)
class SaidValues:
    """values: by the names that sums use. of_pot: the statement gives a size of its own for the pot."""

    values: Mapping[str, Any]
    of_pot: bool = False


def said_values(reading: Reading, tables: Mapping[str, Any], ear: Ear, on: dt.date, southern: bool) -> SaidValues:
    """Everything that the statement itself gives to its figure. on: today. tables: rows of rules/figures by kind."""
    words = ear.words(reading.said)
    numbers = said_numbers(words, ear.spotter.values)
    roles = figure_roles(reading, words, numbers, ear.lexicon.figures.get(reading.figure or "", {}))
    by_number = {role.name: role.value for role in reversed(roles) if role.number is not None}
    bound = [numbers[role.number].value for role in roles if role.number is not None]
    _refuse_below_zero(reading, numbers)
    values: dict[str, Any] = {
        name: value
        for name, value in reading.measures.items()
        if name in by_number or not any(abs(_in_percent(name, value) - other) < 1e-6 for other in bound)
    }
    for work in (*reading.work, *reading.supposes):
        values = {name: value for name, value in work.measures.items() if name not in _OF_WORK} | values
    values |= {role.name: role.value for role in roles if role.number is None and role.name not in values}
    values |= by_number
    values |= _sizes(reading, roles, numbers)
    values |= _warmth(roles, values, reading)
    values |= _mixed(reading, values, tables)
    if "leaves_cut" in values and "leaves_total" not in values and reading.figure == "leaf-share":
        values |= {"share": None, "taken": None}  # a share of some leaves is none of the crown
    values |= _when(reading, values, on, southern)
    of_pot = reading.figure in ("pot-volume", "days-to-dry", "water-need") and any(
        name in values for name in (*_OF_POT, "diameter_mm", "pot_length_mm", "volume_l")
    )
    return SaidValues(values, of_pot)


def _in_percent(name: str, value: float) -> float:
    """A measure as `said_numbers` gives it."""
    return 100 * value if name == "share" else value


def _refuse_below_zero(reading: Reading, numbers: Sequence[SaidNumber]) -> None:
    """A size or a count below zero, its unit beside another number ("-8 and 11 mm"). Raises UserError."""
    for number in numbers:
        if number.raw < 0 and reading.figure not in _BELOW_ZERO:
            raise UserError(f"{number.raw:g} is below zero; say a measure above zero")


def sized_work(reading: Reading) -> Reading | None:
    """The figure question inside a question about work ("can I bend a 9 mm branch forty degrees"), or None."""
    for work in reading.work:
        if (figure := _FIGURE_OF.get(work.work or "")) and "diameter_mm" in work.measures:
            return replace(reading, figure=figure, measures={**reading.measures, **work.measures})
    return None


def _sizes(reading: Reading, roles: Sequence[Role], numbers: Sequence[SaidNumber]) -> dict[str, Any]:
    """Several sizes of one kind, less those that stand for something else."""
    taken = {role.number for role in roles if role.name not in _SIZES}
    lengths = [one.value for n, one in enumerate(numbers) if one.unit == "length" and n not in taken]
    placed = [*reading.candidates, *reading.facts]
    sizes = [fact.measures["diameter_mm"] for fact in placed if "diameter_mm" in fact.measures]
    sizes = sizes or [value for name, value in reading.series if name in _SIZES]
    if not lengths and not sizes and reading.figure in _OF_STEMS:
        # "stems of 20 and 12": a ratio needs no unit, and stems are told in mm
        lengths = [one.value for n, one in enumerate(numbers) if not one.unit and n not in taken]
    several = lengths if len(lengths) >= len(sizes) or taken else sizes
    if len(several) > 1 or (several and any(role.name in ("parent_mm", "grown_mm") for role in roles)):
        return {"diameters_mm": tuple(several)}
    return {}


def _warmth(roles: Sequence[Role], values: Mapping[str, Any], reading: Reading) -> dict[str, Any]:
    """Days of lowest and highest temperatures, in the order said."""
    if reading.figure != "degree-days":
        return {}
    at = [
        sorted((role.number or 0, role.value) for role in roles if role.name == name)
        for name in ("low_c", "temperature_c")
    ]
    days = tuple((low, high) for (_, low), (_, high) in zip(*at, strict=False))
    # a warmth that was paired, or that nothing pairs with, is no base to count from
    return ({"temperatures": days} if days else {}) | {"temperature_c": None}


def warm_days(temperatures: Sequence[Any], reading: Reading, on: dt.date, southern: bool) -> tuple[Any, ...]:
    """Those of the garden's days that the statement means: up to today, and from the day on which it counts."""
    since = first_day(reading.when, southern) if reading.when else None
    start = since if since and since <= on else dt.date.min
    return tuple(day for day in temperatures if day.on is None or start <= day.on <= on)


def _mixed(reading: Reading, values: Mapping[str, Any], tables: Mapping[str, Any]) -> dict[str, Any]:
    """A feed's label, and what is diluted in how many parts."""
    out: dict[str, Any] = {}
    if match := _LABEL.search(reading.said):
        out["label"] = tuple(float(number) for number in match.groups())
    said = reading.said.casefold()
    names = sorted(
        (
            (str(name).casefold(), row["key"])
            for row in tables.get("substance", ())
            for name in (row.get("key"), row.get("name"), *row.get("also", ()))
            if name
        ),
        key=lambda pair: -len(pair[0]),
    )
    if liquid := next((key for name, key in names if name in said), None):
        out["liquid"] = liquid
    if "whole_parts" in values:
        out["parts"] = values["whole_parts"] - 1
    if "wanted_percent" in values:
        out["share"] = None
    return out


def _when(reading: Reading, values: Mapping[str, Any], on: dt.date, southern: bool) -> dict[str, Any]:
    """The day that is meant. For a forecast it is the end of the span, for wire that is on it is when that was done."""
    span = span_of(reading.when, southern) if reading.when else None
    # "this year" is no other day than today
    day = None if span is None or (span[0] < span[1] and span[0] <= on <= span[1]) else span[0]
    if reading.figure == "growth-forecast":
        return {} if day is None or "days" in values or day <= on else {"days": (day - on).days}
    if day is None or (reading.figure == "frost-margin" and not str(reading.when)[-1:].isdigit()):
        return {}  # "the autumn frosts" name the frosts, no day
    wired = any(work.work == "wire" and work.done == "done" for work in (*reading.work, *reading.supposes))
    if reading.figure == "bite-date" and wired and day <= on:
        return {"wired_on": day}
    if reading.figure == "regrowth-date" and (on - day).days > _HALF_A_YEAR:
        day = first_day(f"{day.year + 1}{day.isoformat()[4:]}") or day  # "cut on 1 July", said in June, is to come
    return {"on": day}
