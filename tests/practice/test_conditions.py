"""A rule's words become tests: clauses, alternatives, denials, names; what does not read whole is told."""

from __future__ import annotations

import pytest
from practice_ear import hear_by_hand

from benchmate.hearing.reading import Fact, Reading, Work
from benchmate.practice.condition import Claim, read_condition

NAMES = {"wire biting": ("finding", "wire-biting"), "lime sulphur": ("means", "lime-sulphur")}


def told(words: str, hear=hear_by_hand) -> list[list[list[str]]]:
    condition, wrong = read_condition(words, hear, NAMES)
    assert wrong == []
    return [[[test.words for test in tests] for tests in clause] for clause in condition]


CONDITIONS = {
    "weak tree": [[["weak"]]],
    "weak or recovering tree": [[["weak"], ["recovering"]]],
    "strong tree, hardened": [[["strong"]], [["hardened"]]],
    "not weak, no dead branch": [[["not weak"]], [["not dead branch"]]],
    "conifer, not yew": [[["conifer"]], [["not Taxus"]]],
    "wire biting": [[["wire biting"]]],
    "no wire biting": [[["not wire biting"]]],
    "not a wire biting or lime sulphur": [[["not wire biting"], ["lime sulphur"]]],
    "first or second flush": [[["flush 1"], ["flush 2"]]],
    "repotted this season": [[["repot this season"]]],
}


@pytest.mark.parametrize("words", CONDITIONS)
def test_a_condition_reads(words):
    assert told(words) == CONDITIONS[words]


@pytest.mark.parametrize(
    ("words", "problem"),
    [
        ("purple tree", "cannot be read"),
        ("weak tree,, strong tree", "an empty clause"),
        ("weak tree or purple", "cannot be read"),
    ],
)
def test_what_does_not_read_whole_is_told(words, problem):
    _, wrong = read_condition(words, hear_by_hand)
    assert any(problem in line for line in wrong), wrong


def one(**reading) -> object:
    return lambda words: Reading(words, ("observe",), **reading)


@pytest.mark.parametrize(
    ("reading", "problem"),
    [
        ({"work": (Work("wire", done="now"),)}, "reads as work to be done"),
        ({"facts": (Fact("event", "repot", when="2001-03"),)}, "days go into `within`"),
        ({"facts": (Fact("health", "weak"),), "measures": {"diameter_mm": 8.0}}, "measures go into `limits`"),
        ({}, "states nothing"),
    ],
)
def test_what_is_no_condition_is_told_with_its_place(reading, problem):
    _, wrong = read_condition("some words", one(**reading))
    assert len(wrong) == 1 and problem in wrong[0]


def test_work_that_was_done_is_an_event():
    done = one(work=(Work("repot", done="done"),), when="2001")
    assert told("repotted this season", done) == [[["repot this season"]]]


def test_a_denial_that_the_ear_drops_is_not_lost():
    deaf = one(facts=(Fact("species", "Taxus"),))
    assert told("not yew", deaf) == [[["not Taxus"]]]


def test_a_name_that_begins_with_no_is_no_denial():
    def hear(words: str) -> Reading:
        value = "leaf-removal:none" if words.startswith("no ") else "leaf-removal:full"
        return Reading(words, ("observe",), facts=(Fact("trait", value),))

    assert told("no leaf removal", hear) == [[["leaf removal none"]]]


def test_a_test_survives_plain_data():
    for condition in CONDITIONS:
        for clause in read_condition(condition, hear_by_hand, NAMES)[0]:
            for tests in clause:
                assert [Claim.from_plain(test.as_plain()) for test in tests] == list(tests)
