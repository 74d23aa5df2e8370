"""What a measure can be on a tree in a pot. Beyond it the input is a slip of the tongue, refused, not reckoned."""

from __future__ import annotations

import datetime as dt
import math

from .figure import FigureError, plain

#: name: lowest, highest, unit, what it is called. Design limits, wide enough for any potted tree and its tools.
RANGES: dict[str, tuple[float, float, str, str]] = {
    "diameter_mm": (0.2, 500, "mm", "a diameter"),
    "branch_mm": (0.5, 150, "mm", "a branch diameter"),
    "wire_mm": (0.3, 10, "mm", "a wire diameter"),
    "wound_mm": (1, 300, "mm", "a wound"),
    "base_mm": (1, 1000, "mm", "a trunk base"),
    "length_mm": (5, 3000, "mm", "a length"),
    "height_mm": (10, 5000, "mm", "a height"),
    "pot_mm": (10, 2000, "mm", "a pot measure"),
    "spread_mm": (10, 5000, "mm", "a crown"),
    "gap_mm": (0, 20, "mm", "a gap under the wire"),
    "move_mm": (0.5, 1000, "mm", "a movement"),
    "radius_mm": (1, 10000, "mm", "a bend radius"),
    "angle_deg": (1, 180, "degrees", "an angle"),
    "coil_deg": (10, 80, "degrees", "a coil angle to the branch"),
    "guy_deg": (10, 170, "degrees", "a guy angle to the branch"),
    "latitude_deg": (-90, 90, "degrees", "a latitude"),
    "longitude_deg": (-180, 180, "degrees", "a longitude"),
    "hours": (0, 24, "hours", "a day's length"),
    "day_of_year": (1, 366, "", "a day of the year"),
    "temperature_c": (-60, 60, "C", "a temperature"),
    "share": (0, 1, "", "a share"),
    "percent": (0, 100, "%", "a strength"),
    "nutrient_percent": (0.05, 60, "%", "a nutrient on a label"),
    "ppm": (1, 5000, "ppm", "a feed strength"),
    "volume_l": (0.001, 10000, "litres", "a volume"),
    "injector_ratio": (1, 2000, "", "an injector ratio"),
    "days": (0, 36525, "days", "a span"),
    "spread_days": (1, 60, "days", "the spread of frost dates"),
    "force_n": (0.01, 5000, "N", "a pull"),
    "strands": (1, 4, "", "a count of strands"),
    "count": (0, 1_000_000, "", "a count of leaves"),
    "yearly_mm": (0.01, 60, "mm a year", "a year's growth"),
    "taller_mm": (0.01, 2000, "mm a year", "a year's growth in height"),
}


def within(name: str, value: float) -> float:
    """The value, if it can be that measure. Raises FigureError with the range that would do.

    >>> within("angle_deg", 40)
    40.0
    >>> within("angle_deg", 400)
    Traceback (most recent call last):
    benchmate.reckoning.figure.FigureError: an angle of 400 degrees cannot be; 1 to 180 degrees would do
    """
    low, high, unit, called = RANGES[name]
    measure = number(called, value)
    if not low <= measure <= high:
        told = " ".join(word for word in (plain(measure), unit) if word).replace(" %", " %")
        would = " ".join(word for word in (f"{plain(low)} to {plain(high)}", unit) if word)
        raise FigureError(f"{called} of {told} cannot be; {would} would do")
    return measure


def positive(called: str, value: float) -> float:
    """A finite number above zero, for sums that hold at any scale. Raises FigureError."""
    measure = number(called, value)
    if measure <= 0:
        raise FigureError(f"{called} of {plain(measure)} cannot be; a number above 0 would do")
    return measure


def number(called: str, value: float) -> float:
    """A finite number. Raises FigureError."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise FigureError(f"{called} of {value} is no number; a plain number would do")
    return float(value)


def day(called: str, value: dt.date) -> dt.date:
    """A day between the years 1900 and 2200. Raises FigureError."""
    if isinstance(value, dt.datetime):
        value = value.date()
    if not isinstance(value, dt.date) or not 1900 <= value.year <= 2200:
        raise FigureError(f"{called} of {value} is no day that can be reckoned with; a day like 2026-06-14 would do")
    return value


def month_day(called: str, value: tuple[int, int], year: int) -> dt.date:
    """A (month, day) as a day of that year; 29 February becomes the 28th where it must. Raises FigureError."""
    try:
        month, when = value
        if (month, when) == (2, 29):
            when = 28
        return dt.date(year, month, when)
    except (TypeError, ValueError):
        raise FigureError(f"{called} of {value} is no day of the year; month and day like 10-18 would do") from None
