"""What is said to what was just asked and weighed: a plan, a yes to work that has to wait, work told again."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House

LATE = dt.date(2027, 1, 25)


@pytest.fixture
def in_winter(demo):
    """A talk weeks before the hornbeam's roots may be cut."""
    return Bench(House(demo), LATE, tree="Ratchet")


def told(answer):
    return [(entry.kind, entry.when, [work["work"] for work in entry.work]) for entry in answer.logged]


@pytest.mark.parametrize("words", ["yes do it", "ok, do it", "yes, do that"])
def test_a_yes_to_work_that_has_to_wait_is_a_plan_for_its_day(in_winter, words):
    opens = next(one.opens for one in in_winter.answer("can I repot it").advice.options if one.work == "repot")
    answer = in_winter.answer(words)
    assert told(answer) == [("plan", opens, ["repot"])]
    assert any("it has to wait until" in aside for aside in answer.aside)


def test_work_named_anew_is_done_all_the_same(in_winter):
    in_winter.answer("can I repot it")
    assert [kind for kind, _, _ in told(in_winter.answer("repotted it"))] == ["done"]


def test_a_yes_to_work_that_may_be_done_is_done(bench):
    assert bench.answer("can I feed it").advice.options[0].verdict == "go"
    assert told(bench.answer("do it")) == [("done", None, ["feed"])]


def test_a_yes_to_work_that_is_advised_against_is_asked_about(bench):
    bench.turn_to("Crag")
    verdicts = {one.work: one.verdict for one in bench.answer("can I defoliate it").advice.options}
    assert verdicts["defoliate"] == "avoid"
    assert "Log it as done all the same?" in bench.answer("do it").confirm


def test_the_same_work_told_when_it_is_done_stands_once(bench, journal):
    bench.answer("repot it now")
    answer = bench.answer("repotted it, half the roots off")
    struck = {entry.strikes for entry in journal("Gatepost") if entry.strikes}
    stands = [entry for entry in journal("Gatepost") if entry.kind == "done" and entry.id not in struck]
    told_of = [entry for entry in stands if entry.day == bench.on and entry.work[0]["work"] == "repot"]
    assert [entry.id for entry in told_of] == [entry.id for entry in answer.logged if entry.kind == "done"]


@pytest.mark.parametrize("first", ["fed it", "wire the low branch", "feed it tomorrow"])
def test_what_was_done_before_or_is_other_work_stands_beside(bench, first):
    bench.answer(first)
    assert [entry.kind for entry in bench.answer("fed it").logged] == ["done"]


@pytest.mark.parametrize(
    "words", ["I'll do it in april", "no I'll do it in april", "no, I'll do it in april", "no I'll repot it in april"]
)
def test_another_time_behind_a_question_is_a_plan(bench, words):
    bench.answer("can I repot it")
    assert told(bench.answer(words)) == [("plan", "2027-04", ["repot"])]


def test_behind_no_question_there_is_nothing_to_do(bench):
    assert not bench.answer("I'll do it in april").logged


@pytest.mark.parametrize("words", ["done", "ok, did that", "I did it"])
def test_behind_what_now_the_first_option_was_done_whatever_was_asked_before(bench, words):
    bench.turn_to("Minnow")
    bench.answer("leaves are yellow all over, can I repot it")
    first = bench.answer("so what do I do first").advice.options[0].work
    assert first not in ("repot", "leave")
    assert told(bench.answer(words)) == [("done", None, [first])]
