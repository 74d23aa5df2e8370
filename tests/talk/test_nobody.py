"""What nobody did is no work and no decision of the grower's."""

import pytest


@pytest.mark.parametrize(
    "words",
    [
        "nobody watered the beech for a week",
        "I was away and nobody watered the beech, half its leaves dropped",
        "no one had watered the beech",
        "none of us watered the beech",
    ],
)
def test_what_nobody_watered_is_dry(bench, words):
    answer = bench.answer(words)
    (entry,) = answer.logged
    assert entry.kind == "seen" and any(fact["value"] == "dry" for fact in entry.facts)
    assert not answer.confirm and "water" in [option.work for option in answer.advice.options]


def test_what_nobody_fed_is_no_feed(bench):
    (entry,) = bench.answer("nobody has fed the elm").logged
    assert entry.kind == "seen" and not entry.work
