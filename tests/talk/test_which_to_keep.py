"""Which of two leaders stays: asked before anything is known of them, and after their sizes were told."""

import pytest

from benchmate.telling.told import tell


def lines(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


def test_what_tells_the_two_apart_is_asked_for(bench):
    bench.answer("let's do Gatepost")
    bench.answer("first flush is firm, two leaders")
    answer = bench.answer("which one should I keep")
    assert any("What tells the two apart" in line for line in lines(answer))


def test_sizes_told_before_the_question_count_on_both_sides(bench):
    bench.answer("let's do Gatepost")
    bench.answer("first flush is firm, two leaders")
    bench.answer("the left is 9 mm, the right 6 mm")
    answer = bench.answer("which one should I keep")
    kept = [option for option in answer.advice.options if option.work == "select-leader"]
    assert {option.spot.side for option in kept} == {"left", "right"}
    assert any(option.against for option in kept)
    assert not any("What tells the two apart" in line for line in lines(answer))


@pytest.mark.parametrize(
    "told",
    [
        "the left is 14 mm, the right 11 mm, the left goes straight on",
        "left is 14 mm and right is 11, left goes straight on",
        "the left one goes on with the line of the trunk",
        "the left carries the trunk line",
    ],
)
def test_what_tells_them_apart_answers_the_question_and_takes_nothing_off(bench, told):
    bench.answer("keep the left leader or the right one?")
    answer = bench.answer(told)
    assert [entry.kind for entry in answer.logged] == ["seen"] and not answer.asks
    assert (answer.advice.options[0].work, answer.advice.options[0].spot.side) == ("select-leader", "left")
    assert bench.answer("do that").asks


@pytest.mark.parametrize("told", ["the left one goes through", "the right goes over the rim", "the left goes up"])
def test_where_a_branch_goes_takes_nothing_off(bench, told):
    assert not bench.answer(told).logged


@pytest.mark.parametrize("told", ["the left one goes", "the left one goes now", "the left goes first"])
def test_a_branch_that_goes_is_taken_off(bench, told):
    assert [work["work"] for entry in bench.answer(told).logged for work in entry.work] == ["remove"]
