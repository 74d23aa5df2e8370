"""Days to the frosts of a place, by its mean dates."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place

from .year import Tables, before, frost_dates, on_or_after

_COMMON_YEAR = 2025


def frost_days(on: dt.date, place: Place, tables: Tables) -> int | None:
    """Days from `on` to the mean first autumn frost; None where there is no frost.

    Negative for the first weeks after it, while trees still ripen (`ripening` in frost.toml); then those to the first
    frost of the next autumn, so that a cut on a bare tree in winter is far from frost.
    """
    _, first = frost_dates(place, tables)
    if first is None:
        return None
    since = (on - before(first, on)).days
    if 0 < since <= tables["frost"]["ripening"]["days"]:
        return -since
    return (on_or_after(first, on) - on).days


def spring_frost_days(on: dt.date, place: Place, tables: Tables) -> int | None:
    """Days from `on` to the mean last spring frost; None where there is no frost.

    Positive from the first frost of autumn to the last of spring, negative (days since the last) while no frost is due.
    """
    last, first = frost_dates(place, tables)
    if last is None or first is None:
        return None
    coming = on_or_after(last, on)
    if on_or_after(first, on) < coming:
        return -(on - before(last, on)).days
    return (coming - on).days


def frost_season_days(place: Place, tables: Tables) -> int | None:
    """Days from the mean first frost of autumn to the mean last of spring: about 190 in the English Midlands, under 100
    where a frost is rare and light. None where there is no frost."""
    last, first = frost_dates(place, tables)
    if last is None or first is None:
        return None
    autumn = on_or_after(first, dt.date(_COMMON_YEAR, 1, 1))
    return (on_or_after(last, autumn) - autumn).days


def before_first_frost(days: int, on: dt.date, place: Place, tables: Tables) -> dt.date | None:
    """The day so many days before the first mean autumn frost that comes on or after `on`; None without frost."""
    _, first = frost_dates(place, tables)
    return None if first is None else on_or_after(first, on) - dt.timedelta(days=days)
