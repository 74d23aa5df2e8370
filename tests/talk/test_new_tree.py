"""A tree's record begun in one statement."""

import datetime as dt

import pytest

from benchmate.garden import check_garden, open_garden
from benchmate.talk.trees.naming import origin_said
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)


def test_one_statement_makes_the_tree_with_its_kind_name_and_origin(empty_bench):
    answer = empty_bench.answer("new tree, field maple from a hedge, call it Gatepost")
    folder = empty_bench.house.folder
    (tree,) = open_garden(folder).trees()
    assert (tree.name, tree.species, tree.origin, tree.since) == ("Gatepost", "Acer campestre", "hedge", ON)
    (entry,) = open_garden(folder).entries(tree)
    assert (entry.kind, entry.said) == ("note", "new tree, field maple from a hedge, call it Gatepost")
    assert "The record of Gatepost is begun: Acer campestre, hedge" in lay(tell(answer))
    assert check_garden(folder) == []
    empty_bench.answer("wired the low branch on the left")
    assert [table["work"] for table in open_garden(folder).entries(tree)[-1].work] == ["wire"]


@pytest.mark.parametrize(
    "words, origin",
    [
        ("new tree, field maple from a hedge, call it Gatepost", "hedge"),
        ("new tree, beech out of the old nursery bed and call it Anvil", "old nursery bed"),
        ("new tree, hawthorn dug from a hedge, call it Thorn", "dug from a hedge"),
        ("new tree, larch, call it Slate, grown from seed", "grown from seed"),
        ("new tree, larch, call it Slate", None),
        ("new tree, larch from 2019, call it Slate", None),
    ],
)
def test_where_it_comes_from(words, origin):
    assert origin_said(words) == origin


# ---- a tree that is named after it was spoken of


def record(bench, name):
    garden = open_garden(bench.house.folder)
    tree = garden.find(name)
    return tree, [(one.kind, [work["work"] for work in one.work], one.day) for one in garden.entries(tree)]


def test_what_was_said_of_a_tree_goes_into_its_record_when_it_is_named(empty_bench):
    empty_bench.answer("dug a big hawthorn out of an old hedge yesterday, trunk 90 mm")
    answer = empty_bench.answer("call it Ditch")
    tree, entries = record(empty_bench, "Ditch")
    assert (tree.species, tree.origin) == ("Crataegus", "old hedge")
    assert entries == [("done", ["collect"], ON - dt.timedelta(days=1))]
    (entry,) = answer.logged
    assert entry.measures["diameter_mm"] == 90 and entry.follow
    assert check_garden(empty_bench.house.folder) == []


def test_several_statements_and_what_is_seen_go_with_it(empty_bench):
    for words in ("bought a japanese maple yesterday", "it's leafing out", "watered it", "call it Ember"):
        answer = empty_bench.answer(words)
    tree, entries = record(empty_bench, "Ember")
    assert tree.species == "Acer palmatum"
    assert [(kind, works) for kind, works, _ in entries] == [("seen", []), ("done", ["water"])]
    assert answer.logged[0].facts[0]["value"] == "leafing-out"


def test_what_was_told_of_another_kind_or_tree_stays_out(empty_bench):
    empty_bench.answer("wired the larch")
    empty_bench.answer("new tree, beech, call it Anvil")
    assert record(empty_bench, "Anvil")[1][0][0] == "note"
    empty_bench.answer("fed it")
    empty_bench.answer("new tree, call it Slate")
    tree, entries = record(empty_bench, "Slate")
    assert tree.species is None and [kind for kind, _, _ in entries] == ["note"]


def test_what_waited_for_a_name_is_not_said_to_be_lost(bench):
    bench.context = type(bench.context)()
    assert bench.answer("fed it").asks
    answer = bench.answer("call it Slate")
    assert [entry.kind for entry in answer.logged] == ["done"]
    assert not any("not logged" in aside for aside in answer.aside)


@pytest.mark.parametrize(
    "words, measures",
    [
        ("new tree: an olive, 12 cm base, called Boulder", {"diameter_mm": 120.0}),
        ("new tree: an olive dug from a garden in august, 12 cm base, called Boulder", {"diameter_mm": 120.0}),
        ("new tree, olive, 45 cm tall, call it Boulder", {"height_mm": 450.0}),
    ],
)
def test_what_was_measured_on_a_new_tree_is_kept(empty_bench, words, measures):
    empty_bench.answer(words)
    garden = open_garden(empty_bench.house.folder)
    assert measures in [dict(one.measures) for one in garden.entries(garden.find("Boulder"))]


def test_trees_that_are_not_here_are_told_with_how_to_begin_them(empty_bench):
    answer = empty_bench.answer("I have three trees: an oak, a larch and a privet")
    assert "say: new tree, Quercus, call it" in lay(tell(answer))
    empty_bench.answer("new tree, Quercus, call it Slate")
    assert [tree.species for tree in open_garden(empty_bench.house.folder).trees()] == ["Quercus"]


def _begun_without_a_kind(talk):
    assert any("kind is not told" in words for words in talk.answer("new tree, flurb, call it Odd").aside)
    return talk.house.garden.find("Odd")


@pytest.mark.parametrize("words", ["Odd is a ficus", "it is a ficus", "it's a ficus"])
def test_a_kind_told_later_goes_into_the_trees_file_after_a_yes(empty_bench, words):
    talk = empty_bench
    _begun_without_a_kind(talk)
    assert "Ficus" in talk.answer(words).confirm and talk.house.garden.find("Odd").species is None
    answer = talk.answer("yes")
    assert talk.house.garden.find("Odd").species == "Ficus" and answer.logged
