"""The course of a tree's year: which stage follows which, and on what dates at a place."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from benchmate.garden.record import Place
from benchmate.value import dataclass

from .kept import Kept
from .year import Tables, year_of

Traits = Mapping[str, Any]
_DAY = dt.timedelta(days=1)
# beside a kind's traits: by how many days the tree's own springs come later, negative earlier, than its clock has them
SPRING_SHIFT = "spring-shift"
# late springs and early autumns press the steps together; each still has its week
_LEAST = dt.timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Span:
    """One stage from its first to its last day. flush: the flush that the stage speaks of, where that can be told."""

    stage: str
    first: dt.date
    last: dt.date
    flush: int | None = None


@dataclass(frozen=True, slots=True)
class Course:
    """The stages of a kind of tree around a day, oldest first, without a gap. about: the kind, in words."""

    about: str
    spans: tuple[Span, ...]

    def at(self, on: dt.date) -> Span | None:
        return next((span for span in self.spans if span.first <= on <= span.last), None)


_COURSES: Kept[Course | None] = Kept(400)
_NAMES: Kept[tuple[str, ...]] = Kept(20)


def course_of(traits: Traits, place: Place, on: dt.date, tables: Tables) -> Course | None:
    """What a tree goes through from about two years before `on` to two years after.

    None where the traits fit no clock, and where a tree that needs a rest stands at a place without a cold season, or
    at one of which neither latitude nor frost dates are known.
    """
    names = _NAMES.get(tables, "", lambda: _names_of(tables))
    told = tuple(repr(traits.get(name)) for name in names)
    return _COURSES.get(tables, (told, place, on.year), lambda: _course_of(traits, place, on, tables))


def _names_of(tables: Tables) -> tuple[str, ...]:
    """The traits that a course hangs on."""
    clocks = tables["clocks"]["clock"]
    rows = [clock["fits"] for clock in clocks] + [step.get("only", {}) for clock in clocks for step in clock["steps"]]
    return tuple(sorted({"leafing", SPRING_SHIFT, *(name for row in rows for name in row)}))


def _course_of(traits: Traits, place: Place, on: dt.date, tables: Tables) -> Course | None:
    """The course, of which no more hangs on the day than its year."""
    clock = clock_for(traits, tables)
    if clock is None:
        return None
    year = year_of(place, tables)
    if not year.frost and "frost_free" in clock:
        return Course(clock["about"], (Span(clock["frost_free"], dt.date.min, dt.date.max),))
    starts: list[tuple[dt.date, str, int | None]] = []
    for spring, autumn in year.cycles(on):
        new = _starts(clock, traits, spring, autumn, tables)
        # a mild winter is short: the new year begins before the old one has run out
        starts = [old for old in starts if not new or old[0] < new[0][0]] + new
    if not starts:
        return None
    spans = (Span(stage, first, after - _DAY, flush) for (first, stage, flush), (after, _, _) in pairwise(starts))
    return Course(clock["about"], tuple(spans))


def fits(wanted: Mapping[str, list[Any]], traits: Traits) -> bool:
    """Whether each trait is known and one of the values named."""
    return all(name in traits and traits[name] in values for name, values in wanted.items())


def clock_for(traits: Traits, tables: Tables) -> Mapping[str, Any] | None:
    """The clock that a tree of these traits follows: the first that they fit, or None."""
    return next((clock for clock in tables["clocks"]["clock"] if fits(clock["fits"], traits)), None)


def _starts(
    clock: Mapping[str, Any], traits: Traits, spring: dt.date, autumn: dt.date, tables: Tables
) -> list[tuple[dt.date, str, int | None]]:
    """First days of the steps of one growing year."""
    shift = tables["clocks"]["leafing"].get(traits.get("leafing"), {}).get("days", 0)
    spring += dt.timedelta(days=shift + traits.get(SPRING_SHIFT, 0))
    fall = min(step_day(step, spring, autumn) for step in clock["steps"] if "autumn" in step)
    out: list[tuple[dt.date, str, int | None]] = []
    for step in clock["steps"]:
        first = step_day(step, spring, autumn)
        if not fits(step.get("only", {}), traits) or (step.get("late") and first >= fall):
            continue
        if out:
            first = max(first, out[-1][0] + _LEAST)
        out.append((first, step["stage"], step.get("flush")))
    return out


def step_day(step: Mapping[str, Any], spring: dt.date, autumn: dt.date) -> dt.date:
    """The day that a table counts from one of the two frost dates."""
    anchor, days = (spring, step["spring"]) if "spring" in step else (autumn, step["autumn"])
    return anchor + dt.timedelta(days=int(days))
