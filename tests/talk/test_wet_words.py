"""Wet words that are of a thing tell of no rain."""

import pytest


def _rain(answer):
    return any(fact.kind == "weather" for fact in answer.reading.facts)


@pytest.mark.parametrize(
    "words", ["it's dripping white sap", "it's dripping resin", "how heavy is the pot when it's wet"]
)
def test_what_drips_is_no_rain(bench, words):
    answer = bench.answer(words)
    assert not _rain(answer) and not answer.logged and answer.reading.missed


@pytest.mark.parametrize("words", ["it's dripping out there", "everything is dripping", "it is dripping with rain"])
def test_rain_is_rain(bench, words):
    assert _rain(bench.answer(words))
