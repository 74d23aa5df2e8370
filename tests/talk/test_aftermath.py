"""Looking back on the last work: what stood against it, and what is to be done now."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def in_autumn(demo):
    """A talk late in the year, when roots had better wait."""
    return Bench(House(demo), dt.date(2026, 10, 20), tree="Minnow")


def follows(answer):
    return [str(table["says"]).rstrip(".") for entry in answer.logged for table in entry.follow]


@pytest.mark.parametrize("question", ["should I have waited", "ought I to have waited", "should I have left it alone"])
def test_what_had_better_waited_says_why_and_what_to_do_now(in_autumn, question):
    care = follows(in_autumn.answer("repotted it this morning"))
    answer = in_autumn.answer(question)
    assert answer.says[0].startswith("Yes, it had better have waited: ")
    assert answer.says[1].startswith("Now leave it alone: ") and not answer.logged
    assert len(care) > 1 and all(any(line.startswith(says) for line in answer.says) for says in care)


def test_the_grower_is_told_no_where_nothing_stood_against_it(bench):
    bench.answer("fed it")
    assert bench.answer("should I have waited").says[0] == "No: nothing known stood against it on 14 June"


@pytest.mark.parametrize("question", ["did I go too far", "did I overdo it", "was that too much"])
def test_too_much_is_told_with_the_share_that_may_go(bench, question):
    bench.turn_to("Crag")
    bench.answer("thinned 70 % of the foliage")
    answer = bench.answer(question)
    assert answer.says[0].startswith("Yes: ") and not answer.logged and answer.reading.missed == ()
    assert any(one.kind == "tree" for one in answer.advice.cautions)


def test_what_now_after_a_mistake_goes_on_from_it(in_autumn):
    in_autumn.answer("repotted it")
    answer = in_autumn.answer("hmm, that was stupid. what now")
    assert answer.says[0].startswith("It was against advice: ") and not answer.asks


def test_what_now_behind_a_look_back_goes_on_from_it(in_autumn):
    in_autumn.answer("repotted it")
    back = in_autumn.answer("should I have waited")
    assert in_autumn.answer("what do I do for it now").says[1:] == back.says[1:]


def test_what_now_after_sound_work_is_weighed_as_ever(bench):
    bench.answer("fed it")
    answer = bench.answer("what now")
    assert not answer.says and answer.advice.options


def test_without_work_there_is_nothing_to_look_back_on(bench):
    bench.turn_to("Cellar")
    assert not any("had better have waited" in words for words in bench.answer("should I have waited").says)
