"""Questions over the demo garden: which trees, how often, what was done. What is right is read from its files here."""

import datetime as dt
import tomllib

import pytest
from conftest import DEMO

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)
TREES = {}
for path in sorted(DEMO.glob("*/tree.toml")):
    about = tomllib.loads(path.read_text(encoding="utf-8"))
    entries = tomllib.loads((path.parent / "journal.toml").read_text(encoding="utf-8"))["entry"]
    struck = {entry.get("strikes") for entry in entries}
    TREES[about["name"]] = (about, [entry for entry in entries if entry["id"] not in struck and entry["at"] <= ON])


def days_of(name, work):
    """The days on which a work was done on a tree."""
    _, entries = TREES[name]
    tables = [(entry["at"], table) for entry in entries if entry["kind"] == "done" for table in entry.get("work", ())]
    return [day for day, table in tables if table["work"] == work]


def wired():
    """Trees with more places wired than were unwired since; a wire taken off everywhere ends all."""
    found = []
    for name, (_, entries) in TREES.items():
        on = set()
        for entry in entries:
            for table in entry.get("work", ()) if entry["kind"] == "done" else ():
                place = tuple(table.get(key) for key in ("side", "level"))
                if table["work"] == "wire":
                    on.add(place)
                elif table["work"] == "unwire":
                    on = {one for one in on if any(place) and one != place}
        found += [name] if on else []
    return found


def health(name):
    about, entries = TREES[name]
    told = [fact["value"] for entry in entries for fact in entry.get("facts", ()) if fact["kind"] == "health"]
    return told[-1] if told else about.get("health")


@pytest.fixture
def ask(demo):
    bench = Bench(House(demo), ON)

    def ask(*statements):
        for statement in statements:
            answer = bench.answer(statement)
        return answer

    ask.bench = bench
    return ask


SPRING = (dt.date(2026, 3, 1), dt.date(2026, 5, 31))
COLLECTIONS = {
    "which trees are wired": wired(),
    "what was repotted this spring": [
        name for name in TREES if any(SPRING[0] <= day <= SPRING[1] for day in days_of(name, "repot"))
    ],
    "which ones are weak": [name for name in TREES if health(name) == "weak"],
    "list the junipers": [name for name, (about, _) in TREES.items() if about["species"].startswith("Juniperus")],
    "which trees were fed this spring": [
        name for name in TREES if any(SPRING[0] <= day <= SPRING[1] for day in days_of(name, "feed"))
    ],
}


@pytest.mark.parametrize("statement", COLLECTIONS)
def test_the_trees_asked_for(ask, statement):
    wanted = COLLECTIONS[statement]
    answer = ask(statement)
    assert wanted and sorted(row["tree"] for row in answer.found) == sorted(wanted)
    assert f"{len(wanted)} tree{'s' if len(wanted) > 1 else ''}" in answer.says[0]
    assert all(name in answer.says[0] for name in wanted)
    assert not answer.logged


def test_none_is_an_answer(ask):
    answer = ask("list the camellias")
    assert answer.found == () and answer.says[0].startswith("No tree here")


@pytest.mark.parametrize("name", [name for name in TREES if days_of(name, "leaf-cut")])
def test_how_often_a_work_was_done(ask, name):
    days = days_of(name, "leaf-cut")
    answer = ask(f"let's do {name}", "how often have I leaf-cut it")
    assert len(answer.says) == 1 + len(days)
    last = f"{max(days).day} {max(days):%B %Y}"
    assert last in answer.says[0] and ("You halved the leaves on" in answer.says[0]) == (len(days) == 1)


@pytest.mark.parametrize("name", TREES)
def test_what_was_done_last_summer(ask, name):
    _, entries = TREES[name]
    days = [entry["at"] for entry in entries if dt.date(2025, 6, 1) <= entry["at"] <= dt.date(2025, 8, 31)]
    days = [entry["at"] for entry in entries if entry["at"] in days and entry["kind"] != "struck"]
    answer = ask(f"let's do {name}", "what did I do to it last summer")
    if not days:
        assert answer.says == (f"The record holds nothing for {name} in summer 2025",)
        return
    assert answer.says[0].startswith(f"The record holds {len(days)} ")
    told = [line.partition(":")[0] for line in answer.says[1:]]
    assert told == [f"{day.day} {day:%B %Y}" for day in sorted(days, reverse=True)]


@pytest.mark.parametrize(("work", "done"), [("feed", "fed"), ("repot", "repotted"), ("wire", "wired")])
@pytest.mark.parametrize(
    ("since", "start"), [("since 2024", dt.date(2024, 1, 1)), ("since last June", dt.date(2025, 6, 1))]
)
def test_what_was_not_done_since_then(ask, work, done, since, start):
    answer = ask(f"which trees haven't been {done} {since}")
    lacking = {name for name in TREES if not any(start <= day <= ON for day in days_of(name, work))}
    assert {row["tree"] for row in answer.found} == lacking


def test_a_state_with_a_time_asks_for_the_work(ask):
    wired = {
        name for name in TREES if any(dt.date(2025, 9, 1) <= d <= dt.date(2025, 11, 30) for d in days_of(name, "wire"))
    }
    assert wired and {row["tree"] for row in ask("which trees were wired last autumn").found} == wired


def test_since_a_month_runs_up_to_today(ask):
    start = dt.date(2026, 3, 1)
    for name, (_, entries) in TREES.items():
        days = [entry["at"] for entry in entries if entry["at"] >= start and entry["kind"] != "struck"]
        says = ask(f"let's do {name}", "what have I done to it since March").says
        assert says[0].startswith(f"The record holds {len(days) or 'nothing'} ")


# ---- the tree at hand stays, or it is said that it does not


@pytest.mark.parametrize(
    "statement", ["list the junipers", "which pines are wired", "what's due?", "which ones are weak"]
)
def test_a_question_over_the_garden_leaves_the_tree_at_hand(ask, statement):
    answer = ask("let's do Gatepost", statement)
    assert ask.bench.context.tree == "Gatepost" and not any("at hand" in words for words in answer.aside)


@pytest.mark.parametrize(
    "statement", ["can I wire Crag?", "when did I last repot Crag?", "fed Crag", "can I wire the juniper?"]
)
def test_another_tree_named_is_at_hand_and_that_is_said(ask, statement):
    answer = ask("let's do Gatepost", statement)
    assert ask.bench.context.tree == "Crag"
    assert "Crag is at hand now, not Gatepost." in lay(tell(answer))


def test_turning_to_a_tree_says_no_more(ask):
    assert ask("let's do Gatepost", "let's do Crag").aside == ()
