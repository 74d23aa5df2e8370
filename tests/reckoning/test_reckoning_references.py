"""Against independent libraries and whole worked examples: astral over a year, the chain of FAO-56, a CSV of days."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from astral import Observer
from astral.sun import sunrise, sunset

from benchmate.reckoning import FigureError
from benchmate.reckoning import evaporation as water
from benchmate.reckoning.curves import fit
from benchmate.reckoning.forecast import growth_forecast
from benchmate.reckoning.heat import read_daily_temperatures
from benchmate.reckoning.sun import cbm_day_length, day_length, sun_hours, sunshine_outside_mj

YEAR = [dt.date(2026, 1, 1) + dt.timedelta(days=step) for step in range(0, 365, 7)]


def almanac_hours(latitude: float, on: dt.date) -> float:
    place = Observer(latitude, 0.0)
    return (sunset(place, on) - sunrise(place, on)).total_seconds() / 3600


@pytest.mark.parametrize(
    ("latitude", "worst", "worst_cbm"),
    [
        (0, 0.02, 0.02),
        (35, 0.02, 0.06),
        (-34, 0.02, 0.06),
        (45, 0.02, 0.08),
        (52, 0.02, 0.1),
        (60, 0.03, 0.14),
    ],
)
def test_day_length_against_astral_over_a_year(latitude: float, worst: float, worst_cbm: float) -> None:
    for on in YEAR:
        hours = almanac_hours(latitude, on)
        assert abs(sun_hours(latitude, on) - hours) <= worst, on
        assert abs(cbm_day_length(latitude, on.timetuple().tm_yday) - hours) <= worst_cbm, on


def test_geometric_day_is_shorter_than_the_almanacs() -> None:
    """Between 6 and 20 minutes at 35 to 50 degrees: another quantity, not an error."""
    for on in YEAR:
        short = almanac_hours(50, on) - day_length(50, on.timetuple().tm_yday)
        assert 0.1 <= short <= 0.36, on


def chain_of_penman(
    latitude: float,
    day: int,
    altitude: float,
    low: float,
    high: float,
    vapour: float,
    sun: float,
    wind: float,
    soil: float = 0.0,
    mean: float | None = None,
) -> float:
    """The whole way of FAO-56 from weather to reference evapotranspiration, mm a day."""
    mean = (low + high) / 2 if mean is None else mean
    outside = sunshine_outside_mj(latitude, day)
    clear = water.clear_sky_mj(outside, altitude)
    net = 0.77 * sun - water.net_long_wave_mj(low, high, vapour, sun, clear)
    return water.penman_monteith_mm(
        net,
        soil,
        mean,
        wind,
        water.mean_vapour_pressure_kpa(low, high),
        vapour,
        water.slope_kpa_c(mean),
        water.psychrometric_kpa_c(water.air_pressure_kpa(altitude)),
    )


def test_fao_56_example_18_uccle() -> None:
    """Uccle, 6 July: 12.3 to 21.5 C, 63 to 84 % humidity, 22.07 MJ, 2.78 m/s at 10 m. Printed: 3.9 mm/day."""
    vapour = water.vapour_pressure_of_humidity_kpa(12.3, 21.5, 63, 84)
    assert math.isclose(vapour, 1.409, abs_tol=0.001)
    drawn = chain_of_penman(50.8, 187, 100, 12.3, 21.5, vapour, 22.07, water.wind_at_2m(2.78, 10))
    assert math.isclose(drawn, 3.88, abs_tol=0.005)


def test_fao_56_example_17_bangkok() -> None:
    """Bangkok, April: 25.6 to 34.8 C, vapour 2.85 kPa, 8.5 h of sun, 2 m/s, soil heat 0.14. Printed: 5.72 mm/day."""
    outside = sunshine_outside_mj(13.733, 105)
    sun = water.sun_from_hours_mj(8.5, day_length(13.733, 105), outside)
    drawn = chain_of_penman(13.733, 105, 2, 25.6, 34.8, 2.85, sun, 2.0, soil=0.14)
    assert math.isclose(drawn, 5.72, abs_tol=0.02)


def test_temperatures_from_a_csv_in_any_order_of_columns() -> None:
    plain = read_daily_temperatures("2026-05-01,4,15\n\n# a remark\n2026-05-02,5.5,17\n")
    headed = read_daily_temperatures("\ufeffTmax;Date;Tmin\n15;2026-05-01;4\n17;2026-05-02;5.5\n")
    assert plain == headed and plain[1].low_c == 5.5 and plain[0].on == dt.date(2026, 5, 1)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("2026-05-01,4,15\n2026-05-02,cold,17", "line 2"),
        ("2026-05-01,4", "line 1"),
        ("2026-05-01,15,4", "line 1: a day's minimum"),
        ("01/05/2026,4,15", "line 1"),
    ],
)
def test_a_line_that_cannot_be_read_is_named(text: str, says: str) -> None:
    with pytest.raises(FigureError, match=says):
        read_daily_temperatures(text)


def test_forecast_follows_the_orange_tree_up_to_its_ceiling() -> None:
    """Tree 3 of the Orange data, day 0 taken as 1 January 2020: seven readings show a curve near 159 mm of girth."""
    ages, girths = [118, 484, 664, 1004, 1231, 1372, 1582], [30, 51, 75, 108, 115, 139, 140]
    start = dt.date(2020, 1, 1)
    readings = [(start + dt.timedelta(days=age), float(girth)) for age, girth in zip(ages, girths, strict=True)]
    figure = growth_forecast(readings, start + dt.timedelta(days=1582), days=3650)
    beside = {more.name: more.value for more in figure.beside}
    assert isinstance(figure.value, float)
    assert abs(float(beside["levels off near"]) - 158.83) < 0.5
    assert abs(figure.value - 158.8) < 1


def test_forecast_needs_more_than_a_flush_of_readings() -> None:
    near = [(dt.date(2026, 5, 1), 40.0), (dt.date(2026, 6, 1), 42.0)]
    figure = growth_forecast(near, dt.date(2026, 6, 14))
    assert figure.value is None and "too few" in figure.how
    assert growth_forecast([], dt.date(2026, 6, 14)).value is None


def test_a_flat_series_does_not_break_the_fit() -> None:
    flat = [(dt.date(2018 + year, 1, 1), 40.0) for year in range(8)]
    figure = growth_forecast(flat, dt.date(2026, 1, 1))
    assert isinstance(figure.value, float) and abs(figure.value - 40) < 0.01


def test_a_fit_of_too_few_points_is_refused() -> None:
    with pytest.raises(FigureError, match="more than 2"):
        fit(lambda when, values: values[0] + values[1] * when, [0, 1], [0, 1], (0, 0))
