"""Completion from the garden's trees and the lexicon's words."""

import pytest

from benchmate.talk.complete import complete, phrases_of

PHRASES = phrases_of(
    ["Gatepost", "Old Salt"],
    ["hornbeam", "Japanese maple", "Japanese larch"],
    ["halve the leaves", "repot", "root prune"],
    ["what can I say"],
)


@pytest.mark.parametrize(
    "before, words, length",
    [
        ("ga", ["Gatepost"], 2),
        ("GA", ["Gatepost"], 2),
        ("wire the ga", ["Gatepost"], 2),
        ("old s", ["Old Salt"], 5),
        ("the jap", ["Japanese larch", "Japanese maple"], 3),
        ("my japanese m", ["Japanese maple"], 10),
        ("ho", ["hornbeam"], 2),
        ("what ca", ["what can I say"], 7),
    ],
)
def test_completes_the_phrase_that_was_begun(before, words, length):
    found = complete(before, PHRASES)
    assert [one.words for one in found][: len(words)] == words
    assert found[0].length == length


@pytest.mark.parametrize("before", ["", " ", "h", "gatepost", "zzz", "halve "])
def test_nothing_to_complete(before):
    assert complete(before, PHRASES) == []


def test_the_garden_s_own_trees_come_first():
    phrases = phrases_of(["Rooster"], ["rowan"], ["root prune"], ["rock"])
    assert complete("ro", phrases)[0].words == "Rooster"
