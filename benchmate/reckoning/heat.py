"""Degree-days: warmth above a base, from daily minima and maxima, by the three usual methods."""

from __future__ import annotations

import csv
import datetime as dt
import io
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .bounds import within
from .figure import Band, Beside, Figure, FigureError, plain


@dataclass(frozen=True, slots=True)
class DayTemperature:
    """Lowest and highest temperature of a day, in C. on: the day, or None where it was not told."""

    low_c: float
    high_c: float
    on: dt.date | None = None


def average_degree_days(low: float, high: float, base: float) -> float:
    """Degree-days of one day: mean of low and high above the base, never under 0. Any one unit of temperature.

    >>> average_degree_days(50, 70, 50)
    10.0
    """
    low, high = _pair(low, high)
    return max(0.0, (low + high) / 2 - base)


def capped_degree_days(low: float, high: float, base: float, upper: float = math.inf) -> float:
    """Degree-days of one day after both temperatures are drawn in to base and upper limit (the modified method).

    >>> capped_degree_days(40, 90, 50, 86)
    18.0
    """
    low, high = _pair(low, high)
    _limits(base, upper)
    low, high = (min(upper, max(base, end)) for end in (low, high))
    return (low + high) / 2 - base


def sine_degree_days(low: float, high: float, base: float, upper: float = math.inf) -> float:
    """Degree-days of one day under a sine wave from low to high, cut off level at the upper limit.

    Source: Baskerville & Emin 1969, Ecology 50:514-517 (from memory; a public unit test gives 0.47 for the example).

    >>> round(sine_degree_days(7, 14, 12, 33), 2)
    0.47
    """
    low, high = _pair(low, high)
    _limits(base, upper)
    over = 0.0 if math.isinf(upper) else _sine_above(low, high, upper)
    return _sine_above(low, high, base) - over


METHODS: dict[str, Callable[[float, float, float, float], float]] = {
    "single-sine": sine_degree_days,
    "average": lambda low, high, base, upper: average_degree_days(low, min(high, upper), base),
    "capped": capped_degree_days,
}


def degree_days(
    temperatures: Sequence[DayTemperature | tuple[float, float]],
    base_c: Band,
    upper_c: float | None = None,
    method: str = "single-sine",
    scale: str = "C",
) -> Figure:
    """Sum of degree-days over days of minima and maxima (C). low and high: the least and most of three methods.

    temperatures: days, or bare (minimum, maximum) pairs. base_c: temperature above which warmth counts. upper_c: where
    more warmth stops counting, or None. method: single-sine, average or capped. scale: C or F, of the degrees told.
    Raises FigureError, also where there are no days or a minimum lies above its maximum.
    """
    days = [day if isinstance(day, DayTemperature) else DayTemperature(*day) for day in temperatures]
    if not days:
        raise FigureError("degree-days of no days cannot be; a low and a high for each day would do")
    if method not in METHODS:
        raise FigureError(f"degree-days by {method!r} are not known; {', '.join(METHODS)} would do")
    base = within("temperature_c", base_c.value)
    upper = math.inf if upper_c is None else within("temperature_c", upper_c)
    sums = {name: sum(way(day.low_c, day.high_c, base, upper) for day in days) for name, way in METHODS.items()}
    value = sums[method]
    each = 1.8 if scale == "F" else 1.0
    other = Beside("in Celsius", value, "C days") if scale == "F" else Beside("in Fahrenheit", value * 1.8, "F days")
    dated = sorted(day.on for day in days if day.on is not None)
    notes = []
    if dated:
        gap = (dated[-1] - dated[0]).days + 1 - len(set(dated))
        if gap > 0:
            notes.append(
                f"{gap} days between {dated[0].isoformat()} and {dated[-1].isoformat()} have no temperatures "
                "and count as nothing"
            )
    span = f" from {dated[0].isoformat()} to {dated[-1].isoformat()}" if dated else ""
    above = base * 1.8 + 32 if scale == "F" else base
    cap = "" if upper_c is None else f" and below {plain(upper * 1.8 + 32 if scale == 'F' else upper)}"
    return Figure(
        "degree-days",
        value * each,
        f"{scale} days",
        min(sums.values()) * each,
        max(sums.values()) * each,
        f"{len(days)} {'day' if len(days) == 1 else 'days'}{span} above {plain(above)} {scale}{cap}, by the {method} "
        f"method, come to {plain(value * each)}",
        "Baskerville & Emin 1969, Ecology 50:514-517" if method == "single-sine" else "usual agricultural method",
        "memory" if method == "single-sine" else "published",
        "Sums compare only with sums of the same base, method and starting day; a pot's air is not the station's.",
        tuple(notes),
        (
            *(Beside(f"by the {name} method", total * each, f"{scale} days") for name, total in sums.items()),
            other,
        ),
    )


def read_daily_temperatures(text: str) -> tuple[DayTemperature, ...]:
    """Days from the text of a CSV file: a date, the day's minimum and its maximum in C, one day a line.

    A heading line may name the columns (date, min, max, in any order, also low and high, tmin and tmax); without one
    they stand in that order. Blank lines and lines that begin with # are passed over; commas, semicolons and tabs all
    part. Raises FigureError with the line's number for a line that cannot be read.

    >>> read_daily_temperatures("date,min,max\\n2026-05-01,4,15")[0].high_c
    15.0
    """
    order = (0, 1, 2)
    days: list[DayTemperature] = []
    for line, words in _rows(text):
        heading = _heading(words)
        if heading is not None:
            order = heading
            continue
        try:
            when, low, high = (words[place] for place in order)
            day = DayTemperature(float(low), float(high), dt.date.fromisoformat(when))
        except (ValueError, IndexError):
            raise FigureError(
                f"line {line}: {','.join(words)!r} is no day's temperatures; a date, a minimum and a "
                "maximum like 2026-05-01,4,15 would do"
            ) from None
        try:
            _pair(day.low_c, day.high_c)
        except FigureError as fault:
            raise FigureError(f"line {line}: {fault}") from None
        days.append(day)
    return tuple(days)


def _rows(text: str) -> list[tuple[int, list[str]]]:
    rows = []
    for line, raw in enumerate(text.lstrip("\ufeff").splitlines(), start=1):
        if raw.strip() and not raw.lstrip().startswith("#"):
            parted = raw.replace(";", ",").replace("\t", ",")
            rows.append((line, [word.strip() for word in next(csv.reader(io.StringIO(parted)))]))
    return rows


def _heading(words: Sequence[str]) -> tuple[int, int, int] | None:
    """Places of date, minimum and maximum, if the words are a heading."""
    names = [word.lower().replace("_c", "").replace(" (c)", "") for word in words]
    places = []
    for wanted in (("date", "day"), ("min", "tmin", "low", "minimum"), ("max", "tmax", "high", "maximum")):
        found = next((names.index(name) for name in wanted if name in names), None)
        if found is None:
            return None
        places.append(found)
    return places[0], places[1], places[2]


def _pair(low: float, high: float) -> tuple[float, float]:
    for end in (low, high):
        if isinstance(end, bool) or not isinstance(end, int | float) or not -90 <= end <= 150:
            raise FigureError(f"a temperature of {end} cannot be; -60 to 60 C would do")
    if low > high:
        raise FigureError(
            f"a day's minimum of {plain(low)} above its maximum of {plain(high)} cannot be; "
            "the lower one first would do"
        )
    return float(low), float(high)


def _limits(base: float, upper: float) -> None:
    if upper <= base:
        raise FigureError(
            f"an upper limit of {plain(upper)} under a base of {plain(base)} cannot be; a higher one would do"
        )


def _sine_above(low: float, high: float, limit: float) -> float:
    """Mean height of the day's sine wave above a limit."""
    mean, swing = (low + high) / 2, (high - low) / 2
    if low >= limit:
        return mean - limit
    if high <= limit:
        return 0.0
    crossing = math.asin((limit - mean) / swing)
    return ((mean - limit) * (math.pi / 2 - crossing) + swing * math.cos(crossing)) / math.pi
