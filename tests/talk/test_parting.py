"""A tree that left the garden: its record is closed after a yes, and nothing is due on it any more."""

import pytest

from benchmate.garden import check_garden, due


def due_on(bench, name):
    return [item for group in due(bench.house.garden, bench.on, 400) if group.tree.name == name for item in group.items]


@pytest.mark.parametrize(
    "words, name, how",
    [
        ("the elm died", "Minnow", "died"),
        ("the elm is dead", "Minnow", "died"),
        ("sold the olive today", "Cellar", "sold"),
        ("I've sold it", "Gatepost", "sold"),
        ("gave it away", "Gatepost", "given"),
        ("sold the elm to a friend", "Minnow", "sold"),
        ("forget about Minnow, it died", "Minnow", "died"),
        ("gave it to my neighbour", "Gatepost", "given"),
        ("sold the elm at the club auction", "Minnow", "sold"),
    ],
)
def test_the_record_is_closed_after_a_yes(bench, journal, words, name, how):
    bench.turn_to(name)
    bench.answer("remind me to feed it on 1 July")
    bench.turn_to("Gatepost")
    asked = bench.answer(words)
    assert asked.confirm.startswith(f"Close the record of {name} ({how})") and not asked.logged and not asked.advice
    assert due_on(bench, name)
    answer = bench.answer("yes")
    assert answer.says[0] == f"The record of {name} is closed: nothing is due on it any more"
    assert (journal(name)[-1].ends, journal(name)[-1].said) == (how, words)
    assert due_on(bench, name) == [] and check_garden(bench.house.folder) == []


def test_a_no_leaves_all_as_it_was(bench, journal):
    before = journal("Minnow")
    bench.answer("the elm died")
    assert not bench.answer("no").logged and journal("Minnow") == before


def test_taken_back_it_is_open_again(bench):
    bench.turn_to("Gatepost")
    bench.answer("remind me to feed it on 1 July")
    bench.answer("sold it")
    bench.answer("yes")
    bench.answer("scratch that")
    assert due_on(bench, "Gatepost")


def test_a_branch_that_was_spoken_of_is_no_tree(bench):
    bench.answer("the low left branch is weak")
    assert bench.answer("it's dead").confirm is None


@pytest.mark.parametrize(
    "words", ["the top died", "the low left branch is dead", "the apex died back", "is it dead", "a friend's elm died"]
)
def test_a_part_a_question_or_another_grower_s_tree_closes_nothing(bench, words):
    confirm = bench.answer(words).confirm
    assert confirm is None or "Close the record" not in confirm
