"""Work told in the imperative alone is put to the grower where something stands against it; what is told as done, or
where nothing stands against it, goes into the record as said."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def talk(demo):
    def opened(tree, day):
        return Bench(House(demo), dt.date.fromisoformat(day), tree=tree)

    return opened


ORDERS = [
    ("Gatepost", "2026-06-14", "repot it"),
    ("Gatepost", "2026-06-14", "chop the trunk at 120 mm"),
    ("Gatepost", "2026-06-14", "bend it 90 degrees in one go"),
    ("Ratchet", "2026-06-14", "prune the roots hard"),
    ("Sprint", "2026-06-14", "wire the left branch"),
    ("Crag", "2026-04-15", "defoliate the juniper"),
    ("Parchment", "2026-12-15", "feed it"),
    ("Minnow", "2026-06-14", "repot it today"),
]


@pytest.mark.parametrize("tree, day, words", ORDERS)
def test_an_order_that_something_stands_against_is_asked(talk, journal, tree, day, words):
    before = len(journal(tree))
    bench = talk(tree, day)
    answer = bench.answer(words)
    assert answer.confirm and not answer.logged and len(journal(tree)) == before
    assert [entry.kind for entry in bench.answer("yes").logged] == ["done"]


@pytest.mark.parametrize("yes", ["yes", "done", "I did it", "it's done"])
def test_that_it_is_done_is_a_yes(talk, yes):
    bench = talk("Gatepost", "2026-06-14")
    bench.answer("repot it")
    assert [entry.work[0]["work"] for entry in bench.answer(yes).logged] == ["repot"]


@pytest.mark.parametrize("tree, day, words", ORDERS[:2])
def test_a_no_leaves_the_record_as_it_was(talk, journal, tree, day, words):
    before = len(journal(tree))
    bench = talk(tree, day)
    bench.answer(words)
    assert not bench.answer("no").logged and len(journal(tree)) == before


@pytest.mark.parametrize(
    "tree, day, words",
    [
        ("Gatepost", "2026-06-14", "repotted it"),
        ("Gatepost", "2026-06-14", "chopped the trunk at 120 mm"),
        ("Gatepost", "2026-06-14", "repotting it today"),
        ("Gatepost", "2026-06-14", "I'm repotting it"),
        ("Gatepost", "2026-06-14", "put it into a bigger pot"),
        ("Gatepost", "2026-06-14", "cut the roots back by half"),
        ("Gatepost", "2026-06-14", "wire the left branch"),
        ("Sprint", "2026-06-14", "wired the left branch"),
        ("Ratchet", "2026-06-14", "cut the left one back to two leaves"),
        ("Parchment", "2026-12-15", "fed it"),
    ],
)
def test_what_is_told_as_done_or_stands_free_is_logged(talk, tree, day, words):
    answer = talk(tree, day).answer(words)
    assert not answer.confirm and [entry.kind for entry in answer.logged] == ["done"]


def test_a_single_statement_logs_no_such_order_either(demo, journal):
    bench = Bench(House(demo), dt.date(2026, 6, 14), tree="Gatepost", talking=False)
    assert bench.answer("repot it").confirm and not any(
        entry.day == dt.date(2026, 6, 14) for entry in journal("Gatepost")
    )
