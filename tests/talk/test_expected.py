"""What a grower foretells is kept in the record as his expectation, and is no fact to any rule."""

import datetime as dt

import pytest

from benchmate.garden import check_garden, open_garden
from benchmate.practice import gather
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)


def told(bench, words):
    return lay(tell(bench.answer(words)), 300)


@pytest.mark.parametrize(
    "words",
    [
        "it will get its second flush in July",
        "the wire will bite by June",
        "it'll bloom in May",
        "the buds will break in two weeks",
        "the roots will fill the pot by autumn",
        "it should flush again by August",
        "it is going to drop its leaves in October",
        "it might get scorched in July",
        "I expect it to back bud by July",
        "expect the second flush in July",
        "hopefully it flowers in May",
        "the wound will close by next year",
    ],
)
def test_it_is_kept_told_and_no_fact(bench, words):
    house = bench.house
    tree = house.garden.find("Gatepost")
    known = gather(house.hear("what now", ON), tree, house.entries(tree), house.place, ON, house.book)
    answer = bench.answer(words)
    (entry,) = answer.logged
    assert (entry.kind, entry.said, entry.expects, entry.facts, entry.day) == ("note", words, words, (), ON)
    shown = lay(tell(answer), 300)
    assert f"Logged for Gatepost: expected, not seen: {words}" in shown and "Not taken in" not in shown
    assert gather(house.hear("what now", ON), tree, house.entries(tree), house.place, ON, house.book) == known
    assert f"expected, not seen: {words}" in told(bench, "show me the record of Gatepost")
    assert check_garden(house.folder) == []


@pytest.mark.parametrize(
    ("words", "expects", "others"),
    [
        ("wired it, it will bite by July", "it will bite by July", ["done"]),
        ("the wire will bite by July, remind me to check it on 1 July", "the wire will bite by July", ["plan"]),
    ],
)
def test_what_is_told_beside_it_stands(bench, words, expects, others):
    logged = bench.answer(words).logged
    assert [entry.expects for entry in logged if entry.expects] == [expects]
    assert [entry.kind for entry in logged if not entry.expects] == others


def test_it_is_kept_for_the_tree_that_is_named(bench):
    answer = bench.answer("the larch will flush again in July")
    assert answer.tree == "Sprint" and "Taken as Sprint" in lay(tell(answer), 300)
    garden = open_garden(bench.house.folder)
    assert garden.entries(garden.find("Sprint"))[-1].expects == answer.reading.said


def test_it_is_asked_of_which_tree(demo):
    bench = Bench(House(demo), ON)
    answer = bench.answer("it will get its second flush in July")
    assert not answer.logged and any(ask.fact == "tree" for ask in answer.asks)
    (entry,) = bench.answer("Crag").logged
    assert entry.expects and bench.context.tree == "Crag"


def test_it_is_taken_back(bench):
    (entry,) = bench.answer("the wire will bite by June").logged
    (struck,) = bench.answer("scratch that").logged
    assert struck.strikes == entry.id


@pytest.mark.parametrize(
    "words",
    ["will it flush again in July?", "will it flush again in July", "I will wire it in July",
     "should I wire it in July", "the bus will be late tomorrow", "it is dormant",
     "my neighbour's elm will flush in July", "I hope so"],
)  # fmt: skip
def test_other_words_foretell_nothing(bench, words):
    assert not any(entry.expects for entry in bench.answer(words).logged)
