"""Measurements over the years: what the record holds, in words, and scales that begin at nothing."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence

from benchmate.garden.record import Entry
from benchmate.telling.dates import day_words
from benchmate.telling.measures import millimetres
from benchmate.value import dataclass

# measures of the whole tree that a record gathers; others hang on a part or a pot
GROWS = {"diameter_mm": "Trunk diameter", "height_mm": "Height", "width_mm": "Width"}
_MM_PER_INCH = 25.4
_YEAR_DAYS = 365.25
# measurements closer than this tell more of the callipers than of the tree
_PACE_DAYS = 300
NO_GROWTH = "No measurement of trunk or height is in the record yet. Say one, as in: trunk is 63 mm."


@dataclass(frozen=True, slots=True)
class Point:
    """One measurement. mm: over 0."""

    day: dt.date
    mm: float


@dataclass(frozen=True, slots=True)
class Series:
    """One measure over time, oldest first, at least one point. key: "diameter_mm"; name: as a heading."""

    key: str
    name: str
    points: tuple[Point, ...]

    @property
    def has_line(self) -> bool:
        """Whether there are two days to draw a line between."""
        return self.points[0].day != self.points[-1].day

    @property
    def most(self) -> float:
        return max(point.mm for point in self.points)


def series_of(entries: Iterable[Entry]) -> tuple[Series, ...]:
    """Every measure of the whole tree that the entries hold."""
    found: dict[str, list[Point]] = {key: [] for key in GROWS}
    for entry in entries:
        for key, value in entry.measures.items():
            if key in found and isinstance(value, int | float) and math.isfinite(value) and value > 0:
                found[key].append(Point(entry.day, float(value)))
    return tuple(
        Series(key, GROWS[key], tuple(sorted(points, key=lambda point: point.day)))
        for key, points in found.items()
        if points
    )


def growth_words(series: Series, units: str = "metric") -> str:
    """What the points say: from where to where in how long, and how far that can be trusted."""
    first, last = series.points[0], series.points[-1]
    told = f"{millimetres(last.mm, units)} on {day_words(last.day)}"
    if not series.has_line:
        count = "one measurement" if len(series.points) == 1 else f"{len(series.points)} measurements of one day"
        return f"{series.name}: {count}, {told}. Too few for a chart: it takes two days."
    change = last.mm - first.mm
    size = millimetres(abs(change), units)
    moved = "the same" if round(change, 2) == 0 else f"{size} {'more' if change > 0 else 'less'}"
    words = f"{series.name}: {millimetres(first.mm, units)} on {day_words(first.day)}, {told}"
    words += f": {moved} in {_span(last.day - first.day)}."
    return f"{words} {_pace_words(series, units)}".strip()


def _span(span: dt.timedelta) -> str:
    months = round(span.days / _YEAR_DAYS * 12)
    if months < 2:
        return f"{span.days} day{'s' if span.days != 1 else ''}"
    return f"{months} months" if months < 36 else f"{span.days / _YEAR_DAYS:.3g} years"


def _pace_words(series: Series, units: str) -> str:
    """Growth a year as a spread, from one measurement to the next; too few say so."""
    paces = _paces(series.points)
    if len(paces) < 2:
        return "Too few measurements a year or more apart to tell a pace."
    if min(paces) < 0:
        return "Some sizes are smaller than those before, so no pace is told."
    low, high = (f"{shown(pace, units):.2g}" for pace in (min(paces), max(paces)))
    span = low if low == high else f"from {low} to {high}"
    return f"A year brought {span} {unit_words(units)}, over {len(paces)} spans."


def _paces(points: Sequence[Point]) -> list[float]:
    """Millimetres a year from one measurement to the next that lies about a year on."""
    out, last = [], points[0]
    for point in points[1:]:
        days = (point.day - last.day).days
        if days >= _PACE_DAYS:
            out.append((point.mm - last.mm) / days * _YEAR_DAYS)
            last = point
    return out


def shown(mm: float, units: str) -> float:
    """The number as it is shown: millimetres, or inches."""
    return mm / _MM_PER_INCH if units == "imperial" else mm


def unit_words(units: str) -> str:
    return "in" if units == "imperial" else "mm"


def nice_step(most: float, steps: int) -> float:
    """The smallest round step (1, 2 or 5 of a power of ten) of which at most so many reach `most`.

    >>> nice_step(64, 5), nice_step(0.7, 5)
    (20.0, 0.2)
    """
    rough = most / max(1, steps)
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * size for size in (1, 2, 5, 10) if power * size * steps >= most * (1 - 1e-9))


def thinned(points: Sequence[Point], most: int) -> tuple[Point, ...]:
    """All points, or where they are more than `most` the last of each year; of those the latest."""
    if len(points) <= most:
        return tuple(points)
    return tuple({point.day.year: point for point in points}.values())[-most:]
