"""Water that a day draws from leaf and soil: the steps and two sums of FAO-56 (Allen, Pereira, Raes & Smith 1998)."""

from __future__ import annotations

import math

from .bounds import number, positive, within
from .figure import FigureError, plain

MJ_TO_MM = 0.408  # 1 MJ a m2 evaporates 0.408 mm, FAO-56 eq. 20
_STEFAN = 4.903e-9  # MJ K-4 m-2 day-1


def air_pressure_kpa(altitude_m: float) -> float:
    """Air pressure in kPa at an altitude of -400 to 5000 m (eq. 7).

    >>> round(air_pressure_kpa(1800), 1)
    81.8
    """
    altitude = number("an altitude", altitude_m)
    if not -400 <= altitude <= 5000:
        raise FigureError(f"an altitude of {plain(altitude)} m cannot be; -400 to 5000 m would do")
    return float(101.3 * ((293 - 0.0065 * altitude) / 293) ** 5.26)


def psychrometric_kpa_c(pressure_kpa: float) -> float:
    """Psychrometric constant in kPa/C at an air pressure in kPa (eq. 8).

    >>> round(psychrometric_kpa_c(81.8), 3)
    0.054
    """
    return 0.000665 * positive("an air pressure", pressure_kpa)


def vapour_pressure_kpa(temperature_c: float) -> float:
    """Pressure in kPa of air full of vapour at a temperature in C; at the dew point, that of the air (eq. 11, 14).

    >>> round(vapour_pressure_kpa(14.8), 2)
    1.68
    """
    warmth = within("temperature_c", temperature_c)
    return 0.6108 * math.exp(17.27 * warmth / (warmth + 237.3))


def mean_vapour_pressure_kpa(low_c: float, high_c: float) -> float:
    """Mean saturation pressure in kPa of a day (eq. 12).

    >>> round(mean_vapour_pressure_kpa(15, 24.5), 2)
    2.39
    """
    return (vapour_pressure_kpa(low_c) + vapour_pressure_kpa(high_c)) / 2


def vapour_pressure_of_humidity_kpa(low_c: float, high_c: float, rh_min: float, rh_max: float) -> float:
    """Vapour pressure in kPa of a day from its temperatures in C and relative humidities in % (eq. 17).

    >>> round(vapour_pressure_of_humidity_kpa(18, 25, 54, 82), 2)
    1.7
    """
    dry, wet = within("percent", rh_min), within("percent", rh_max)
    return (vapour_pressure_kpa(low_c) * wet + vapour_pressure_kpa(high_c) * dry) / 200


def vapour_pressure_of_bulbs_kpa(
    dry_c: float, wet_c: float, pressure_kpa: float, coefficient: float = 0.000662
) -> float:
    """Vapour pressure in kPa from a dry and a wet bulb in C; coefficient 0.000662 for a ventilated one (eq. 15).

    >>> round(vapour_pressure_of_bulbs_kpa(25.6, 19.5, 87.9), 2)
    1.91
    """
    drop = within("temperature_c", dry_c) - wet_c
    return vapour_pressure_kpa(wet_c) - coefficient * positive("an air pressure", pressure_kpa) * drop


def slope_kpa_c(temperature_c: float) -> float:
    """Slope in kPa/C of the saturation curve (eq. 13).

    >>> round(slope_kpa_c(30.2), 3)
    0.246
    """
    return 4098 * vapour_pressure_kpa(temperature_c) / (temperature_c + 237.3) ** 2


def wind_at_2m(wind_m_s: float, height_m: float) -> float:
    """Wind in m/s at 2 m from a reading at another height over short grass (eq. 47).

    >>> round(wind_at_2m(3.2, 10), 1)
    2.4
    """
    height = positive("a height of the wind gauge", height_m)
    if height < 0.5:
        raise FigureError(f"a wind gauge at {plain(height)} m cannot be; 0.5 m or higher would do")
    return number("a wind", wind_m_s) * 4.87 / math.log(67.8 * height - 5.42)


def sun_from_hours_mj(sunshine_h: float, day_length_h: float, outside_mj: float) -> float:
    """Sunshine at the ground, MJ a m2 a day, from hours of sun (eq. 35).

    >>> round(sun_from_hours_mj(7.1, 10.9, 25.1), 2)
    14.45
    """
    share = number("hours of sun", sunshine_h) / positive("a day length", day_length_h)
    return (0.25 + 0.5 * within("share", share)) * positive("radiation", outside_mj)


def sun_from_range_mj(low_c: float, high_c: float, outside_mj: float, nearness: float = 0.16) -> float:
    """Sunshine at the ground, MJ a m2 a day, from the day's range of temperature. nearness: 0.16 inland, 0.19 by the
    sea (eq. 50).

    >>> round(sun_from_range_mj(14.8, 26.6, 40.6), 1)
    22.3
    """
    return nearness * math.sqrt(_range(low_c, high_c)) * positive("radiation", outside_mj)


def clear_sky_mj(outside_mj: float, altitude_m: float) -> float:
    """Sunshine at the ground under a clear sky, MJ a m2 a day (eq. 37).

    >>> round(clear_sky_mj(25.1, 0), 1)
    18.8
    """
    return (0.75 + 2e-5 * number("an altitude", altitude_m)) * positive("radiation", outside_mj)


def net_long_wave_mj(low_c: float, high_c: float, vapour_kpa: float, sun_mj: float, clear_mj: float) -> float:
    """Net outgoing long-wave radiation, MJ a m2 a day (eq. 39, kelvin as C + 273.16 as printed there).

    >>> round(net_long_wave_mj(19.1, 25.1, 2.1, 14.5, 18.8), 1)
    3.5
    """
    heat = ((within("temperature_c", low_c) + 273.16) ** 4 + (within("temperature_c", high_c) + 273.16) ** 4) / 2
    clear = min(1.0, positive("radiation", sun_mj) / positive("radiation", clear_mj))
    return _STEFAN * heat * (0.34 - 0.14 * math.sqrt(positive("a vapour pressure", vapour_kpa))) * (1.35 * clear - 0.35)


def penman_monteith_mm(
    net_mj: float,
    soil_mj: float,
    mean_c: float,
    wind_2m: float,
    saturated_kpa: float,
    vapour_kpa: float,
    slope: float,
    psychrometric: float,
) -> float:
    """Reference evapotranspiration, mm a day, by the full sum (eq. 6).

    >>> round(penman_monteith_mm(14.33, 0.14, 30.2, 2, 4.42, 2.85, 0.246, 0.0674), 2)
    5.71
    """
    dry = saturated_kpa - vapour_kpa
    top = MJ_TO_MM * slope * (net_mj - soil_mj) + psychrometric * 900 / (mean_c + 273) * wind_2m * dry
    return top / (slope + psychrometric * (1 + 0.34 * wind_2m))


def hargreaves_mm(low_c: float, high_c: float, outside_mj: float) -> float:
    """Reference evapotranspiration, mm a day, from the day's temperatures in C alone (eq. 52).

    outside_mj: radiation outside the air, MJ a m2 a day. Made for means of five to ten days over short grass; about
    0.7 mm out in a humid place (Fisher & Pringle 2013). Raises FigureError.

    >>> round(hargreaves_mm(14.8, 26.6, 40.6), 2)
    5.04
    """
    spread = _range(low_c, high_c)
    warmth = (low_c + high_c) / 2 + 17.8
    return max(0.0, 0.0023 * warmth * math.sqrt(spread) * MJ_TO_MM * number("radiation", outside_mj))


def _range(low_c: float, high_c: float) -> float:
    low, high = within("temperature_c", low_c), within("temperature_c", high_c)
    if low > high:
        raise FigureError(
            f"a day's minimum of {plain(low)} above its maximum of {plain(high)} C cannot be; "
            "the lower one first would do"
        )
    return high - low
