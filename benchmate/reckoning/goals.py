"""Size and years at a growth that is told: how big in so many years, in how many years that big; and the size now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from .bounds import day, positive, within
from .figure import Beside, Figure, FigureError, plain

_SOURCE = "growth as said"
_LIMITS = "The same growth goes on: a bigger pot, a hard cut, root work or age changes it."
DAYS_A_YEAR = 365.25


def size_at_rate(now_mm: float, yearly_mm: float, years: float, what: str = "trunk") -> float:
    """Size in mm after some years of even growth.

    >>> size_at_rate(40, 3, 5)
    55.0
    """
    return positive("a size", now_mm) + within(_bound(what), yearly_mm) * years


def _bound(what: str) -> str:
    """Name of the bound of a year's growth: a tree gains in height what no trunk gains in thickness."""
    return "taller_mm" if what == "height" else "yearly_mm"


def years_to_size(now_mm: float, goal_mm: float, yearly_mm: float, what: str = "trunk") -> float:
    """Years of even growth from one size to another, in mm. Raises FigureError where the goal is not the larger.

    >>> round(years_to_size(42, 60, 2.5), 6)
    7.2
    """
    now, goal = positive("a size", now_mm), positive("a goal", goal_mm)
    if goal <= now:
        raise FigureError(
            f"a goal of {plain(goal)} mm is not above the {plain(now)} mm there are; a larger one would do"
        )
    return (goal - now) / within(_bound(what), yearly_mm)


def forecast_at_rate(now_mm: float, yearly_mm: float, on: dt.date, days: float, what: str = "trunk") -> Figure:
    """Size in mm so many days after `on` at a growth in mm a year that was told. low, high: the growth half as much and
    half as much again. Raises FigureError."""
    years = within("days", days) / DAYS_A_YEAR if days % 365 else days / 365
    value = size_at_rate(now_mm, yearly_mm, years, what)
    swing = 0.5 * yearly_mm * years
    until = (day("a day", on) + dt.timedelta(days=round(days))).isoformat()
    return Figure(
        "growth-forecast",
        value,
        "mm",
        value - swing,
        value + swing,
        f"{what}: {plain(now_mm)} + {plain(years)} years x {plain(yearly_mm)} mm a year = {plain(value)} mm, by "
        f"{until}",
        _SOURCE,
        "practice",
        _LIMITS,
        ("A straight line, which says nothing of slowing down",),
        (Beside("gain", value - now_mm, "mm"),),
    )


def years_to_goal(now_mm: float, goal_mm: float, yearly_mm: float, on: dt.date, what: str = "trunk") -> Figure:
    """Years until a size in mm is reached at a growth in mm a year, with the day. low, high: at half as much again and
    at half the growth. Raises FigureError."""
    value = years_to_size(now_mm, goal_mm, yearly_mm, what)
    reached = (day("a day", on) + dt.timedelta(days=min(36525.0, value * DAYS_A_YEAR))).isoformat()
    return Figure(
        "growth-forecast",
        value,
        "years",
        value / 1.5,
        value * 2,
        f"{what}: ({plain(goal_mm)} - {plain(now_mm)}) mm / {plain(yearly_mm)} mm a year = {plain(value)} years",
        _SOURCE,
        "practice",
        _LIMITS,
        ("A straight line, which says nothing of slowing down",),
        (Beside("reached about", reached, "date"),),
    )


def size_known(readings: Sequence[tuple[dt.date, float]], recorded_mm: float | None, what: str = "trunk") -> Figure:
    """What was measured last (day, mm), else what the tree is recorded to be; its value is None where nothing was."""
    value, how = recorded_mm, f"{what}: not measured yet"
    if readings:
        value, how = readings[-1][1], f"{what}: {plain(readings[-1][1])} mm, measured on {readings[-1][0].isoformat()}"
    elif recorded_mm is not None:
        how = f"{what}: {plain(recorded_mm)} mm, as its sheet says"
    return Figure(
        "growth-forecast",
        value,
        "mm",
        value,
        value,
        how,
        "this tree's own record",
        "practice",
        "As it was on that day; measure again at the same height once a year, while it rests.",
    )
