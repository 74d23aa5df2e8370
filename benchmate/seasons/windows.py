"""When a stage, or a time for work such as the warm season, next opens at a place, and when it closes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from benchmate.garden.record import Place
from benchmate.value import dataclass

from .course import Traits, course_of, step_day
from .stages import stage_truth
from .year import Tables, year_of

_DAY = dt.timedelta(days=1)
# what is left of a window where spring and autumn frost leave no room for it: a week either side of the middle
_WEEK = dt.timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Window:
    """A span of days, both ends counted. name: the stage or time it stands for. closes: None where it never does."""

    name: str
    opens: dt.date
    closes: dt.date | None

    def holds(self, on: dt.date) -> bool:
        return self.opens <= on and (self.closes is None or on <= self.closes)


def next_window(name: str, on: dt.date, traits: Traits, place: Place, tables: Tables) -> Window | None:
    """The window of that name which holds on a day, else the next one after it; None where none is to be expected.

    name: a stage, or one of the windows of windows.toml. A stage is also there while one that implies it is: a tree
    whose growth has stopped has hardened.
    """
    for window in _windows(name, on, traits, place, tables):
        if window.closes is None or window.closes >= on:
            return window
    return None


def first_window(names: Iterable[str], on: dt.date, traits: Traits, place: Place, tables: Tables) -> Window | None:
    """Of several windows the one that holds on a day, else the one that opens next; those that touch are one.

    names: as a taxon's `repot` cell gives them.
    """
    every = sorted(
        (window for name in names for window in _windows(name, on, traits, place, tables)),
        key=lambda window: (window.opens, window.closes or dt.date.max),
    )
    joined: list[Window] = []
    for window in every:
        last = joined[-1] if joined else None
        if last and (last.closes is None or window.opens <= last.closes + _DAY):
            joined[-1] = Window(last.name, last.opens, _later(last.closes, window.closes))
        else:
            joined.append(window)
    return next((window for window in joined if window.closes is None or window.closes >= on), None)


def next_stage(stage: str, on: dt.date, traits: Traits, place: Place, tables: Tables) -> dt.date | None:
    """The day from which a stage or window is next expected, `on` itself while it holds; None where it never is."""
    window = next_window(stage, on, traits, place, tables)
    return None if window is None else max(window.opens, on)


def _later(one: dt.date | None, other: dt.date | None) -> dt.date | None:
    return None if one is None or other is None else max(one, other)


def _windows(name: str, on: dt.date, traits: Traits, place: Place, tables: Tables) -> Iterator[Window]:
    """All windows of a name in the years around a day, oldest first."""
    table = tables["windows"]["window"]
    if name in ("flowering", "after-flowering"):
        yield from _bloom(name, on, traits, place, tables)
    elif name in table:
        yield from _named(name, table[name], on, place, tables)
    else:
        yield from _staged(name, on, traits, place, tables)


def _named(name: str, cell: Mapping[str, Any], on: dt.date, place: Place, tables: Tables) -> Iterator[Window]:
    year = year_of(place, tables)
    if not year.frost and cell.get("always"):
        yield Window(name, dt.date.min, None)
        return
    for spring, autumn in year.cycles(on):
        opens, closes = step_day(cell["opens"], spring, autumn), step_day(cell["closes"], spring, autumn)
        if opens > closes:
            middle = closes + (opens - closes) / 2
            opens, closes = middle - _WEEK, middle + _WEEK
        yield Window(name, opens, closes)


def _bloom(name: str, on: dt.date, traits: Traits, place: Place, tables: Tables) -> Iterator[Window]:
    cell = tables["windows"]["bloom"].get(traits.get("bloom"))
    if cell is None:
        return
    for bloom in _named(name, cell, on, place, tables):
        if name == "flowering" or bloom.closes is None:
            yield bloom
        else:
            days = dt.timedelta(days=tables["windows"]["window"][name]["days"])
            yield Window(name, bloom.closes + _DAY, bloom.closes + days)


def _staged(stage: str, on: dt.date, traits: Traits, place: Place, tables: Tables) -> Iterator[Window]:
    course = course_of(traits, place, on, tables)
    held: Window | None = None
    for span in course.spans if course else ():
        if not stage_truth(span.stage, stage, tables, traits.get("leaf")):
            continue
        if span.last == dt.date.max:
            yield Window(stage, span.first, None)
            return
        if held and held.closes and span.first == held.closes + _DAY:
            held = Window(stage, held.opens, span.last)
            continue
        if held:
            yield held
        held = Window(stage, span.first, span.last)
    if held:
        yield held
