"""What the words of a figure question tell a sum: its numbers by what they stand for, and what words alone say."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError
from benchmate.hearing.amounts.dates import DateWords
from benchmate.hearing.figures.choice import Heard, figure_words
from benchmate.hearing.figures.said import NumberWords, SaidNumber
from benchmate.hearing.reading import Reading
from benchmate.talk.dates import first_day, span_of
from benchmate.talk.sums.dates import day_meant
from benchmate.talk.sums.given import GIVEN
from benchmate.talk.sums.said import Given
from benchmate.talk.sums.units import asked_units
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.hearing import Ear

_BELOW_ZERO = ("degree-days", "water-need", "days-to-dry", "day-length")  # of warmth, or of a southern latitude
_OF_WORK = ("share", "leaves", "buds", "pairs")  # of a work, they are none of the whole tree
_OF_POT = ("pot_length_mm", "length_mm", "diameter_mm", "volume_l", "held_l")
# work that has a figure of its own once these sizes are said
_FIGURE_OF = {
    "bend": ("bend-limit", {"diameter_mm"}),
    "wire": ("wire-diameter", {"diameter_mm", "tried_mm"}),
    "unwire": ("wire-diameter", {"diameter_mm", "tried_mm"}),
}


OF_RECORD = "record:"  # before a name of the record, among the values that words alone say


@dataclass(frozen=True, slots=True)
class SaidValues:
    """values: by the names that sums use. of_pot: the statement gives a size of its own for the pot. of_record: what is
    meant to be taken from the record, name -> name there ("up the whole trunk": length_mm -> height_mm)."""

    values: Mapping[str, Any]
    of_pot: bool
    of_record: Mapping[str, str]


def said_values(reading: Reading, tables: Mapping[str, Any], ear: Ear, on: dt.date, southern: bool) -> SaidValues:
    """Everything that the statement itself gives to its figure. on: today. tables: rows of rules/figures by kind."""
    words = ear.words(reading.said)
    dates = DateWords(ear.lexicon.dates, ear.spotter.values, on, southern)
    figure = reading.figure or ""
    heard, numbers = figure_words(ear.spotter).of_figure(figure, words, dates)
    _refuse_below_zero(figure, numbers)
    known, texts = figure_words(ear.spotter).numbers, [word.text for word in words]
    given = _given(reading, heard, numbers, texts, on, southern, known)
    values = _of_grammar(reading, heard, numbers)
    values |= {name: value for name, value in GIVEN.get(figure, _as_they_are)(given).items()}
    values["asked_in"] = asked_units(texts, numbers, known)
    if liquid := _liquid(reading.said, tables):
        values["liquid"] = liquid
    values |= _when(reading, values, on, southern)
    of_pot = figure in ("pot-volume", "days-to-dry", "water-need") and any(values.get(name) for name in _OF_POT)
    of_record = {
        name: value.removeprefix(OF_RECORD) for name, value in heard.values.items() if value.startswith(OF_RECORD)
    }
    return SaidValues(values, of_pot, of_record)


def _given(
    reading: Reading,
    heard: Heard,
    numbers: Sequence[SaidNumber],
    texts: Sequence[str],
    on: dt.date,
    southern: bool,
    known: NumberWords,
) -> Given:
    many: dict[str, list[Any]] = {}
    places: dict[str, list[int]] = {}
    for role in heard.roles.roles:
        value = role.value
        if numbers[role.number].unit == "date" and role.name not in ("dates", "earlier_on"):
            value = day_meant(role.value, reading, texts, on, southern, known.small)
        many.setdefault(role.name, []).append(value)
        places.setdefault(role.name, []).append(role.number)
    return Given(many, places, heard.values, numbers, known.unit_names, on, southern)


def _as_they_are(given: Given) -> dict[str, Any]:
    return given.single()


def _of_grammar(reading: Reading, heard: Heard, numbers: Sequence[SaidNumber]) -> dict[str, Any]:
    """Measures that the grammar took in and that no number of the figure stands for: those of words without a number
    of their own ("halve", "a pencil"), and of work that is supposed."""
    if heard.roles.roles or any(number.unit != "date" for number in numbers):
        return {}
    values = dict(reading.measures)
    if len(reading.series) == 1:  # "finger thick branch, wire size?"
        values = dict(reading.series) | values
    for work in (*reading.work, *reading.supposes):
        values = {name: value for name, value in work.measures.items() if name not in _OF_WORK} | values
    return values


def _refuse_below_zero(figure: str, numbers: Sequence[SaidNumber]) -> None:
    """A size or a count below zero, its unit beside another number ("-8 and 11 mm"). Raises UserError."""
    sized = any(number.unit for number in numbers)  # "it's minus six out here" has no unit, and is a temperature
    for number in numbers:
        if number.raw < 0 and sized and number.unit not in ("celsius", "degree") and figure not in _BELOW_ZERO:
            raise UserError(f"{number.raw:g} is below zero; say a measure above zero")


def sized_work(reading: Reading, ear: Ear, on: dt.date) -> Reading | None:
    """The figure question inside a question about work ("can I bend a 9 mm branch forty degrees"), or None."""
    for work in reading.work:
        if (work.work or "") not in _FIGURE_OF:
            continue
        figure, sizes = _FIGURE_OF[work.work or ""]
        dates = DateWords(ear.lexicon.dates, ear.spotter.values, on, False)
        heard, numbers = figure_words(ear.spotter).of_figure(figure, ear.words(reading.said), dates)
        given = {role.name for role in heard.roles.roles if numbers[role.number].raw >= 0}  # minus six is the weather
        if sizes <= {*work.measures, *given}:
            return replace(reading, figure=figure, measures={**reading.measures, **work.measures})
    return None


def warm_days(temperatures: Sequence[Any], reading: Reading, on: dt.date, southern: bool) -> tuple[Any, ...]:
    """Those of the garden's days that the statement means: up to today, and from the day on which it counts."""
    since = first_day(reading.when, southern) if reading.when else None
    start = since if since and since <= on else dt.date.min
    return tuple(day for day in temperatures if day.on is None or start <= day.on <= on)


def _liquid(said: str, tables: Mapping[str, Any]) -> str | None:
    """The key of the liquid that is spoken of."""
    text = said.casefold()
    names = sorted(
        (
            (str(name).casefold(), row["key"])
            for row in tables.get("substance", ())
            for name in (row.get("key"), row.get("name"), *row.get("also", ()))
            if name
        ),
        key=lambda pair: -len(pair[0]),
    )
    return next((key for name, key in names if name in text), None)


def _when(reading: Reading, values: Mapping[str, Any], on: dt.date, southern: bool) -> dict[str, Any]:
    """The day that the grammar heard, where no date of the figure was taken."""
    if {"on", "wired_on", "cut_on", "days", "readings", "goal_mm"} & set(values) or not reading.when:
        return {}
    if values.get("wanted") == "time":
        return {}  # "time for a flush before the frost": up to that day, not on it
    span = span_of(reading.when, southern)
    # "this year" is no other day than today
    day = None if span is None or (span[0] < span[1] and span[0] <= on <= span[1]) else span[0]
    if day is None or (reading.figure == "frost-margin" and not str(reading.when)[-1:].isdigit()):
        return {}  # "the autumn frosts" name the frosts, no day
    if reading.figure == "growth-forecast":
        return {} if day <= on else {"days": (day - on).days}
    wired = any(work.work == "wire" and work.done == "done" for work in (*reading.work, *reading.supposes))
    if reading.figure == "bite-date" and wired and day <= on:
        return {"wired_on": day}
    return {"on": day}
