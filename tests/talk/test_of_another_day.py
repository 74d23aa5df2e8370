"""What was asked last, asked of another day in a few words: nothing but the day changes."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def bench(demo):
    return Bench(House(demo), dt.date(2027, 3, 5), tree="Gatepost", talking=True)


@pytest.mark.parametrize("question", ["what now", "can I repot it", "what should I do next"])
@pytest.mark.parametrize(
    "words, when",
    [("what about next week", "2027-03-12"), ("how about in May?", "2027-05"), ("and tomorrow", "2027-03-06")],
)
def test_the_same_question_of_another_day(bench, question, words, when):
    first = bench.answer(question)
    further = bench.answer(words)
    assert (further.reading.topic, further.reading.when) == (first.reading.topic, when)
    assert not further.logged and not further.reading.guessed


def test_behind_what_was_told_nothing_is_asked_again(bench):
    bench.answer("fed it")
    assert not bench.answer("and tomorrow").logged
