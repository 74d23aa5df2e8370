"""What is asked of the tree at hand alone, and what was put down on a day."""

import pytest


@pytest.mark.parametrize(
    "words", ["what's left to do on it", "what's due on this one", "what's left to do on it this month"]
)
def test_what_is_due_on_it_is_due_on_the_tree_at_hand(bench, words):
    bench.turn_to("Ratchet")
    answer = bench.answer(words)
    assert {group["tree"] for group in answer.found} == {"Ratchet"}


@pytest.mark.parametrize("words", ["what's due", "what needs doing this week"])
def test_what_is_due_is_asked_of_all_trees(bench, words):
    bench.turn_to("Ratchet")
    assert len(bench.answer(words).found) > 1


@pytest.mark.parametrize(
    "words", ["what did you write down today", "what have you logged today", "what was noted today"]
)
def test_what_was_put_down_today_is_told_and_not_noted(bench, words):
    for statement in ("fed it", "repotted it in March", "wired the beech"):
        bench.answer(statement)
    answer = bench.answer(words)
    assert not answer.logged
    assert answer.says[0] == "The record holds 2 entries on 14 June, newest first"
    assert answer.says[-1] == "Put down today, Gatepost, of 31 March 2026: done: repotted it, March 2026"
