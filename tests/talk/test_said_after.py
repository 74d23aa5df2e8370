"""What is said after something else bears on that: "took it off" behind the wire, "not the elm, the beech" behind work.
A question is never put down as work."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def talk(demo, day, *statements, tree=None):
    """The answers to the statements, in a talk of that day."""
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    return [bench.answer(statement) for statement in statements]


def done(answer):
    """(tree, works) of what was put down as done."""
    pairs = zip(answer.logged_on, answer.logged, strict=True)
    return [(name, [work["work"] for work in entry.work]) for name, entry in pairs if entry.kind == "done"]


def standing(demo, name, day):
    """The works that stand in the record as done on that day."""
    house = House(demo)
    entries = house.entries(house.garden.find(name))
    struck = {entry.strikes for entry in entries if entry.strikes}
    mine = [one for one in entries if one.id not in struck and one.kind == "done" and one.day.isoformat() == day]
    return [work["work"] for entry in mine for work in entry.work]


# ---- the thing that "it" is


@pytest.mark.parametrize(
    "before, said, work",
    [
        ("is the wire ready to come off", "took it off", "unwire"),
        ("is the wire ready to be removed", "took it off", "unwire"),
        ("checked the wire", "took it off", "unwire"),
        ("looked at the wire on the left branch", "cut it off", "unwire"),
        ("what wire is on it", "took it off", "unwire"),
        ("checked the guy", "took it off", "remove-guy"),
    ],
)
def test_it_is_the_thing_that_was_named(demo, before, said, work):
    *_, answer = talk(demo, "2026-07-18", before, said, tree="Old Salt")
    assert done(answer) == [("Old Salt", [work])]


@pytest.mark.parametrize("said", ["is the wire ready to come off", "is the wire ready to be removed"])
def test_the_thing_asked_about_tells_the_work(demo, said):
    (answer,) = talk(demo, "2026-07-18", said, tree="Old Salt")
    assert [work.work for work in answer.reading.work] == ["unwire"]
    assert not answer.reading.missed and not answer.logged


def test_the_thing_named_in_the_same_breath(demo):
    (answer,) = talk(demo, "2026-07-18", "checked the wire, took it off", tree="Old Salt")
    assert done(answer) == [("Old Salt", ["check", "unwire"])]
