"""Works, places and measures in plain words."""

import datetime as dt

import pytest

from benchmate.hearing.reading import Spot
from benchmate.telling.dates import day_words, span_words, when_words
from benchmate.telling.measures import measure_words
from benchmate.telling.wording import spot_words, work_words


@pytest.mark.parametrize(
    "work, spot, measures, do, done",
    [
        (
            "shorten",
            Spot("branch", "left"),
            {"leaves": 2},
            "shorten the left branch to 2 leaves",
            "shortened the left branch to 2 leaves",
        ),
        ("shorten", Spot(), {"share": 0.2}, "shorten it by 20 %", "shortened it by 20 %"),
        ("select-leader", Spot("leader", "left"), {}, "keep the left leader", "kept the left leader"),
        ("select-leader", Spot(side="back"), {}, "keep the back one as the leader", "kept the back one as the leader"),
        (
            "unwire",
            Spot("branch", "right", "low"),
            {},
            "take the wire off the low right branch",
            "took the wire off the low right branch",
        ),
        ("unwire", Spot("wire"), {}, "take the wire off", "took the wire off"),
        ("leaf-cut", Spot(side="left"), {}, "halve the leaves on the left", "halved the leaves on the left"),
        ("defoliate", Spot(), {}, "take all the leaves off", "took all the leaves off"),
        ("check", Spot("wire", "left"), {}, "check the wire on the left", "checked the wire on the left"),
        ("remove", Spot("branch", "back", count=2), {}, "remove the 2 back branches", "removed the 2 back branches"),
        ("wire", Spot("branch", ordinal=3), {}, "wire the third branch", "wired the third branch"),
        ("bend", Spot("trunk"), {"angle_deg": 40}, "bend the trunk by 40 degrees", "bent the trunk by 40 degrees"),
        ("feed", Spot(), {"ppm": 150}, "feed it at 150 ppm", "fed it at 150 ppm"),
        ("let-grow", Spot("shoot", "left", "low"), {}, "let the low left shoot grow", "let the low left shoot grow"),
        ("root-prune", Spot("root"), {"share": 0.5}, "prune the roots by 50 %", "pruned the roots by 50 %"),
        ("sieve-soil", Spot(), {}, "sieve soil", "sieve soil: done"),
    ],
)
def test_works(work, spot, measures, do, done):
    assert work_words(work, spot, measures) == do
    assert work_words(work, spot, measures, done=True) == done


@pytest.mark.parametrize(
    "spot, words",
    [
        (Spot(), "it"),
        (Spot("branch", "left", "low"), "the low left branch"),
        (Spot(side="back"), "the back one"),
        (Spot("side-branch", count=2), "the 2 side branches"),
    ],
)
def test_places(spot, words):
    assert spot_words(spot) == words


@pytest.mark.parametrize(
    "key, value, metric, imperial",
    [
        ("diameter_mm", 8.0, "diameter 8 mm", "diameter 0.31 in"),
        ("height_mm", 1200.0, "height 1.2 m", "height 47 in"),
        ("temperature_c", -5.0, "-5 C", "23 F"),
        ("volume_l", 5.0, "5 l", "1.3 US gallons"),
        ("share", 0.25, "25 %", "25 %"),
    ],
)
def test_measures_follow_the_place_s_units(key, value, metric, imperial):
    assert measure_words(key, value) == metric
    assert measure_words(key, value, "imperial") == imperial


@pytest.mark.parametrize(
    "when, words",
    [
        ("2026-06-14", "14 June"),
        ("2027-06-14", "14 June 2027"),
        ("2026-03", "March 2026"),
        ("2026", "2026"),
        ("2026-spring", "spring 2026"),
        ("2026-99-99", "2026-99-99"),
    ],
)
def test_times(when, words):
    assert when_words(when, dt.date(2026, 1, 1)) == words


@pytest.mark.parametrize(
    "days, words",
    [
        (0, "today"),
        (1, "tomorrow"),
        (-1, "yesterday"),
        (9, "in 9 days"),
        (21, "in 3 weeks"),
        (-400, "13 months ago"),
        (-800, "2 years ago"),
    ],
)
def test_spans(days, words):
    assert span_words(days) == words


def test_the_year_is_left_out_only_within_it():
    assert day_words(dt.date(2026, 8, 20), dt.date(2026, 1, 1)) == "20 August"
    assert day_words(dt.date(2026, 8, 20), dt.date(2025, 1, 1)) == "20 August 2026"
