"""Young plants from a tree: the work stands in the parent's record, and a record for the new tree is offered."""

import datetime as dt

import pytest

from benchmate.garden import check_garden, open_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)


def told(bench, words):
    return lay(tell(bench.answer(words)), 400)


@pytest.mark.parametrize(
    ("words", "parent", "name", "origin"),
    [
        ("took three cuttings off the ficus", "Harbour", "Harbour cuttings", "cuttings from Harbour"),
        ("took a cutting from Harbour", "Harbour", "Harbour cutting", "cutting from Harbour"),
        ("potted up the air layer from the maple as a new tree", "Gatepost", "Gatepost layer", "layer from Gatepost"),
        ("took the air layer off the maple and potted it up", "Gatepost", "Gatepost layer", "layer from Gatepost"),
        ("separated the layer from the beech", "Parchment", "Parchment layer", "layer from Parchment"),
        ("struck five cuttings from the elm yesterday", "Minnow", "Minnow cuttings", "cuttings from Minnow"),
        ("potted up the rooted cuttings from the elm", "Minnow", "Minnow cuttings", "cuttings from Minnow"),
        ("potted up the layer", "Gatepost", "Gatepost layer", "layer from Gatepost"),
        ("took six cuttings and potted them up", "Gatepost", "Gatepost cuttings", "cuttings from Gatepost"),
    ],
)
def test_the_parent_has_the_work_and_a_yes_begins_the_record(bench, words, parent, name, origin):
    answer = bench.answer(words)
    (entry,) = answer.logged
    day = ON - dt.timedelta(days="yesterday" in words)
    assert (answer.tree, entry.kind, entry.said, entry.day, entry.follow) == (parent, "done", words, day, ())
    assert f"Begin a record for what came of it ({name}," in lay(tell(answer), 400)
    before = len(bench.house.trees())
    assert f"The record of {name} is begun" in told(bench, "yes")
    garden = open_garden(bench.house.folder)
    tree = garden.find(name)
    assert len(garden.trees()) == before + 1
    assert (tree.species, tree.origin, tree.since) == (garden.find(parent).species, origin, ON)
    assert [(one.kind, one.said) for one in garden.entries(tree)] == [("note", words)]
    assert check_garden(bench.house.folder) == []


@pytest.mark.parametrize("words", ["call it Ember", "yes, call it Ember"])
def test_the_new_tree_may_be_named_in_the_answer(bench, words):
    bench.answer("potted up the air layer from the maple as a new tree")
    assert "The record of Ember is begun: Acer campestre, layer from Gatepost" in told(bench, words)
    assert open_garden(bench.house.folder).find("Gatepost").was == ()
    assert bench.context.tree == "Ember"


@pytest.mark.parametrize(("words", "says"), [("no", "No record is begun"), ("watered it", "watered it")])
def test_an_offer_lapses(bench, words, says):
    bench.answer("took three cuttings off the ficus")
    before = len(bench.house.trees())
    answer = told(bench, words)
    assert says in answer and "not logged" not in answer
    assert "is begun" not in told(bench, "yes")
    assert len(open_garden(bench.house.folder).trees()) == before


def test_it_is_asked_which_of_two_is_the_parent(bench):
    bench.answer("new tree, ficus, call it Anchor")
    bench.answer("let's do Crag")
    assert "Which tree: Anchor or Harbour?" in told(bench, "took three cuttings off the ficus")
    assert "Logged for Harbour: done" in told(bench, "Harbour")
    assert "The record of Harbour cuttings is begun" in told(bench, "yes")


def test_a_second_batch_has_a_name_of_its_own(bench):
    for _ in range(2):
        bench.answer("took three cuttings off Harbour")
        bench.answer("yes")
    names = [tree.name for tree in open_garden(bench.house.folder).trees()]
    assert {"Harbour cuttings", "Harbour cuttings 2"} <= set(names)


@pytest.mark.parametrize(
    "words",
    ["took three cuttings off the ficus and wired the beech", "took wire off the cutting", "cut the cuttings back",
     "can I take cuttings off the elm", "didn't take cuttings off the elm", "took cuttings off the rowan",
     "took cuttings off my neighbour's elm", "put a layer on the maple", "air layered the maple"],
)  # fmt: skip
def test_other_words_offer_nothing(bench, words):
    assert "Begin a record for" not in told(bench, words)


def test_a_young_plant_at_hand_is_itself_potted(bench):
    bench.answer("took a cutting from Harbour")
    bench.answer("yes")
    (entry,) = bench.answer("potted up the cutting").logged
    assert [work["work"] for work in entry.work] == ["repot"] and bench.context.tree == "Harbour cutting"


def test_a_single_statement_tells_how(demo):
    bench = Bench(House(demo), ON, talking=False)
    answer = told(bench, "took three cuttings off the ficus")
    assert "Logged for Harbour" in answer and "new tree, call it Harbour cuttings" in answer
