"""What must hold for any input: direction, scale, inverses, ranges; and no exception but a plain refusal."""

from __future__ import annotations

import datetime as dt
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reckoning_files import rules_tables
from test_reckoning_cases import sound

from benchmate.reckoning import FIGURES, FigureError, bind
from benchmate.reckoning.blades import cut_across_ellipse
from benchmate.reckoning.curves import fit, line, logistic
from benchmate.reckoning.evaporation import hargreaves_mm
from benchmate.reckoning.feeding import grams_per_litre, stock_grams_per_litre
from benchmate.reckoning.frost import chance_after, chance_before, days_at_risk, days_to_frost
from benchmate.reckoning.heat import average_degree_days, capped_degree_days, sine_degree_days
from benchmate.reckoning.leaf import share_gone
from benchmate.reckoning.proportion import parent_diameter_mm, thickened_parent_mm
from benchmate.reckoning.season import day_of_share, growing_season, share_grown
from benchmate.reckoning.section import outer_strain, radius_at_strain_mm, tip_force_n, tip_movement_mm
from benchmate.reckoning.sun import cbm_day_length, day_length, sun_hours
from benchmate.reckoning.wire import awg_diameter_mm, coil_length_by_pitch_mm, coil_length_mm, nearest_awg, pitch_mm

TABLES = rules_tables()
DAYS = st.dates(dt.date(2000, 1, 1), dt.date(2060, 12, 31))
MM = st.floats(0.5, 150)


@given(MM, MM)
def test_thicker_branch_strains_more_and_wants_a_wider_bend(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    assert outer_strain(thin, 200) <= outer_strain(thick, 200)
    assert math.isclose(outer_strain(thin, radius_at_strain_mm(thin, 0.006)), 0.006)


@given(st.floats(0.1, 100), st.floats(10, 1000), st.floats(0.5, 15), MM)
def test_tip_force_undoes_tip_movement(load: float, length: float, e_gpa: float, diameter: float) -> None:
    assert math.isclose(tip_force_n(tip_movement_mm(load, length, e_gpa, diameter), length, e_gpa, diameter), load)


@given(st.floats(10, 80), st.floats(10, 2000), st.floats(1, 100))
def test_coil_by_angle_is_coil_by_pitch(angle: float, length: float, centre: float) -> None:
    by_pitch = coil_length_by_pitch_mm(length, centre, pitch_mm(centre, angle))
    assert math.isclose(by_pitch, coil_length_mm(length, angle), rel_tol=1e-9) and by_pitch >= length


@given(st.integers(-3, 40))
def test_gauge_and_diameter_agree(gauge: int) -> None:
    assert nearest_awg(awg_diameter_mm(gauge)) == gauge


@given(st.floats(-60, 60), st.integers(1, 366))
def test_day_and_night_of_both_hemispheres_make_a_day(latitude: float, day_of_year: int) -> None:
    for length in (day_length, lambda lat, day: cbm_day_length(lat, day, 0.0)):
        assert math.isclose(length(latitude, day_of_year) + length(-latitude, day_of_year), 24, abs_tol=1e-9)


@given(st.floats(-90, 90), DAYS)
def test_day_is_between_none_and_twenty_four_hours(latitude: float, on: dt.date) -> None:
    assert 0 <= sun_hours(latitude, on) <= 24


@given(st.floats(-30, 40), st.floats(0, 30), st.floats(-5, 20))
def test_degree_day_methods_keep_their_order(low: float, swing: float, base: float) -> None:
    """Average, then single sine, then modified, where only the base bites; never below nothing."""
    day = low, low + swing, base
    average, sine, capped = average_degree_days(*day), sine_degree_days(*day), capped_degree_days(*day)
    assert -1e-9 <= average <= sine + 1e-9 and sine <= capped + 1e-9


@given(st.floats(-20, 40), st.floats(0.1, 30), st.floats(0, 15), st.floats(16, 35))
def test_sine_is_the_area_under_the_curve(low: float, swing: float, base: float, upper: float) -> None:
    high, steps = low + swing, 2000
    wave = ((low + high) / 2 + swing / 2 * math.sin(2 * math.pi * (k + 0.5) / steps) for k in range(steps))
    area = sum(min(upper, max(base, warmth)) - base for warmth in wave) / steps
    assert math.isclose(sine_degree_days(low, high, base, upper), area, abs_tol=2e-3)


@given(st.floats(-60, 60), st.floats(2, 30))
def test_frost_chances_mirror_and_undo(days: float, spread: float) -> None:
    assert math.isclose(chance_before(days, spread) + chance_after(days, spread), 1, abs_tol=1e-9)
    chance = chance_before(days, spread)
    if 1e-6 < chance < 1 - 1e-6:
        assert math.isclose(days_at_risk(chance, spread), days, abs_tol=1e-3)


@given(DAYS)
def test_frost_margin_counts_down_by_one_a_day(on: dt.date) -> None:
    now, next_day = (days_to_frost(day, (10, 18), (4, 28)) for day in (on, on + dt.timedelta(days=1)))
    assert next_day in (now - 1, 364, 365) or next_day > 200
    assert -100 <= now <= 366


@given(st.floats(0.001, 0.999), st.floats(30, 300))
def test_season_curve_and_its_inverse(share: float, days: float) -> None:
    assert math.isclose(share_grown(day_of_share(share, days), days), share, rel_tol=1e-6)


@given(DAYS)
def test_a_day_is_never_far_from_its_season(on: dt.date) -> None:
    for start, end in (((4, 20), (8, 18)), ((10, 20), (2, 16))):
        season = growing_season(on, start, end)
        assert season.days > 0 and abs((season.start - on).days + season.days / 2) <= 184


@given(st.lists(st.floats(0, 1), max_size=5))
def test_leaf_gone_never_exceeds_all_nor_the_plain_sum(shares: list[float]) -> None:
    assert -1e-12 <= share_gone(shares) <= min(1.0, sum(shares)) + 1e-9


@given(st.floats(0, 1), st.floats(0, 1))
def test_more_tip_is_more_leaf(one: float, other: float) -> None:
    less, more = sorted((one, other))
    assert cut_across_ellipse(less) <= cut_across_ellipse(more) + 1e-12
    assert math.isclose(cut_across_ellipse(less) + cut_across_ellipse(1 - less), 1, abs_tol=1e-6)


@given(st.lists(st.floats(1, 100), min_size=1, max_size=6), st.floats(1.5, 3))
def test_parent_is_thicker_than_any_child(children: list[float], exponent: float) -> None:
    assert parent_diameter_mm(children, exponent) >= max(children) * (1 - 1e-9)
    assert thickened_parent_mm(50, min(children), max(children), exponent) >= 50 * (1 - 1e-9)


@given(st.floats(1, 1000), st.floats(1, 60), st.floats(1, 500))
def test_stock_through_an_injector_is_the_feed(ppm: float, percent: float, ratio: float) -> None:
    assert math.isclose(stock_grams_per_litre(ppm, percent, ratio) / ratio, grams_per_litre(ppm, percent))


@given(st.floats(-5, 30), st.floats(0, 20), st.floats(1, 42), st.floats(0, 5))
def test_hotter_and_brighter_draws_more(low: float, swing: float, sun: float, more: float) -> None:
    base = hargreaves_mm(low, low + swing, sun)
    # a swing below the rounding of the sums is lost, and the draw goes with its square root: a micrometre of play
    assert hargreaves_mm(low + more, low + swing + more, sun) >= base - 1e-3
    assert hargreaves_mm(low, low + swing, sun + more) >= base - 1e-12


@settings(max_examples=50)
@given(st.floats(20, 200), st.floats(2, 8), st.floats(0.5, 2))
def test_a_curve_is_found_again_from_its_own_points(ceiling: float, middle: float, scale: float) -> None:
    times = [0.0, 1, 2, 3, 4, 6, 8, 10, 12]
    true = (ceiling, middle, scale)
    found = fit(logistic, times, [logistic(when, true) for when in times], (ceiling * 1.3, middle + 1, scale * 1.2))
    assert found is not None
    assert all(math.isclose(got, want, rel_tol=1e-4) for got, want in zip(found.values, true, strict=True))
    straight = fit(line, times, [3 + 2 * when for when in times], (0, 0))
    assert straight is not None and math.isclose(straight.values[1], 2, rel_tol=1e-6)


LIKELY = st.floats(0.5, 400)
ODD = st.floats(allow_nan=True, allow_infinity=True)
ANYTHING = st.one_of(LIKELY, LIKELY, st.none(), st.integers(-10, 10_000), ODD)
NAMES = (
    "diameter_mm",
    "length_mm",
    "height_mm",
    "width_mm",
    "depth_mm",
    "leaves",
    "temperature_c",
    "angle_deg",
    "volume_l",
    "ppm",
    "days",
    "share",
    "gap_mm",
    "base_mm",
    "latitude_deg",
    "leaves_total",
    "spread_mm",
    "pot_length_mm",
    "pot_width_mm",
    "pot_depth_mm",
    "yearly_mm",
    "stock_percent",
    "wanted_percent",
    "parts",
)
KNOWN = st.fixed_dictionaries(
    {},
    optional={name: ANYTHING for name in NAMES}
    | {
        "on": st.one_of(DAYS, st.dates()),
        "wired_on": DAYS,
        "cut_on": DAYS,
        "health": st.sampled_from(["strong", "weak", "odd"]),
        "species": st.sampled_from(["Acer", "Ficus", "Olea x", ""]),
        "diameters_mm": st.lists(st.floats(-5, 300), max_size=3),
        "label": st.lists(st.floats(-5, 90), min_size=2, max_size=4),
        "temperatures": st.lists(st.tuples(st.floats(-30, 60), st.floats(-30, 60)), max_size=3),
        "taken": st.lists(st.floats(0, 1), max_size=3),
        "first_frost": st.sampled_from([None, (10, 18), (2, 29), (6, 1), (13, 1)]),
        "last_frost": st.sampled_from([None, (4, 28), (5, 20)]),
        "readings": st.lists(st.tuples(DAYS, st.floats(1, 500)), max_size=8),
        "liquid": st.sampled_from(["bleach", "alcohol", "ink"]),
        "stage": st.sampled_from(["dormant", "hardened"]),
    },
)


@pytest.mark.parametrize("name", sorted(FIGURES))
@settings(max_examples=60, deadline=None)
@given(known=KNOWN)
def test_any_input_gives_a_sound_figure_a_question_or_a_plain_refusal(name: str, known: dict[str, Any]) -> None:
    bound = bind(FIGURES[name], known, TABLES)
    if bound.lacks:
        return
    try:
        figure = FIGURES[name].work_out(**bound.values)
    except FigureError as fault:
        assert str(fault) and "\n" not in str(fault)
        return
    sound(figure)
    if isinstance(figure.value, float):
        assert math.isfinite(figure.value)
