"""Care that is to be more or less from now on is a resolve, and no care that was given."""

import pytest


@pytest.mark.parametrize(
    "words",
    ["water the pine less", "feed the elm more often", "water it less from now on", "I should water the olive less"],
)
def test_a_resolve_is_kept_in_words_and_does_nothing(bench, words):
    (entry,) = bench.answer(words).logged
    assert entry.kind == "note" and entry.said == words and not entry.work


@pytest.mark.parametrize("words", ["fed the elm more than usual", "feed the maple, more or less a litre"])
def test_an_amount_is_no_resolve(bench, words):
    (entry,) = bench.answer(words).logged
    assert entry.kind == "done" and entry.work[0]["work"] == "feed"
