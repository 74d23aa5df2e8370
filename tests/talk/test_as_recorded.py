"""How tall, thick and old a tree is, asked of one that is named, of its kind or at hand: what the record holds."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def bench(demo):
    return Bench(House(demo), dt.date(2026, 6, 20), talking=True)


@pytest.mark.parametrize(
    "words, told",
    [
        ("how thick is the beech", "Parchment, trunk: 82 mm, as its sheet says"),
        ("how thick is the beech's trunk", "Parchment, trunk: 82 mm, as its sheet says"),
        ("how tall is the beech?", "Parchment, height: 610 mm, as its sheet says"),
        ("how tall is Parchment now", "Parchment, height: 610 mm, as its sheet says"),
        ("what height is the maple", "Gatepost, height: 430 mm, as its sheet says"),
    ],
)
def test_a_size_is_told_from_the_sheet(bench, words, told):
    assert bench.answer(words).says[0].startswith(told)


def test_what_was_measured_last_goes_before_the_sheet(bench):
    bench.turn_to("Parchment")
    bench.answer("it is 640 mm tall")
    assert "640 mm, measured on 20 June" in bench.answer("how tall is the beech").says[0]


def test_an_age_is_told_or_since_when_the_tree_is_here(bench):
    assert "no age is on record" in bench.answer("how old is the beech").says[0]
    bench.answer("it is 25 years old")
    assert bench.answer("how old is it").says[0].startswith("Parchment: 25 years old")


@pytest.mark.parametrize("words", ["how thick is the left branch", "how thick will the beech be in 2030"])
def test_what_asks_for_more_is_no_question_to_the_sheet(bench, words):
    assert bench.answer(words).reading.topic != "recorded"


@pytest.mark.parametrize(
    "words, told",
    [
        ("what wire is on it", "Gatepost, wire on the left branch: 2.5 mm, since 20 June"),
        ("what wire did I use on the left branch", "Gatepost, wire on the left branch: 2.5 mm, since 20 June"),
        ("what wire is on the right branch", "Gatepost: no wire is on record as being on it there"),
        ("how big is the pot", "Gatepost, pot: length 320 mm, width 240 mm and depth 90 mm"),
        ("which pot is it in", "Gatepost, pot: length 320 mm, width 240 mm and depth 90 mm"),
        ("how big is the maple's pot now", "Gatepost, pot: length 320 mm, width 240 mm and depth 90 mm"),
    ],
)
def test_the_wire_and_the_pot_are_told_from_the_record(bench, words, told):
    bench.turn_to("Gatepost")
    bench.answer("wired the left branch with 2.5 mm")
    assert bench.answer(words).says[0] == told


def test_wire_that_came_off_is_not_on_it(bench):
    bench.turn_to("Gatepost")
    for said in ("wired the left branch with 2.5 mm", "took the wire off the left branch"):
        bench.answer(said)
    assert bench.answer("what wire is on it").says[0] == "Gatepost: no wire is on record as being on it"


@pytest.mark.parametrize(
    "words",
    ["what wire for the left branch", "what wire should I use on the left branch", "how big a pot does it need"],
)
def test_what_should_be_used_is_no_question_to_the_record(bench, words):
    bench.turn_to("Gatepost")
    assert bench.answer(words).reading.topic == "figure"
