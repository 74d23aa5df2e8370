"""How long the day is, and whether it is drawing in."""

from __future__ import annotations

import datetime as dt

from .bounds import day, within
from .figure import Beside, Figure, FigureError, plain
from .sun import CIVIL_DEG, day_length, sun_hours


def day_of_hours(latitude_deg: float, on: dt.date, hours: float, longitude_deg: float = 0.0) -> dt.date:
    """The first day after `on`, within a year, on which the day's length passes so many hours. Raises FigureError."""
    before = sun_hours(latitude_deg, on, longitude_deg)
    for ahead in range(1, 367):
        there = on + dt.timedelta(days=ahead)
        after = sun_hours(latitude_deg, there, longitude_deg)
        if before != after and min(before, after) <= hours <= max(before, after):
            return there
        before = after
    raise FigureError(f"no day of {plain(hours)} hours comes there; the longest and the shortest are the ends")


def day_length_figure(
    latitude_deg: float,
    on: dt.date,
    longitude_deg: float = 0.0,
    hours: float | None = None,
    wanted: str = "hours",
) -> Figure:
    """Hours from sunrise to sunset at a place on a date.

    latitude_deg: degrees, south negative. hours, with wanted "date": the day from `on` that has so many. low: between
    the sun's centre on a flat horizon (what water sums use). Raises FigureError.
    """
    latitude, today = within("latitude_deg", latitude_deg), day("a day", on)
    if wanted == "date" and hours is not None:
        return _date_of(latitude, today, within("hours", hours), longitude_deg)
    value = sun_hours(latitude, today, longitude_deg)
    geometric = min(value, day_length(latitude, today.timetuple().tm_yday))
    light = sun_hours(latitude, today, longitude_deg, CIVIL_DEG)
    week = sun_hours(latitude, today + dt.timedelta(days=7), longitude_deg) - value
    side = "south" if latitude < 0 else "north"
    notes = []
    if value in (0.0, 24.0):
        notes.append("The sun does not set" if value else "The sun does not rise")
    else:
        turn = "longer" if week > 0 else "shorter"
        notes.append(f"A week later the day is {plain(abs(week) * 60)} minutes {turn}")
    hours, minutes = divmod(round(value * 60), 60)
    return Figure(
        "day-length",
        value,
        "h",
        geometric,
        value,
        f"at {plain(abs(latitude))} degrees {side} on {today.isoformat()} the sun is up {plain(value)} h "
        f"({hours} h {minutes:02d} min)",
        "Meeus, Astronomical Algorithms; Forsythe et al. 1995, Ecological Modelling 80:87-95",
        "published",
        "Flat horizon, within two minutes of almanacs below 60 degrees; hills and walls shorten it.",
        tuple(notes),
        (
            Beside("sun's centre on a flat horizon", geometric, "h"),
            Beside("with civil twilight", light, "h"),
            Beside("change in a week", week * 60, "min"),
        ),
    )


def _date_of(latitude: float, today: dt.date, hours: float, longitude_deg: float) -> Figure:
    """The day that has so many hours of sun; the range is a quarter of an hour of day either way."""
    there = day_of_hours(latitude, today, hours, longitude_deg)
    side = "south" if latitude < 0 else "north"
    return Figure(
        "day-length",
        there.isoformat(),
        "date",
        (there - dt.timedelta(days=3)).isoformat(),
        (there + dt.timedelta(days=3)).isoformat(),
        f"at {plain(abs(latitude))} degrees {side} the day passes {plain(hours)} h on {there.isoformat()}",
        "Meeus, Astronomical Algorithms; Forsythe et al. 1995, Ecological Modelling 80:87-95",
        "published",
        "Flat horizon, within two minutes of almanacs below 60 degrees; hills and walls shorten it.",
    )
