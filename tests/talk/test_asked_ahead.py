"""What is to be done in a time to come is answered for that time, and what is taken of it is planned."""

import datetime as dt

import pytest

from benchmate.telling.headline import headline_of


@pytest.mark.parametrize(
    "words, time, day",
    [
        ("what should I do in winter", "in winter 2026", dt.date(2026, 12, 1)),
        ("what should I do with it in December", "in December 2026", dt.date(2026, 12, 1)),
        ("what do I do in March", "in March 2027", dt.date(2027, 3, 1)),
    ],
)
def test_it_is_answered_for_the_time_that_is_asked_about(bench, words, time, day):
    answer = bench.answer(words)
    assert headline_of(answer).startswith(f"Best {time}: ") and answer.advice.on == day.isoformat()
    assert any(aside.startswith("answered for 1 ") for aside in answer.aside)


@pytest.mark.parametrize("words", ["what should I do now", "what should I do in June", "what now"])
def test_a_time_that_runs_is_answered_for_today(bench, words):
    answer = bench.answer(words)
    assert headline_of(answer).startswith("Best now: ") and answer.advice.on == "2026-06-14"
    assert not any(aside.startswith("answered for") for aside in answer.aside)


def test_what_is_taken_of_it_is_planned(bench):
    advice = bench.answer("what should I do in winter").advice
    number = next(n for n, option in enumerate(advice.options, 1) if option.work not in ("leave", "wait"))
    (entry,) = bench.answer(f"take number {number}").logged
    assert (entry.kind, entry.when) == ("plan", "2026-12-01")


def test_what_is_taken_for_today_is_done(bench):
    bench.answer("what now")
    assert [entry.kind for entry in bench.answer("take number 1").logged] == ["done"]
