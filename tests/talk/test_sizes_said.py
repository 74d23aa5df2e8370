"""Sizes beside what was done and wished for, and sizes that cannot be."""

import datetime as dt

import pytest

from benchmate.fault import UserError
from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def told(answer):
    (figure,) = answer.advice.figures
    return figure


@pytest.mark.parametrize(
    "words",
    [
        "I want it at 60 cm tall and 8 cm thick at the base",
        "the goal is 8 cm at the base",
        "it should end up 50 cm tall",
    ],
)
def test_a_wish_is_kept_and_measures_nothing(bench, words):
    (entry,) = bench.answer(words).logged
    assert entry.kind == "note" and not entry.measures and entry.said == words
    assert round(told(bench.answer("how fast is it thickening")).value, 1) == 6.0


def test_how_long_a_wish_takes_is_told(bench):
    figure = told(bench.answer("aiming for an 8 cm base"))
    assert figure.unit == "years" and 2 < figure.value < 3


def test_the_size_of_a_cut_is_its_wound(bench):
    bench.answer("cut off the big branch at the back, 25 mm")
    assert not bench.answer("how long will it take to close").asks


def test_a_branch_told_behind_wire_is_no_wire(bench):
    answer = bench.answer("Old Salt needs wire on the second branch, 12 mm, what gauge")
    assert told(answer).value == 4 and answer.tree == "Old Salt"


@pytest.mark.parametrize("words", ["what wire for a 10 m branch", "can I bend a 9 mm branch 400 degrees over 10 cm"])
def test_what_cannot_be_leaves_the_tree_at_hand(bench, words):
    try:
        assert "cannot be" in bench.answer(f"Old Salt: {words}").says[0]
    except UserError as error:
        assert "400" in str(error)
    assert bench.context.tree == "Old Salt"


def test_beside_what_cannot_be_the_rest_is_logged(bench):
    answer = bench.answer("fed Old Salt, what wire for a 10 m branch")
    assert [entry.work[0]["work"] for entry in answer.logged] == ["feed"]
    assert "10000 mm cannot be" in answer.says[0]


def test_a_lone_question_that_cannot_be_is_refused_outside_a_talk(demo):
    with pytest.raises(UserError):
        Bench(House(demo), dt.date(2026, 6, 14), talking=False).answer("what wire for a 10 m branch")
