"""A tree is given another name: told, added to the record, the old name still finding it."""

import datetime as dt
import tomllib

import pytest

from benchmate.fault import UserError
from benchmate.garden import check_garden, open_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)


def told(bench, words):
    return lay(tell(bench.answer(words)), 300)


@pytest.mark.parametrize(
    ("words", "old", "new"),
    [
        ("call the larch Copper from now on", "Sprint", "Copper"),
        ("call the larch Copper from now on, please", "Sprint", "Copper"),
        ("rename Sprint to Ember", "Sprint", "Ember"),
        ("rename it to Bar Gate please", "Gatepost", "Bar Gate"),
        ("rename this one Anvil", "Gatepost", "Anvil"),
        ("Sprint is now called Copper Kettle", "Sprint", "Copper Kettle"),
        ("the larch's name is Copper now", "Sprint", "Copper"),
        ("let's call the Chinese elm Old Mill", "Minnow", "Old Mill"),
        ("call Old Salt Brine", "Old Salt", "Brine"),
        ("change Sprint's name to Cinder", "Sprint", "Cinder"),
        ("I renamed Sprint to clinker", "Sprint", "clinker"),
        ("new name for the larch: Flint", "Sprint", "Flint"),
        ("I'd like to rename the beech to Letter", "Parchment", "Letter"),
    ],
)
def test_a_new_name_is_taken_and_told(bench, words, old, new):
    answer = bench.answer(words)
    assert f"{old} is called {new} from now on" in lay(tell(answer), 300)
    garden = open_garden(bench.house.folder)
    tree = garden.find(new)
    assert (tree.name, tree.was) == (new, (old,)) and garden.find(old) == tree
    assert [(entry.kind, entry.named, entry.said) for entry in answer.logged] == [("note", new, words)]
    assert bench.context.tree == new
    assert check_garden(bench.house.folder) == []


@pytest.mark.parametrize(
    "words",
    ["call the larch weak", "rename it", "rename Nobody to Copper", "rename Sprint to ../x", "call off the repot of it",
     "what do you call it when bark lifts", "can I rename the larch"],
)  # fmt: skip
def test_other_words_rename_nothing(bench, words):
    names = [tree.name for tree in bench.house.trees()]
    bench.answer(words)
    assert [tree.name for tree in open_garden(bench.house.folder).trees()] == names


def test_nothing_that_stands_is_rewritten(bench):
    files = [bench.house.folder / "sprint" / name for name in ("tree.toml", "journal.toml")]
    before = [file.read_bytes() for file in files]
    bench.answer("rename Sprint to Copper")
    bench.answer("rename Copper to Ember")
    after = [file.read_bytes() for file in files]
    assert all(new.startswith(old) and new != old for old, new in zip(before, after, strict=True))
    table = tomllib.loads(after[0].decode())
    assert table["name"] == "Sprint" and [row["name"] for row in table["renamed"]] == ["Copper", "Ember"]
    tree = open_garden(bench.house.folder).find("Sprint")
    assert (tree.name, tree.was) == ("Ember", ("Sprint", "Copper"))


def test_the_old_name_is_heard_and_the_new_one_told(bench):
    bench.answer("rename Sprint to Copper")
    bench.answer("let's do Gatepost")
    answer = bench.answer("watered Sprint")
    assert answer.tree == "Copper" and "Sprint is called Copper now" in lay(tell(answer), 300)
    assert "Copper: once Sprint, Larix decidua" in told(bench, "let's do the larch")
    again = House(bench.house.folder)  # another process, from what is kept of the files
    assert Bench(again, ON).answer("when did I last water Sprint").tree == "Copper"


def test_it_is_taken_back(bench):
    bench.answer("rename Sprint to Copper")
    assert "Copper is called Sprint again" in told(bench, "scratch that")
    tree = open_garden(bench.house.folder).find("Sprint")
    assert (tree.name, tree.was) == ("Sprint", ())
    bench.answer("rename Crag to Copper")
    assert open_garden(bench.house.folder).find("Copper").folder == "crag"
    later = Bench(House(bench.house.folder), ON, tree="Copper", talking=False)
    later.answer("scratch that")
    assert open_garden(bench.house.folder).find("crag").name == "Crag"


@pytest.mark.parametrize("words", ["rename Crag to Minnow", "rename Crag to Sprint", "rename Crag to crag"])
def test_a_name_that_is_taken_is_refused(bench, words):
    bench.answer("rename Sprint to Copper")
    if words.endswith("crag"):  # a change of letters alone is a new name
        assert "is called crag from now on" in told(bench, words)
        return
    with pytest.raises(UserError, match="choose another name"):
        bench.answer(words)
    assert open_garden(bench.house.folder).find("Crag").was == ()


def test_call_it_asks_where_a_tree_is_at_hand(bench):
    assert "Rename Gatepost to Slate?" in told(bench, "call it Slate")
    assert open_garden(bench.house.folder).find("Gatepost").was == ()
    assert "Gatepost is called Slate from now on" in told(bench, "yes")
    bench.answer("new tree, beech, call it Anvil")
    assert open_garden(bench.house.folder).find("Anvil").species == "Fagus"


def test_a_dry_talk_renames_nothing(demo):
    bench = Bench(House(demo), ON, dry=True)
    assert "Would rename Sprint to Copper" in told(bench, "rename Sprint to Copper")
    assert open_garden(demo).find("Sprint").was == ()
