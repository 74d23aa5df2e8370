"""Why something was done or decided, from the record's own words."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.mark.parametrize("question", ["why did I take it off", "why did I cut the back branch off"])
def test_the_reason_that_was_given_is_the_answer(bench, question):
    bench.answer("took off the heavy branch at the back because it was crossing")
    answer = bench.answer(question)
    assert answer.says == ("Because it was crossing (14 June: done: removed the back branch; crossing)",)
    assert not answer.logged and answer.advice is None


def test_where_no_reason_was_given_the_words_are_told(bench):
    bench.answer("took off the heavy branch at the back, it was crossing")
    says = bench.answer("why did I take it off").says
    assert says[0] == 'Your words of 14 June were: "took off the heavy branch at the back, it was crossing"'
    assert "crossing" in says[1]


def test_what_was_refused_tells_why(bench):
    bench.answer("I won't wire it because the bark is soft")
    assert bench.answer("why didn't I wire it").says[0].startswith("Because the bark is soft (14 June: left")


def test_a_time_that_is_named_is_kept_to(demo):
    bench = Bench(House(demo), dt.date(2026, 8, 24), tree="Ratchet")
    assert bench.answer("why did I shorten it last year").says[0].startswith("Your words of 7 June 2025 were")
    assert bench.answer("why did I wire it in 2019").says[0].startswith("The record holds no day")


def test_why_of_advice_is_still_of_the_advice(bench):
    bench.answer("can I repot it")
    assert bench.answer("why not repot it").advice is not None


def test_what_was_decided_about_a_part(bench):
    bench.turn_to("Ratchet")
    nothing = bench.answer("what did I decide about the leader").says
    assert nothing == ("The record holds nothing for Ratchet about the leader",)
    bench.answer("two leaders, keep the right one because it is the thinner")
    says = bench.answer("what did I decide about the leader").says
    assert len(says) == 2 and "the right" in says[1] and "thinner" in says[1]
    roots = bench.answer("what did I decide about the roots").says
    assert roots[0] == "The record holds 2 entries for Ratchet about the root, newest first"
