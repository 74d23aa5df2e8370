"""The sun over a place: its height over the year, how long it shines, what it sends outside the air."""

from __future__ import annotations

import datetime as dt
import math

from .bounds import day, number, within
from .figure import FigureError

HORIZON_DEG = 0.8333  # upper limb and refraction, as almanacs print sunrise
CIVIL_DEG = 6.0
_SOLAR_CONSTANT = 0.0820  # MJ m-2 min-1, FAO-56
_NOON_2000 = dt.date(2000, 1, 1).toordinal()


def fao_declination_rad(day_of_year: int) -> float:
    """Sun's declination in radians on a day of the year (1 to 366), to about 1.5 degrees at worst.

    Source: Allen, Pereira, Raes & Smith 1998, FAO-56, eq. 24.

    >>> round(fao_declination_rad(246), 3)
    0.12
    """
    return 0.409 * math.sin(2 * math.pi * _day(day_of_year) / 365 - 1.39)


def cbm_declination_rad(day_of_year: int) -> float:
    """Sun's declination in radians on a day of the year (1 to 366).

    Source: Forsythe, Rykiel, Stahl, Wu & Schoolfield 1995, Ecological Modelling 80:87-95.

    >>> round(math.degrees(cbm_declination_rad(172)), 1)
    23.4
    """
    turn = 0.2163108 + 2 * math.atan(0.9671396 * math.tan(0.00860 * (_day(day_of_year) - 186)))
    return math.asin(0.39795 * math.cos(turn))


def declination_rad(on: dt.date, longitude_deg: float = 0.0) -> float:
    """Sun's declination in radians at local noon of a date, to 0.01 degree from 1950 to 2050.

    Source: Meeus, Astronomical Algorithms, in the form that the NOAA solar calculator uses.

    >>> round(math.degrees(declination_rad(dt.date(2025, 6, 21))), 2)
    23.44
    """
    days = day("a day", on).toordinal() - _NOON_2000 - within("longitude_deg", longitude_deg) / 360
    century = days / 36525
    mean_longitude = 280.46646 + 36000.76983 * century
    anomaly = math.radians(357.52911 + 35999.05029 * century)
    centre = (1.914602 - 0.004817 * century) * math.sin(anomaly)
    centre += 0.019993 * math.sin(2 * anomaly) + 0.000289 * math.sin(3 * anomaly)
    node = math.radians(125.04 - 1934.136 * century)
    apparent = math.radians(mean_longitude + centre - 0.00569 - 0.00478 * math.sin(node))
    tilt = math.radians(23.439291 - 0.0130042 * century + 0.00256 * math.cos(node))
    return math.asin(math.sin(tilt) * math.sin(apparent))


def sunset_angle_rad(latitude_deg: float, declination: float) -> float:
    """Hour angle in radians, 0 to pi, at which the sun's centre meets a flat horizon (FAO-56, eq. 25).

    >>> round(sunset_angle_rad(-20, 0.120), 3)
    1.527
    """
    return hours_above(latitude_deg, declination, 0.0) * math.pi / 24


def hours_above(latitude_deg: float, declination: float, below_deg: float) -> float:
    """Hours, 0 to 24, during which the sun stands less than `below_deg` under the horizon.

    below_deg: 0 for its centre, 0.8333 as almanacs print sunrise, 6 for civil twilight. Polar day gives 24, night 0.
    Source: Forsythe et al. 1995, Ecological Modelling 80:87-95.
    """
    latitude = math.radians(within("latitude_deg", latitude_deg))
    dip = math.sin(math.radians(number("a dip", below_deg))) + math.sin(latitude) * math.sin(declination)
    spread = max(1e-12, math.cos(latitude) * math.cos(declination))
    return 24 - 24 / math.pi * math.acos(max(-1.0, min(1.0, dip / spread)))


def day_length(latitude_deg: float, day_of_year: int) -> float:
    """Hours between geometric sunrise and sunset, 0 to 24.

    latitude_deg: degrees, south negative, -90 to 90. day_of_year: 1 to 366. Raises FigureError beyond those ranges.
    Source: Allen, Pereira, Raes & Smith 1998, FAO-56, eq. 34. Almanacs, which count refraction and the upper limb,
    print 6 to 20 minutes more: see `sun_hours`.

    >>> round(day_length(50.0, 172), 2)
    16.15
    """
    return hours_above(latitude_deg, fao_declination_rad(day_of_year), 0.0)


def cbm_day_length(latitude_deg: float, day_of_year: int, below_deg: float = HORIZON_DEG) -> float:
    """Hours from sunrise to sunset by day of the year, within 0.1 h of almanacs up to 50 degrees, 0.14 at 60.

    Source: Forsythe et al. 1995, Ecological Modelling 80:87-95.

    >>> round(cbm_day_length(50.0, 172), 3)
    16.372
    """
    return hours_above(latitude_deg, cbm_declination_rad(day_of_year), below_deg)


def sun_hours(latitude_deg: float, on: dt.date, longitude_deg: float = 0.0, below_deg: float = HORIZON_DEG) -> float:
    """Hours from sunrise to sunset on a date, within 0.03 h of almanacs below 60 degrees of latitude.

    Source: Meeus, Astronomical Algorithms, for the declination; the relation of Forsythe et al. 1995 for the hours.

    >>> round(sun_hours(50.0, dt.date(2025, 6, 21)), 2)
    16.37
    """
    return hours_above(latitude_deg, declination_rad(on, longitude_deg), below_deg)


def sunshine_outside_mj(latitude_deg: float, day_of_year: int) -> float:
    """Radiation outside the air, MJ a m2 a day. latitude_deg -90 to 90, day_of_year 1 to 366.

    Source: Allen et al. 1998, FAO-56, eq. 21.

    >>> round(sunshine_outside_mj(-20, 246), 1)
    32.2
    """
    latitude = math.radians(within("latitude_deg", latitude_deg))
    declination = fao_declination_rad(day_of_year)
    nearness = 1 + 0.033 * math.cos(2 * math.pi * day_of_year / 365)
    angle = sunset_angle_rad(latitude_deg, declination)
    path = angle * math.sin(latitude) * math.sin(declination)
    path += math.cos(latitude) * math.cos(declination) * math.sin(angle)
    return 24 * 60 / math.pi * _SOLAR_CONSTANT * nearness * path


def _day(day_of_year: int) -> float:
    when = within("day_of_year", day_of_year)
    if when != int(when):
        raise FigureError(f"a day of the year of {when:g} cannot be; a whole number from 1 to 366 would do")
    return when
