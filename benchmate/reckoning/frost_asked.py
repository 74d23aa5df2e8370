"""Frost by the day that is asked: how far a day lies from the last spring frost, and the chance of one beyond it."""

from __future__ import annotations

import datetime as dt

from .bounds import day, month_day
from .figure import Band, Beside, Figure, percent, plain
from .frost import chance_after, chance_before, days_at_risk, days_to_frost

MonthDay = tuple[int, int]
_LIMITS = "Places with frost nearly every year; a cold hollow or a warm wall shifts it by weeks."


def days_from_last_frost(on: dt.date, last_frost: MonthDay) -> int:
    """Days from a day to the mean last spring frost nearest to it; negative once that is past.

    >>> days_from_last_frost(dt.date(2026, 4, 14), (4, 28))
    14
    """
    today = day("a day", on)
    near = [month_day("a last frost", last_frost, today.year + step) for step in (-1, 0, 1)]
    return min(((when - today).days for when in near), key=abs)


def last_frost_margin(on: dt.date, last_frost: MonthDay, spread_days: Band) -> Figure:
    """Days between a day and the mean last spring frost, and which of the two comes first."""
    today = day("a day", on)
    away = days_from_last_frost(today, last_frost)
    mean = today + dt.timedelta(days=away)
    chance = chance_after(-away, spread_days.value)
    side = "before" if away > 0 else "after" if away < 0 else "on"
    return Figure(
        "frost-margin",
        float(abs(away)),
        "days",
        float(abs(away)) - spread_days.value,
        float(abs(away)) + spread_days.value,
        f"{today.isoformat()} is {abs(away)} days {side} the mean last frost, {mean.isoformat()}",
        "the place's mean frost dates; range by a normal spread of dates: " + spread_days.source,
        "practice",
        _LIMITS,
        (f"{percent(chance)} chance that a frost still follows it",),
        (Beside("mean last frost", mean.isoformat(), "date"), Beside("chance of frost after it", chance, "")),
    )


def frost_day(on: dt.date, which: str, first_frost: MonthDay, last_frost: MonthDay | None) -> str:
    """The next mean frost date in words: the last of spring (which "last") or the first of autumn; once that has
    passed, and until the winter's middle, that frost may come any night."""
    since = -days_to_frost(day("a day", on), first_frost, last_frost)
    if which != "last" and since > 0:
        mean = on - dt.timedelta(days=since)
        return f"Frost is due any night now: the mean first one there was {mean.day} {mean:%B %Y}"
    name, when = ("last", last_frost) if which == "last" and last_frost is not None else ("first", first_frost)
    today = day("a day", on)
    mean = min(one for step in (0, 1) if (one := month_day("a frost", when, today.year + step)) >= today)
    return f"The mean {name} frost there is {mean.day} {mean:%B %Y}"


def frost_chance(on: dt.date, spread_days: Band, which: str, first_frost: MonthDay, last_frost: MonthDay) -> Figure:
    """Chance, 0 to 1, of a spring frost after a day (which "last"), or of an autumn frost before it (which "first").

    Normal spread of the dates: NOAA frost tables. spread_days: their standard deviation.
    """
    today = day("a day", on)
    if which == "last":
        past = -days_from_last_frost(today, last_frost)
        chances = [chance_after(past, spread) for spread in (spread_days.value, spread_days.low, spread_days.high)]
        told = f"a frost after {today.isoformat()}, {plain(past)} days past the mean last frost"
    else:
        past = -days_to_frost(today, first_frost, last_frost)
        chances = [chance_before(past, spread) for spread in (spread_days.value, spread_days.low, spread_days.high)]
        told = f"a frost before {today.isoformat()}, {plain(-past)} days ahead of the mean first frost"
    return Figure(
        "frost-margin",
        chances[0],
        "chance",
        min(chances),
        max(chances),
        f"{told}, with a spread of {plain(spread_days.value)} days: {percent(chances[0])}",
        "normal spread of frost dates: " + spread_days.source,
        "practice",
        _LIMITS,
        (),
        (Beside("days past the mean date", float(past), "days"),),
    )


def frost_free_days(first_frost: MonthDay, last_frost: MonthDay, spread_days: Band) -> Figure:
    """Days from the mean last frost of spring to the mean first one of autumn."""
    first, last = month_day("a first frost", first_frost, 2025), month_day("a last frost", last_frost, 2025)
    value = (first - last).days % 365
    swing = spread_days.value * 2**0.5  # both dates vary
    return Figure(
        "frost-margin",
        float(value),
        "days",
        value - swing,
        value + swing,
        f"{value} days from the mean last frost, {last.day} {last:%B}, to the mean first, {first.day} {first:%B}",
        "the place's mean frost dates; range by a normal spread of dates: " + spread_days.source,
        "practice",
        _LIMITS,
    )


def frost_risk_day(
    on: dt.date, which: str, risk: float, first_frost: MonthDay, last_frost: MonthDay, spread_days: Band
) -> Figure:
    """The next day from which no more than `risk` (0 to 1) of frost still follows in spring (which "last"), or up to
    which no more has come in autumn (which "first")."""
    today = day("a day", on)
    spring = which == "last"
    mean, share = (last_frost, 1 - risk) if spring else (first_frost, risk)
    shifts = [round(days_at_risk(share, spread)) for spread in (spread_days.value, spread_days.low, spread_days.high)]
    days = [month_day("a frost", mean, today.year + step) for step in (0, 1)]
    nearest = next((one for one in days if one + dt.timedelta(days=shifts[0]) >= today), days[-1])
    value, *ends = (nearest + dt.timedelta(days=shift) for shift in shifts)
    told = "of a frost after it" if spring else "of a frost before it"
    side = "after" if shifts[0] > 0 else "before"
    return Figure(
        "frost-margin",
        value.isoformat(),
        "date",
        min(ends).isoformat(),
        max(ends).isoformat(),
        f"{value.isoformat()} has {percent(risk)} {told}: {abs(shifts[0])} days {side} the mean "
        f"{'last' if spring else 'first'} frost, {nearest.isoformat()}",
        "normal spread of frost dates: " + spread_days.source,
        "practice",
        _LIMITS,
    )
