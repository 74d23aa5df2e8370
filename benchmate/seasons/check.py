"""What is wrong with the season tables: names that nothing has, days that count from nothing, claims without a mark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from benchmate.fault import Fault

from .year import Tables, month_day

_MARKS = ("practice", "memory")
_ANCHORS = ("spring", "autumn")


def season_faults(tables: Tables, sources: Iterable[str] = ()) -> list[Fault]:
    """Faults of the tables under rules/seasons, sorted by place. sources: ids that a `source` may name."""
    known = set(sources)
    found = [*_stages(tables), *_clocks(tables), *_windows(tables), *_frost(tables), *_marks(tables, known)]
    return sorted(found)


def _fault(file: str, id: str, problem: str, remedy: str) -> Fault:
    return Fault(f"seasons/{file}.toml", 0, id, problem, remedy)


def _stages(tables: Tables) -> Iterator[Fault]:
    stages = tables.get("stages", {}).get("stage", {})
    if not stages:
        yield _fault("stages", "", "no stage is told", "give each stage a table [stage.NAME]")
    for name, cell in stages.items():
        parts = [cell, *cell.get("on", {}).values()]
        for part in parts:
            for key in ("implies", "allows", "excludes"):
                for other in part.get(key, ()):
                    if other not in stages:
                        problem = f"'{key}' names '{other}', which is no stage"
                        yield _fault("stages", name, problem, _nearest(other, stages))
        for key in ("implies", "allows"):
            if key not in cell:
                yield _fault("stages", name, f"'{key}' is missing", f"write {key} = [] where there are none")


def _clocks(tables: Tables) -> Iterator[Fault]:
    stages = tables.get("stages", {}).get("stage", {})
    table = tables.get("clocks", {})
    for clock in table.get("clock", ()):
        id = str(clock.get("id", ""))
        for key in ("id", "about", "fits", "steps"):
            if not clock.get(key):
                yield _fault("clocks", id, f"'{key}' is missing", "a clock has id, about, fits and steps")
        for step in clock.get("steps", ()):
            if step.get("stage") not in stages:
                stage = str(step.get("stage", ""))
                yield _fault("clocks", id, f"a step names '{stage}', which is no stage", _nearest(stage, stages))
            yield from _anchor("clocks", id, step)
    for name, cell in table.get("leafing", {}).items():
        if not isinstance(cell.get("days"), int):
            yield _fault("clocks", name, "'days' is not a whole number", "give the days by which its spring shifts")


def _windows(tables: Tables) -> Iterator[Fault]:
    table = tables.get("windows", {})
    for name, cell in [*table.get("window", {}).items(), *table.get("bloom", {}).items()]:
        if name == "after-flowering":
            continue
        for key in ("opens", "closes"):
            yield from _anchor("windows", name, cell.get(key, {}))


def _anchor(file: str, id: str, step: Mapping[str, Any]) -> Iterator[Fault]:
    named = [key for key in _ANCHORS if key in step]
    if len(named) != 1 or not isinstance(step[named[0]], int):
        remedy = "give whole days from one of them, as in spring = -45"
        yield _fault(file, id, "the days count from neither or both of spring and autumn", remedy)


def _frost(tables: Tables) -> Iterator[Fault]:
    table = tables.get("frost", {})
    for section, key in (("mild", "last_frost"), ("mild", "first_frost"), ("midsummer", "day")):
        try:
            month_day(table[section][key])
        except (KeyError, ValueError, AttributeError):
            yield _fault("frost", section, f"'{key}' is no month-day", 'write it as in "03-15"')


def _marks(tables: Tables, sources: set[str]) -> Iterator[Fault]:
    for file, id, cell in _claims(tables):
        if cell.get("mark") in _MARKS or (cell.get("source") in sources if "source" in cell else False):
            continue
        if "source" in cell:
            source = str(cell["source"])
            yield _fault(file, id, f"'{source}' is no source", _nearest(source, sources))
        else:
            yield _fault(file, id, "it has no provenance", 'give source = "...", mark = "practice" or mark = "memory"')


def _claims(tables: Tables) -> Iterator[tuple[str, str, Mapping[str, Any]]]:
    for file, sections in (("stages", ("stage",)), ("windows", ("window", "bloom")), ("clocks", ("leafing",))):
        for section in sections:
            for id, cell in tables.get(file, {}).get(section, {}).items():
                yield file, id, cell
    for clock in tables.get("clocks", {}).get("clock", ()):
        yield "clocks", str(clock.get("id", "")), clock
    for id, cell in tables.get("frost", {}).items():
        yield "frost", id, cell


def _nearest(word: str, known: Iterable[str]) -> str:
    from difflib import get_close_matches  # slow to load, and seldom needed

    close = get_close_matches(word, list(known), n=1)
    return f"did you mean '{close[0]}'?" if close else "name one that is there"
