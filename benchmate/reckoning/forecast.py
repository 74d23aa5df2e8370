"""How thick or tall a tree will be, from what was measured on it; and when the readings are too few to say."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence

from .bounds import day, number, positive, within
from .curves import Fit, fit, fit_logistic, forecast, line, logistic, logistic_peak_rate
from .figure import Beside, Figure, FigureError, plain
from .goals import forecast_at_rate, size_known, years_to_goal

Reading = tuple[dt.date, float]
_SHORTEST_DAYS = 180  # half a year: less shows a flush, not a trend
_FOR_A_CURVE = 6
_LIMITS = "The same treatment goes on: a bigger pot, a hard cut, root work or a let-grow branch break the curve."
_SOURCE = "least squares on this tree's own readings"


def yearly_gain_mm(earlier: Reading, later: Reading) -> float:
    """Gain in mm a year between two readings (day, mm). Raises FigureError where they are of one day.

    >>> round(yearly_gain_mm((dt.date(2024, 1, 1), 40), (dt.date(2026, 1, 1), 46)), 2)
    3.0
    """
    days = (later[0] - earlier[0]).days
    if days <= 0:
        raise FigureError("two readings of one day show no growth; readings of two days would do")
    return (later[1] - earlier[1]) / days * 365.25


def growth_forecast(
    readings: Sequence[Reading] = (),
    on: dt.date | None = None,
    days: float = 365,
    what: str = "trunk",
    now_mm: float | None = None,
    yearly_mm: float | None = None,
    goal_mm: float | None = None,
    wanted: str = "size",
    base_mm: float | None = None,
    height_mm: float | None = None,
) -> Figure:
    """Size in mm so many days after `on`, from readings (day, mm) of one measure of one tree, in any order.

    A logistic curve where six readings or more show one, else a straight line; None where they are fewer than two or
    span less than half a year. low, high: about 95 % of such forecasts. days: 1 to 36525. With yearly_mm (growth told,
    mm a year), or with a goal_mm, from now_mm or the last reading: the size at that growth, or the years to the goal.
    wanted: "rate" for the mean gain in mm a year, "limit" for where a levelling curve ends, "now" for what was measured
    last, else what the tree is known to be (base_mm, height_mm). Raises FigureError.
    """
    if on is None:
        raise FigureError("a forecast from no day cannot be; the day that is today would do")
    today, ahead = day("a day", on), within("days", days)
    known = _clean(readings)
    if wanted == "now":
        return size_known(known, height_mm if what == "height" else base_mm, what)
    if now_mm is None and known:
        now_mm = known[-1][1]
    if yearly_mm is None and goal_mm is not None and len(known) > 1:
        yearly_mm = yearly_gain_mm(known[0], known[-1])
    if now_mm is not None and yearly_mm is not None:
        if goal_mm is not None:
            return years_to_goal(now_mm, goal_mm, yearly_mm, today, what)
        return forecast_at_rate(now_mm, yearly_mm, today, ahead, what)
    when = today + dt.timedelta(days=round(ahead))
    span = (known[-1][0] - known[0][0]).days if known else 0
    if len(known) < 2 or span < _SHORTEST_DAYS:
        return _too_few(known, span, what)
    times = [(reading[0] - known[0][0]).days / 365.25 for reading in known]
    sizes = [reading[1] for reading in known]
    target = (when - known[0][0]).days / 365.25
    gain = yearly_gain_mm(known[0], known[-1])
    beside = [Beside("readings", float(len(known)), ""), Beside("mean gain", gain, "mm a year")]
    curved = _curved(times, sizes) if len(known) >= _FOR_A_CURVE else None
    if wanted == "rate":
        return _rate(known, gain, what)
    notes = [f"From {len(known)} readings over {plain(span / 365.25)} years"]
    if curved is not None:
        value, error = forecast(logistic, curved, target)
        wide = student_t95(curved.freedom) * error
        ceiling, middle, scale = curved.values
        half = known[0][0] + dt.timedelta(days=round(middle * 365.25))
        beside += [
            Beside("levels off near", ceiling, "mm"),
            Beside("fastest growth", logistic_peak_rate(ceiling, scale), "mm a year"),
            Beside("half of it reached on", half.isoformat(), "date"),
        ]
        if wanted == "limit":
            return _limit(curved, what, beside)
        if curved.errors[0] > 0.3 * ceiling:
            notes.append("Where it levels off is hardly known yet")
        how = (
            f"a logistic curve through {len(known)} readings, levelling off near {plain(ceiling)} mm, stands at "
            f"{plain(value)} mm on {when.isoformat()}"
        )
    else:
        value, wide = _straight(known, times, sizes, target)
        how = (
            f"{plain(sizes[-1])} mm on {known[-1][0].isoformat()}, gaining {plain(gain)} mm a year, comes to "
            f"{plain(value)} mm on {when.isoformat()}"
        )
        notes.append("A straight line, which says nothing of slowing down")
    if (when - known[-1][0]).days > 2 * span:
        notes.append("That looks ahead more than twice as far as the readings reach back; take it lightly")
    low = max(0.0, value - wide)
    return Figure(
        "growth-forecast",
        value,
        "mm",
        low,
        value + wide,
        f"{what}: {how}",
        _SOURCE,
        "practice",
        _LIMITS,
        tuple(notes),
        tuple(beside),
    )


def _rate(known: Sequence[Reading], gain: float, what: str) -> Figure:
    """The mean gain in mm a year."""
    return Figure(
        "growth-forecast",
        gain,
        "mm a year",
        0.5 * gain,
        1.5 * gain,
        f"{what}: from {plain(known[0][1])} mm on {known[0][0].isoformat()} to {plain(known[-1][1])} mm on "
        f"{known[-1][0].isoformat()} is {plain(gain)} mm a year",
        _SOURCE,
        "practice",
        _LIMITS,
    )


def _limit(curved: Fit, what: str, beside: Sequence[Beside]) -> Figure:
    """Where a levelling curve ends, in mm."""
    ceiling, wide = curved.values[0], student_t95(curved.freedom) * curved.errors[0]
    return Figure(
        "growth-forecast",
        ceiling,
        "mm",
        max(0.0, ceiling - wide),
        ceiling + wide,
        f"{what}: a logistic curve through the readings levels off near {plain(ceiling)} mm",
        _SOURCE,
        "practice",
        _LIMITS,
        (),
        tuple(beside),
    )


def _clean(readings: Sequence[Reading]) -> list[Reading]:
    """Readings by day; those of one day become their mean."""
    by_day: dict[dt.date, list[float]] = {}
    for when, size in readings:
        by_day.setdefault(day("a reading's day", when), []).append(positive("a reading", number("a reading", size)))
    return [(when, sum(sizes) / len(sizes)) for when, sizes in sorted(by_day.items())]


def _too_few(known: Sequence[Reading], span: int, what: str) -> Figure:
    have = f"{len(known)} reading" + ("" if len(known) == 1 else "s") + (f" over {span} days" if len(known) > 1 else "")
    notes = ["Measure at the same height once a year, while it rests"]
    if known:
        notes.insert(0, f"Last known: {plain(known[-1][1])} mm on {known[-1][0].isoformat()}")
    return Figure(
        "growth-forecast",
        None,
        "mm",
        None,
        None,
        f"{what}: {have} is too few for a forecast; two, half a year apart, would do",
        _SOURCE,
        "practice",
        _LIMITS,
        tuple(notes),
    )


def _curved(times: Sequence[float], sizes: Sequence[float]) -> Fit | None:
    """A logistic fit, if it is sound and better than a line."""
    found = fit_logistic(times, sizes)
    straight = fit(line, times, sizes, (sizes[0], 0.0))
    if found is None or straight is None or found.residual >= straight.residual:
        return None
    ceiling = found.values[0]
    return found if 0.9 * max(sizes) < ceiling < 20 * max(sizes) else None


def _straight(
    known: Sequence[Reading], times: Sequence[float], sizes: Sequence[float], target: float
) -> tuple[float, float]:
    """Value and half-width of a straight forecast from the last reading."""
    if len(known) > 2:
        found = fit(line, times, sizes, (sizes[0], 0.0))
        if found is not None:
            value, error = forecast(line, found, target)
            return max(0.0, value), student_t95(found.freedom) * error
    gain = yearly_gain_mm(known[0], known[-1])
    ahead = target - times[-1]
    # Two readings show no spread: the yearly gain is taken to vary by half.
    return max(0.0, sizes[-1] + gain * ahead), abs(0.5 * gain * ahead)


def student_t95(freedom: int) -> float:
    """Student's t for 95 %, two-sided, by degrees of freedom from 1; within 4 % (Cornish-Fisher terms on 1.96).

    >>> round(student_t95(10), 2), round(student_t95(30), 2)
    (2.23, 2.04)
    """
    if freedom <= 2:
        return {1: 12.7, 2: 4.30}[max(1, freedom)]
    z = 1.959964
    inner = (z**3 + z) / (4 * freedom) + (5 * z**5 + 16 * z**3 + 3 * z) / (96 * freedom**2)
    return math.fsum((z, inner))
