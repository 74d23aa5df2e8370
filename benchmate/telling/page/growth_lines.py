"""Growth as lines: "2025  58 mm  ######", which reads aloud, and in words alone where that is wanted."""

from __future__ import annotations

from collections.abc import Iterable

from benchmate.garden.record import Entry
from benchmate.telling import lines as role
from benchmate.telling.dates import day_words
from benchmate.telling.lines import Line
from benchmate.telling.measures import millimetres
from benchmate.telling.page.growth import (
    NO_GROWTH,
    Point,
    Series,
    growth_words,
    nice_step,
    series_of,
    shown,
    thinned,
    unit_words,
)

_ROWS_MOST, _BAR_MOST, _WIDTH = 12, 40, 80


def growth_lines(
    entries: Iterable[Entry], units: str = "metric", *, width: int | None = None, plain: bool = False
) -> list[Line]:
    """Each measure of the tree: what it says in words, then a line a measurement.

    width: columns, or None where lines may be long. plain: no bars.
    """
    found = series_of(entries)
    if not found:
        return [Line(NO_GROWTH, role.REASON, indent=2)]
    return [line for series in found for line in _lines(series, units, width or _WIDTH, plain)]


def _lines(series: Series, units: str, width: int, plain: bool) -> list[Line]:
    lines = [Line(growth_words(series, units), role.REASON, indent=2)]
    if not series.has_line:
        return lines
    kept = thinned(series.points, _ROWS_MOST)
    labels = _labels(kept)
    sizes = [millimetres(point.mm, units) for point in kept]
    if plain:
        told = zip(labels, sizes, strict=True)
        return [*lines, *(Line(f"{size}.", role.REASON, f"{label}: ", 4) for label, size in told)]
    wide, long = max(map(len, labels)), max(map(len, sizes))
    room = max(5, min(_BAR_MOST, width - wide - long - 8))
    step = nice_step(max(shown(point.mm, units) for point in kept), room)
    for label, size, point in zip(labels, sizes, kept, strict=True):
        bar = "#" * max(1, round(shown(point.mm, units) / step))
        lines.append(Line(bar, role.REASON, f"{label:<{wide}}  {size:>{long}}  ", 4))
    if len(kept) < len(series.points):
        lines.append(Line(f"The last of each year, of {len(series.points)} measurements.", role.ASIDE, indent=4))
    lines.append(Line(f"Each # is {step:g} {unit_words(units)}, counted from 0.", role.ASIDE, indent=4))
    return lines


def _labels(points: Iterable[Point]) -> list[str]:
    """The years, or the days where a year has several."""
    days = [point.day for point in points]
    if len({day.year for day in days}) == len(days):
        return [str(day.year) for day in days]
    return [day_words(day) for day in days]
