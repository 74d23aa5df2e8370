"""What waits for a yes: what is said against one's own decision, and what is told where the yes does not come."""

import pytest


def kinds(answer):
    return [entry.kind for entry in answer.logged]


# ---- against one's own decision


@pytest.mark.parametrize(
    "decided, said",
    [
        ("don't let me cut the low left branch before spring", "cut the low left branch"),
        ("don't let me cut the left branch before spring", "cut the low left branch"),
        ("leave the left branch alone until spring", "cut the left branch"),
        ("I won't repot it before September", "repot it"),
    ],
)
def test_the_decision_is_recalled_and_asked_about_first(bench, decided, said):
    bench.answer(decided)
    answer = bench.answer(said)
    assert answer.confirm.startswith("You decided") and decided in answer.confirm and not answer.logged
    assert "done" in kinds(bench.answer("yes"))


@pytest.mark.parametrize(
    "decided, said",
    [
        ("don't let me cut the low left branch before spring", "cut the right branch"),
        ("don't let me cut the low left branch before spring", "wire the low left branch"),
        ("I won't feed it in July", "fed it"),
        ("leave it alone", "fed it"),
    ],
)
def test_what_was_not_decided_against_is_logged(bench, decided, said):
    bench.answer(decided)
    answer = bench.answer(said)
    assert answer.confirm is None and "done" in kinds(answer)


def test_what_is_done_already_is_logged_with_a_reminder(bench):
    bench.answer("don't let me cut the low left branch before spring")
    answer = bench.answer("I have removed the low left branch")
    assert "done" in kinds(answer) and answer.aside[0].startswith("You decided not to remove the low left branch")


def test_a_plan_behind_the_time_that_was_named_is_no_breach(bench):
    bench.answer("I won't repot it before spring")
    assert bench.answer("repot it in April").aside == ()


# ---- the yes that does not come


@pytest.mark.parametrize("words", ["fed it", "can I wire it"])
def test_what_is_dropped_is_said_to_be_dropped(bench, words):
    assert bench.answer("repoted it today").confirm
    assert 'not logged, since it was not answered: "repoted it today"' in bench.answer(words).aside


@pytest.mark.parametrize("words", ["yes", "no"])
def test_what_is_answered_is_not_dropped(bench, words):
    bench.answer("repoted it today")
    assert not any("not answered" in aside for aside in bench.answer(words).aside)
    assert not any("not answered" in aside for aside in bench.answer("fed it").aside)


def test_words_for_the_talk_itself_drop_nothing(bench):
    bench.answer("repoted it today")
    assert not any("not answered" in aside for aside in bench.answer("what can I say").aside)
    assert kinds(bench.answer("yes")) == ["done"]


def test_an_entry_that_is_not_taken_back_after_all_is_said_to_stand(bench):
    bench.turn_to("Cellar")
    bench.answer("scratch that")
    assert 'not taken back, since it was not answered: "scratch that"' in bench.answer("fed it").aside
