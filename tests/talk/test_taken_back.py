"""What is taken back by its name: a work, or one of several trees; nothing of it is put down again."""

import pytest


def stands(bench, names=("Gatepost", "Minnow", "Parchment", "Ratchet", "Cellar")):
    """(tree, work) of what this talk put down and still stands."""
    house = bench.house
    return [
        (name, work["work"])
        for name in names
        for entry in house.lately_standing(house.garden.find(name))
        if entry.id in bench.written and entry.kind == "done"
        for work in entry.work
    ]


@pytest.mark.parametrize(
    "words",
    [
        "forget the last feed, I did not do it",
        "scratch the last feed",
        "delete the feed entry",
        "undo the feed",
        "sorry, undo the feed",
        "no, scratch the last feed",
        "take back the last feed",
    ],
)
@pytest.mark.parametrize("between", [[], ["wired the left branch"]])
def test_a_work_is_taken_back_by_its_name(bench, words, between):
    bench.answer("fed it")
    for said in between:
        bench.answer(said)
    answer = bench.answer(words)
    assert answer.says[0] == "Taken back for Gatepost: done: fed it."
    assert stands(bench) == [("Gatepost", "wire")] * len(between)


def test_what_the_entry_tells_beside_it_stands(bench):
    bench.answer("fed it and wired the left branch")
    bench.answer("scratch the feed")
    assert stands(bench) == [("Gatepost", "wire")]


def test_it_is_taken_back_on_all_the_trees_of_the_last_statement(bench):
    bench.answer("fed the beech and the elm")
    bench.answer("scratch the last feed")
    assert stands(bench) == []


def test_older_work_is_taken_back_only_after_a_yes(bench):
    answer = bench.answer("take back the last feed")
    assert answer.confirm and not answer.logged
    assert [entry.kind for entry in bench.answer("yes").logged] == ["struck"]


def test_work_that_was_never_done_leaves_the_record_alone(bench):
    answer = bench.answer("fed it") and bench.answer("scratch the last grafting")
    assert not answer.logged and stands(bench) == [("Gatepost", "feed")]


def test_work_on_a_thing_takes_nothing_back(bench):
    bench.answer("fed it")
    bench.answer("scrap the old wire")
    assert ("Gatepost", "feed") in stands(bench)


@pytest.mark.parametrize(
    "words",
    ["not the maple", "no, not Gatepost", "but not the maple", "except the maple", "sorry, I did not do the maple"],
)
def test_a_tree_that_was_not_meant_is_taken_out_of_several(bench, words):
    bench.answer("fed the beech, hornbeam and maple tonight")
    bench.answer(words)
    assert stands(bench) == [("Parchment", "feed"), ("Ratchet", "feed")]


@pytest.mark.parametrize("first", ["fed the beech and the hornbeam", "fed the maple"])
def test_a_tree_that_leaves_nothing_or_was_not_among_them_is_asked_about(bench, first):
    bench.answer(first)
    before = stands(bench)
    answer = bench.answer("not the maple")
    assert answer.asks and not answer.logged and stands(bench) == before
