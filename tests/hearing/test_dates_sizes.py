"""Sizes, counts and shares in everyday words: feet and inches, mixed parts, rough numbers, likened things."""

from __future__ import annotations

import datetime as dt

import pytest

from benchmate.hearing import Ear
from benchmate.hearing.amounts.values import spot_values

ON = dt.date(2026, 6, 14)


def longest(ear: Ear, said: str, kind: str):
    """The longest value of a kind that begins with the first of the words said."""
    words = [word.text for word in ear.words(said)]
    found = [value for value in spot_values(ear.spotter.values, words, 0) if value.kind == kind]
    return max(found, key=lambda value: value.end, default=None), len(words)


@pytest.mark.parametrize(
    "said, mm",
    [
        ("about half a metre", 500),
        ("a good inch", 25.4),
        ("just under two inches", 50.8),
        ("a shade over a foot", 304.8),
        ("a yard and a half", 1371.6),
        ("two foot six", 762),
        ("5 ft 3", 1600.2),
        ("5' 3\"", 1600.2),
        ("4 ft 6 in", 1371.6),
        ("six foot odd", 1828.8),
        ("a metre twenty", 1200),
        ("1m20", 1200),
        ("five and a half feet", 1676.4),
        ("an inch and a quarter", 31.75),
        ("inch and a half", 38.1),
        ("one and three quarter inches", 44.45),
        ("2 and 3/4 inches", 69.85),
        ("two and a bit inches", 50.8),
        ("seven sixteenths", 11.1125),
        ("seven sixteenths of an inch", 11.1125),
        ("three thirty seconds of an inch", 2.38125),
        ("quarter inch", 6.35),
        ("between 40 and 45 cm", 400),
        ("forty odd centimetres", 400),
        ("8,5 mm", 8.5),
    ],
)
def test_a_length_in_everyday_words(ear: Ear, said: str, mm: float) -> None:
    value, size = longest(ear, said, "MEASURE")
    assert value is not None and value.end == size
    assert value.number == pytest.approx(mm, rel=1e-3)


@pytest.mark.parametrize(
    "said, measures",
    [
        ("thumb thick", {"diameter_mm": 25}),
        ("as thick as my finger", {"diameter_mm": 18}),
        ("a pint and a half", {"volume_l": 0.7098}),
        ("half a gallon", {"volume_l": 1.893}),
        ("ten below", {"temperature_c": -10}),
        ("3 degrees below freezing", {"temperature_c": -3}),
        ("two degrees of frost", {"temperature_c": -2}),
        ("28 in the shade", {"temperature_c": 28}),
        ("95 in the shade", {"temperature_c": 35}),
        ("18 months old", {"age_years": 1.5}),
        ("getting on for thirty years old", {"age_years": 30}),
        ("two decades old", {"age_years": 20}),
        ("a foot by ten inches by four inches deep", {"length_mm": 304.8, "width_mm": 254, "depth_mm": 101.6}),
        ('14" by 10" by 4"', {"length_mm": 355.6, "width_mm": 254, "depth_mm": 101.6}),
    ],
)
def test_a_measure_that_names_itself(ear: Ear, said: str, measures: dict[str, float]) -> None:
    value, size = longest(ear, said, "MEASURE")
    assert value is not None and value.end == size
    assert dict(value.measures) == pytest.approx(measures, rel=1e-3)


@pytest.mark.parametrize(
    "said, share",
    [
        ("just over a third", 0.333),
        ("well over half", 0.5),
        ("less than a quarter", 0.25),
        ("a good third", 0.333),
        ("one in four", 0.25),
        ("2 out of 5", 0.4),
        ("three fifths", 0.6),
        ("seven tenths", 0.7),
        ("a third to a half", 0.333),
        ("between a third and a half", 0.333),
        ("twenty to thirty percent", 0.2),
    ],
)
def test_a_share_in_everyday_words(ear: Ear, said: str, share: float) -> None:
    value, size = longest(ear, said, "SHARE")
    assert value is not None and value.end == size
    assert value.number == pytest.approx(share, abs=1e-3)


@pytest.mark.parametrize(
    "said, number",
    [
        ("half a dozen", 6),
        ("three dozen", 36),
        ("twenty odd", 20),
        ("a dozen or so", 12),
        ("about twenty", 20),
        ("a trio of", 3),
    ],
)
def test_a_count_in_everyday_words(ear: Ear, said: str, number: int) -> None:
    value, size = longest(ear, said, "NUM")
    assert value is not None and (value.end, value.number) == (size, number)


@pytest.mark.parametrize(
    "said",
    [
        "the base was 30 in 2020",
        "the trunk was 40 in March",
        "the pot is 300 in length",
        "it was 30 in the spring",
        "I had 12 in a row",
        "one in four leaves is yellow",
    ],
)
def test_in_is_no_inch_before_a_time_a_number_or_a_small_word(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    told = {**reading.measures, **{k: v for fact in reading.facts for k, v in fact.measures.items()}}
    assert not any(name.endswith("_mm") for name in told)


@pytest.mark.parametrize("said", ["the branch is 12 in long", "a 2 in branch", "14 in by 10 in by 4 in pot"])
def test_in_is_an_inch_beside_a_size(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert any(
        name.endswith("_mm") for one in (reading.measures, *(c.measures for c in reading.candidates)) for name in one
    )


def test_and_a_third_of_the_roots_is_no_part_of_the_size_before_it(ear: Ear) -> None:
    reading = ear.hear("cut it back 3 inches and a third of the roots off", ON)
    assert reading.work[0].measures == {"length_mm": pytest.approx(76.2)}
    assert reading.work[1].measures == {"share": pytest.approx(0.3333)}


@pytest.mark.parametrize("said", ["branches 9,7 and 5 mm", "30,20,8 cm"])
def test_a_comma_in_a_list_is_no_decimal_point(ear: Ear, said: str) -> None:
    assert not any("." in word.text for word in ear.words(said))


@pytest.mark.parametrize(
    "said, degrees",
    [("it was 95 degrees yesterday", 35), ("it is 35 degrees in here", 35), ("the low was minus ten", -10)],
)
def test_the_air_is_never_hotter_than_it_ever_was(ear: Ear, said: str, degrees: float) -> None:
    assert ear.hear(said, ON).measures == {"temperature_c": pytest.approx(degrees)}


@pytest.mark.parametrize(
    "said, measures",
    [
        ("cut it back two inches", {"length_mm": 50.8}),
        ("shortened it by a foot", {"length_mm": 304.8}),
        ("wired it 3 mm", {"diameter_mm": 3}),
        ("bend it down two inches", {"length_mm": 50.8}),
    ],
)
def test_a_bare_size_behind_a_verb_is_no_height(ear: Ear, said: str, measures: dict[str, float]) -> None:
    assert dict(ear.hear(said, ON).work[0].measures) == pytest.approx(measures)


def test_the_length_of_candles_that_were_named_is_theirs(ear: Ear) -> None:
    (fact,) = ear.hear("the candles are pushing, two inches long", ON).facts
    assert (fact.value, dict(fact.measures)) == ("candles", {"length_mm": pytest.approx(50.8)})
