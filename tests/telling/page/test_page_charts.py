"""What is drawn is to scale: from nothing upward, at the true pace of time, and bars as long as their shares."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from page_parts import section, text_of
from page_sheets import ON, entry, sheet

from benchmate.telling.page import SeasonSpent, page_text
from benchmate.telling.page.growth import nice_step, series_of
from benchmate.telling.page.growth_chart import growth_chart
from benchmate.telling.page.spent import season_runs, spent_words, top_of

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2026, 6, 14))
SIZES = st.floats(0.5, 5000)


def drawn(points, units="metric"):
    """The chart's points as drawn, its scale (label -> height), its years (label -> place), its size labels."""
    entries = [entry(day, "seen", measures={"diameter_mm": size}) for day, size in points]
    chart = section(page_text(sheet(entries, units=units)), "growth").find(".//svg")
    line = [tuple(map(float, pair.split(","))) for pair in chart.find("polyline").get("points").split()]
    texts = [(float(one.get("x")), float(one.get("y")), one.get("text-anchor"), one.text) for one in chart.iter("text")]
    scale = {float(text): y - 4 for _, y, anchor, text in texts if anchor == "end" and _number(text)}
    return line, scale, texts


def _number(text):
    return text.replace(".", "").isdigit()


def test_heights_are_in_proportion_from_nothing():
    line, scale, _ = drawn([("2024-01-01", 30), ("2025-01-01", 60), ("2026-01-01", 45)])
    floor = scale[0]
    heights = [floor - y for _, y in line]
    assert heights[1] == pytest.approx(2 * heights[0], abs=0.3)
    assert heights[2] == pytest.approx(1.5 * heights[0], abs=0.3)
    assert heights[1] == pytest.approx(floor - scale[60], abs=0.3)


def test_time_runs_at_its_true_pace():
    line, _, _ = drawn([("2024-01-01", 30), ("2024-07-01", 31), ("2026-01-01", 45)])
    half, rest = line[1][0] - line[0][0], line[2][0] - line[1][0]
    assert rest == pytest.approx(3 * half, rel=0.03)


def test_inches_are_drawn_and_named_where_the_place_counts_in_them():
    _, scale, texts = drawn([("2024-01-01", 50.8), ("2026-01-01", 76.2)], "imperial")
    assert max(scale) == 3 and "in" in [text for _, _, _, text in texts]
    assert {"2 in", "3 in"} <= {text for _, _, _, text in texts}


@given(st.lists(st.tuples(DAYS, SIZES), min_size=2, max_size=30).filter(lambda rows: len({day for day, _ in rows}) > 1))
def test_every_point_and_word_lies_within_the_drawing(rows):
    entries = [entry(day, "seen", measures={"height_mm": size}) for day, size in sorted(rows)]
    (series,) = series_of(entries)
    text = growth_chart(series, "metric").text
    page = page_text(sheet(entries))
    chart = section(page, "growth").find(".//svg")
    assert text.startswith("<svg")
    width, height = (float(part) for part in chart.get("viewBox").split()[2:])
    points = [tuple(map(float, pair.split(","))) for pair in chart.find("polyline").get("points").split()]
    assert len(points) == len(rows)
    places = points + [(float(one.get("x")), float(one.get("y"))) for one in chart.iter("text")]
    assert all(0 <= x <= width and 0 <= y <= height for x, y in places)


@given(st.floats(1e-3, 1e6), st.integers(1, 60))
def test_steps_are_round_and_reach_all_that_is_shown(most, steps):
    step = nice_step(most, steps)
    assert step * steps >= most * (1 - 1e-9)
    assert f"{step:e}"[0] in "125"
    assert float(f"{step:.0e}") == pytest.approx(step)


def seasons(*rows):
    return tuple(
        SeasonSpent(str(2020 + number), ON.replace(year=2020 + number), leaf, root, most=most)
        for number, (leaf, root, most) in enumerate(rows)
    )


def test_bars_share_one_scale_from_nothing():
    page = page_text(sheet(seasons=seasons((0.1, 0.0, 0.25), (0.2, 0.4, 0.25))))
    bars = [
        [float(one.get("width")) for one in svg.iter("rect")] for svg in section(page, "spent").findall(".//tbody//svg")
    ]
    (first,), (leaf, roots) = bars
    assert leaf == pytest.approx(2 * first, abs=0.2) and roots == pytest.approx(4 * first, abs=0.4)


def test_the_scale_goes_to_half_or_further_and_ends_at_the_whole():
    assert top_of(seasons((0.1, 0.2, 0.25))) == 0.5
    assert top_of(seasons((0.1, 0.6, None))) == 0.75
    assert top_of(seasons((1.4, 0.0, None))) == 1.0


def test_a_bar_beyond_the_scale_stops_at_it_and_words_tell_how_much_it_was():
    page = page_text(sheet(seasons=seasons((1.4, 0.0, 0.25))))
    svg = section(page, "spent").find(".//tbody//svg")
    assert float(svg.find("rect").get("width")) <= float(svg.get("viewBox").split()[2])
    assert "140 % of the leaf, beyond the 25 % that it bears" in text_of(section(page, "spent"))


def test_what_was_not_said_is_told_as_about_and_a_health_not_told_as_such():
    one = SeasonSpent("2025", ON, 0.15, 0.3, True, True, 0.25, True)
    assert spent_words(one) == (
        "about 15 % of the leaf, of at most 25 % (its health then was not told); about 30 % of the roots"
    )


def test_seasons_without_a_word_are_told_together_and_not_as_spared():
    silent = [SeasonSpent(str(year), ON, silent=True) for year in (2020, 2021, 2022)]
    rows = season_runs([*silent, SeasonSpent("2023", ON), SeasonSpent("2024", ON, silent=True, now=True)])
    assert [(label, spent_words(season)) for label, season in rows] == [
        ("2020 to 2022", "nothing in the record"),
        ("2023", "nothing taken"),
        ("2024 so far", "nothing in the record"),
    ]
