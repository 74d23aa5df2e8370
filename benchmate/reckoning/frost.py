"""Frost: how many days are left before it, and how likely it is by a day, from the mean dates and their spread."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

from .bounds import day, month_day, within
from .figure import Band, Beside, Figure, FigureError, percent, plain

MonthDay = tuple[int, int]


def chance_before(days_from_mean: float, spread_days: float) -> float:
    """Chance, 0 to 1, that the first autumn frost falls before a day so many days after the mean date.

    spread_days: standard deviation of the date. Frost dates of many places follow the normal curve this assumes.

    >>> round(chance_before(-12, 12), 3)
    0.159
    """
    return 0.5 * math.erfc(-days_from_mean / (within("spread_days", spread_days) * math.sqrt(2)))


def chance_after(days_from_mean: float, spread_days: float) -> float:
    """Chance, 0 to 1, that a spring frost still follows a day so many days after the mean date of the last.

    >>> round(chance_after(14, 10), 4)
    0.0808
    """
    return chance_before(-days_from_mean, spread_days)


def days_at_risk(risk: float, spread_days: float) -> float:
    """Days from the mean date to the day before which the first frost comes with that chance (0 to 1, open ends).

    Negative for risks under a half. For the last spring frost take the other sign.

    >>> round(days_at_risk(0.1, 12), 2)
    -15.38
    """
    return normal_quantile(risk) * within("spread_days", spread_days)


def spread_from_dates(median_day: float, ten_percent_day: float) -> float:
    """Standard deviation in days, from the 50 and 10 % dates of a frost table (days of the year).

    >>> round(spread_from_dates(118, 131), 3)
    10.144
    """
    spread = abs(ten_percent_day - median_day) / 1.2815516
    if not spread:
        raise FigureError("the 10 and 50 % frost dates cannot be the same day; two dates would do")
    return spread


def normal_quantile(chance: float) -> float:
    """Standard deviations from the mean below which a normal value falls with that chance (above 0, below 1).

    >>> round(normal_quantile(0.9), 4)
    1.2816
    """
    if not 0 < chance < 1:
        raise FigureError(f"a chance of {chance:g} cannot be reckoned with; above 0 and below 1 would do")
    low, high = -9.0, 9.0
    for _ in range(80):
        middle = (low + high) / 2
        if 0.5 * math.erfc(-middle / math.sqrt(2)) < chance:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def days_to_frost(on: dt.date, first_frost: MonthDay, last_frost: MonthDay | None = None) -> int:
    """Days from a day to the mean first autumn frost that bounds its growing season; negative in the first half of
    the frosty part of the year, when that frost has been. Both hemispheres. Raises FigureError.

    >>> days_to_frost(dt.date(2026, 6, 14), (10, 18), (4, 28)), days_to_frost(dt.date(2026, 11, 10), (10, 18), (4, 28))
    (126, -23)
    """
    today = day("a day", on)
    ahead = _days_until(today, first_frost, "a first frost")
    since = _days_since(today, first_frost, "a first frost")
    frosty = 183
    if last_frost is not None:
        end, start = month_day("a last frost", last_frost, 2025), month_day("a first frost", first_frost, 2025)
        frosty = (end - start).days % 365
    return -since if 0 < since <= frosty / 2 else ahead


def frost_margin(
    on: dt.date,
    first_frost: MonthDay | None,
    spread_days: Band,
    last_frost: MonthDay | None = None,
    risk: float = 0.1,
    needed_days: float | None = None,
    which: str = "first",
    wanted: str = "days",
) -> Figure:
    """Days left before the mean first autumn frost, negative where it is past, None where the place is frost-free.

    first_frost, last_frost: (month, day) of the mean dates. spread_days: standard deviation of the dates. low, high:
    days to the dates with `risk` and 1 - `risk` of frost before them. needed_days: what some work needs, to compare.
    which: "last" for the days to or from the mean last spring frost. wanted: "chance" for the chance of a frost on the
    wrong side of the day, "slack" for the days left once needed_days are over, "date" for the mean date first, "risk"
    for the day with `risk` of frost beyond it, "free" for the days between the two frosts.
    """
    today = day("a day", on)
    if first_frost is not None and wanted == "date":
        from .frost_asked import frost_day

        margin = frost_margin(on, first_frost, spread_days, last_frost, risk, needed_days, which)
        return replace(margin, opens=frost_day(today, which, first_frost, last_frost))
    if first_frost is not None and last_frost is not None and wanted in ("risk", "free"):
        from .frost_asked import frost_free_days, frost_risk_day

        if wanted == "free":
            return frost_free_days(first_frost, last_frost, spread_days)
        return frost_risk_day(today, which, risk, first_frost, last_frost, spread_days)
    if first_frost is not None and last_frost is not None and (which == "last" or wanted == "chance"):
        from .frost_asked import frost_chance, last_frost_margin

        if wanted == "chance":
            return frost_chance(today, spread_days, which, first_frost, last_frost)
        return last_frost_margin(today, last_frost, spread_days)
    if first_frost is None:
        return Figure(
            "frost-margin",
            None,
            "days",
            None,
            None,
            "this place has no frost",
            "the place's frost dates",
            "practice",
            "Only as true as the place's dates.",
            ("Nothing here waits for frost",),
        )
    value = days_to_frost(today, first_frost, last_frost)
    mean = today + dt.timedelta(days=value)
    early = days_at_risk(risk, spread_days.value)
    low, high = value + early, value - early
    notes = []
    if not spread_days.said:
        notes.append(
            f"The spread of {plain(spread_days.value)} days ({plain(spread_days.low)} to "
            f"{plain(spread_days.high)}) is assumed, not measured here"
        )
    beside = [
        Beside("mean first frost", mean.isoformat(), "date"),
        Beside(f"date with {percent(risk)} of frost before it", _moved(mean, early), "date"),
        Beside("chance that frost has come by today", chance_before(-value, spread_days.value), ""),
    ]
    if last_frost is not None:
        to_last = _days_until(today, last_frost, "a last frost")
        if to_last < value or value < 0:
            last = today + dt.timedelta(days=to_last)
            beside.append(Beside("mean last frost", last.isoformat(), "date"))
            chance = chance_after(-to_last, spread_days.value)
            beside.append(Beside("chance of frost still to come in spring", chance, ""))
            if value < 0:
                notes.insert(0, f"Any clear night may freeze now, until the mean last frost, {last.isoformat()}")
            else:
                notes.insert(0, f"Spring frost is not over: the mean last one is {last.isoformat()}")
    if needed_days is not None:
        need = within("days", needed_days)
        chance = chance_before(need - value, spread_days.value)
        beside.append(Beside("chance of frost within the days needed", chance, ""))
        enough = "enough" if low >= need else "tight" if value >= need else "too few"
        notes.insert(0, f"{plain(need)} days are needed: {enough}; {percent(chance)} chance that frost comes first")
    notes.append("A clear, still night frosts a pot some days before the station's date")
    told = f"{value} days away" if value >= 0 else f"{-value} days past"
    opens = ""
    if value < 0 and wanted == "days":
        from .frost_asked import frost_day

        opens = frost_day(today, "first", first_frost, last_frost)
    if wanted == "slack" and needed_days is not None:
        value, low, high = value - round(needed_days), low - needed_days, high - needed_days
        told += f"; less {plain(needed_days)} days needed, {value} days are left"
    return Figure(
        "frost-margin",
        float(value),
        "days",
        low,
        high,
        f"from {today.isoformat()} the mean first frost, {mean.isoformat()}, is {told}",
        "the place's mean frost dates; range by a normal spread of dates: " + spread_days.source,
        "practice",
        "Places with frost nearly every year; a cold hollow or a warm wall shifts it by weeks.",
        tuple(notes),
        tuple(beside),
        opens,
    )


def _days_until(today: dt.date, when: MonthDay, called: str) -> int:
    here = month_day(called, when, today.year)
    there = here if here >= today else month_day(called, when, today.year + 1)
    return (there - today).days


def _days_since(today: dt.date, when: MonthDay, called: str) -> int:
    here = month_day(called, when, today.year)
    there = here if here <= today else month_day(called, when, today.year - 1)
    return (today - there).days


def _moved(when: dt.date, days: float) -> str:
    return (when + dt.timedelta(days=round(days))).isoformat()
