"""Seasons: their names and days, and where the growing season that a day belongs to begins."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place

from .course import step_day
from .year import Tables, year_of


def season_name(on: dt.date, southern: bool, tables: Tables) -> str:
    """The season of a day, named by the year it begins in: 9 January 2027 in the north is "2026-winter"."""
    for year in (on.year, on.year - 1):
        for season in tables["frost"]["names"]["first_month"]:
            first, last = season_span(f"{year}-{season}", southern, tables)
            if first <= on <= last:
                return f"{year}-{season}"
    raise ValueError(f"no season holds {on.isoformat()}")


def season_span(name: str, southern: bool, tables: Tables) -> tuple[dt.date, dt.date]:
    """First and last day of a season such as "2026-spring", three whole months.

    Raises ValueError for a name that is no year and season.
    """
    year, _, season = name.partition("-")
    months = tables["frost"]["names"]["first_month"]
    if season not in months or not year.isdecimal():
        raise ValueError(f"'{name}' is not a year and a season, as in 2026-spring")
    month = months[season] if not southern else (months[season] + 5) % 12 + 1
    first = dt.date(int(year), month, 1)
    after = month + 3
    return first, dt.date(int(year) + (after > 12), (after - 1) % 12 + 1, 1) - dt.timedelta(days=1)


def season_start(on: dt.date, place: Place, tables: Tables) -> dt.date:
    """First day of the growing season that a day belongs to: the end of the last leaf fall.

    What is done on a bare tree counts for the season that follows. Where there is no cold season, half a year back.
    """
    table = tables["frost"]["season"]
    ends = [step_day(table["starts"], *cycle) for cycle in year_of(place, tables).cycles(on)]
    past = [day for day in ends if day <= on]
    return past[-1] if past else on - dt.timedelta(days=table["tropical_days"])


def next_growth(on: dt.date, place: Place, tables: Tables) -> dt.date:
    """When the next growing season's growth is to be expected, after `on`: buds of most deciduous trees begin to swell.
    Where there is no cold season, half a year ahead."""
    table = tables["frost"]["season"]
    starts = [step_day(table["growth"], *cycle) for cycle in year_of(place, tables).cycles(on)]
    coming = [day for day in starts if day > on]
    return coming[0] if coming else on + dt.timedelta(days=table["tropical_days"])
