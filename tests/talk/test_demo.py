"""The demo garden: what is written in it is what its words say, and it shows every kind of answer."""

import datetime as dt

import pytest
from conftest import DEMO

from benchmate.garden import check_garden
from benchmate.talk.bench import Bench
from benchmate.talk.decide import entries_of
from benchmate.talk.house import House

HOUSE = House(DEMO)
ENTRIES = [
    pytest.param(entry, id=f"{tree.name} {entry.day} {entry.said}")
    for tree in HOUSE.trees()
    for entry in HOUSE.entries(tree)
]


@pytest.mark.parametrize("entry", ENTRIES)
def test_an_entry_is_what_its_words_say(entry):
    reading = HOUSE.hear(entry.said if entry.kind != "note" else f"note: {entry.said}", entry.day)
    (made,) = entries_of(reading, None, entry.day)
    assert not reading.missed and not reading.guessed
    assert (made.kind, made.day, list(made.work), list(made.facts), dict(made.measures)) == (
        entry.kind,
        entry.day,
        [dict(table) for table in entry.work],
        [dict(table) for table in entry.facts],
        dict(entry.measures),
    )


def test_the_demo_garden_has_no_fault():
    assert check_garden(DEMO) == []


def test_the_demo_garden_lies_in_years_and_kinds():
    trees = HOUSE.trees()
    assert len(trees) >= 8 and len({str(tree.species).split()[0] for tree in trees}) >= 8
    kinds = {entry.kind for tree in trees for entry in HOUSE.entries(tree)}
    assert {"done", "seen", "left", "plan", "note"} <= kinds


@pytest.mark.parametrize(
    "tree, statement, work, verdict",
    [
        ("Ratchet", "can I halve the leaves?", "leaf-cut", "go"),
        ("Sprint", "can I halve the leaves?", "leaf-cut", "avoid"),
        ("Bristle", "can I wire the branches?", "wire", "hold"),
        ("Minnow", "can I cut it back hard?", "shorten", "hold"),
        ("Old Salt", "can I wire the high branch on the left?", "wire", "hold"),
        ("Parchment", "can I defoliate it?", "defoliate", "avoid"),
        ("Crag", "the wire is biting on the right branch, what now?", "unwire", "go"),
        ("Cellar", "minus 9 C tonight, should I shelter it?", "shelter", "go"),
        ("Harbour", "can I shorten the shoots?", "shorten", "go"),
    ],
)
def test_it_shows_every_kind_of_answer(tree, statement, work, verdict):
    answer = Bench(House(DEMO), dt.date(2026, 6, 14), tree=tree, dry=True).answer(statement)
    verdicts = {option.work: option.verdict for option in answer.advice.options}
    assert verdicts.get(work) == verdict, verdicts


def test_something_is_overdue_something_is_due_and_something_lies_ahead():
    from benchmate.garden import due

    items = [item for group in due(HOUSE.garden, dt.date(2026, 6, 14), 400) for item in group.items]
    assert any(item.overdue for item in items)
    assert any(0 <= item.days_left <= 14 for item in items) and any(item.days_left > 60 for item in items)
