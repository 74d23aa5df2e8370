"""A tree that was put into another pot: what is reckoned and told from then on is of that one."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def spring(demo):
    return Bench(House(demo), dt.date(2027, 3, 27), tree="Gatepost")


def litres(bench):
    (figure,) = bench.answer("how much soil do I need").advice.figures
    return round(figure.value, 1)


@pytest.mark.parametrize(
    "words, held",
    [
        ("repotted it into a 40 by 30 by 9 cm pot", 10.8),
        ("slip potted it into a 35 x 25 x 10 cm training pot", 8.8),
        ("repotted it into a round pot, 30 cm across and 10 cm deep", 7.1),
        ("its pot is 40 by 30 by 9 cm", 10.8),
        ("repotted it", 6.9),
        ("going to repot it into a 40 by 30 by 9 cm pot next week", 6.9),
    ],
)
def test_soil_for_the_pot_that_it_stands_in(spring, words, held):
    spring.answer(words)
    assert litres(spring) == held


def test_taken_back_it_stands_in_its_old_pot(spring):
    spring.answer("repotted it into a 40 by 30 by 9 cm pot")
    spring.answer("scratch that")
    assert litres(spring) == 6.9


def test_a_new_pot_of_which_one_side_was_told_has_no_depth_of_the_old(spring):
    spring.answer("repotted it into a 45 cm pot")
    answer = spring.answer("how much soil do I need")
    assert not answer.advice.figures and "deep" in answer.asks[0].says


def test_the_tree_is_told_with_its_new_pot(spring):
    spring.answer("repotted it into a 40 by 30 by 9 cm pot")
    spring.answer("Crag")
    assert "pot length 400 mm, width 300 mm and depth 90 mm" in spring.answer("Gatepost").says[0]


@pytest.mark.parametrize(
    "words, long_mm",
    [
        ("it is in a 30 by 22 by 8 pot", 300),
        ("it stands in a 30 x 22 x 8 pot", 300),
        ("its pot is 30 by 22 by 8", 300),
        ("repotted it into a 24 by 18 by 5 oval", 240),
        ("it went into the blue oval, 24 x 18 x 5", 240),
        ("it stands in a 300 x 220 x 80 pot", 300),
        ("it stands in a 90 x 60 x 25 pot", 90),
    ],
)
def test_three_sizes_without_a_unit_are_read_by_what_a_pot_can_be(spring, words, long_mm):
    spring.answer(words)
    (told,) = spring.answer("how big is its pot").says
    assert f"pot: length {long_mm} mm" in told


def test_the_shape_of_a_pot_is_kept_with_the_work(spring):
    answer = spring.answer("repotted it into a 24 by 18 by 5 oval")
    assert [one.words for one in answer.reading.kept] == ["oval"]
