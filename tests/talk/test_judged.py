"""What is only asked for a judgement on is not seen; a question about what to call it names no tree."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def talk(demo, *statements, tree="Minnow", day="2026-06-20"):
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    return [bench.answer(statement) for statement in statements]


@pytest.mark.parametrize(
    "said", ["too strong?", "healthy?", "strong enough?", "once a week is fine?", "once a week is fine", "mites?",
             "left branch too thick?", "8 mm branch, 3 mm copper, too thick?", "why did you say it is weak",
             "would you call it healthy"],
)  # fmt: skip
def test_a_judgement_asked_for_is_not_seen(demo, said):
    (answer,) = talk(demo, said)
    assert not answer.logged


@pytest.mark.parametrize(
    "said, seen",
    [
        ("strong", ("health", "strong")),
        ("the elm is fine", ("health", "healthy")),
        ("leaves yellow?", ("finding", "yellow-leaves")),
        ("the left branch is too thick, remove it?", ("finding", "too-thick")),
    ],
)
def test_what_is_seen_stays_seen(demo, said, seen):
    (answer,) = talk(demo, said)
    (entry,) = answer.logged
    assert [(fact["kind"], fact["value"]) for fact in entry.facts] == [seen]


def test_soap_is_no_soft_growth(demo):
    (answer,) = talk(demo, "sprayed it with soft soap for aphids")
    (entry,) = answer.logged
    assert [fact["value"] for fact in entry.facts] == ["aphids"]


@pytest.mark.parametrize("said", ["too strong?", "too much?", "too strong"])
def test_behind_work_it_is_asked_of_the_work(demo, said):
    _, answer = talk(demo, "fed it", said)
    assert not answer.logged and answer.says[0].startswith("No: nothing known stood against it")


def test_too_early_asks_whether_it_should_have_waited(demo):
    _, answer = talk(demo, "repotted it", "too early?")
    assert answer.says[0].startswith("Yes, it had better have waited: ")


@pytest.mark.parametrize(
    "said",
    ["how long until I can call it finished", "would you call it healthy", "can I call it done for this year",
     "when would you call it strong", "when can I call it refined", "what would you call it then"],
)  # fmt: skip
def test_a_question_names_no_tree(demo, said):
    first, fed = talk(demo, said, "fed it")
    assert not first.logged
    assert "new" not in first.reading.acts and fed.logged_for == ("Minnow",)


@pytest.mark.parametrize(
    "said, name",
    [("new tree, a beech, call it Lodge", "Lodge"), ("shall we call it Lodge", "Lodge")],
)
def test_a_statement_names_it(demo, said, name):
    (answer,) = talk(demo, said)
    assert "new" in answer.reading.acts and answer.reading.tree == name


def test_a_name_for_the_tree_at_hand_is_asked_about_first(demo):
    (answer,) = talk(demo, "call it Lodge")
    assert answer.confirm and not answer.logged and answer.reading.acts == ("rename",)
