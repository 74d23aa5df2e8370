"""A leader cut off at a branch is cut back to it."""

import pytest


@pytest.mark.parametrize(
    ("words", "part", "side"),
    [
        ("cut the leader off above the third branch", "leader", None),
        ("chopped the leader at the first branch", "leader", None),
        ("cut the left leader off just above the first branch on the right", "leader", "left"),
    ],
)
def test_the_number_is_the_branchs(bench, words, part, side):
    (work,) = bench.answer(words).reading.work
    assert (work.work, work.spot.part, work.spot.side, work.spot.ordinal) == ("shorten", part, side, None)
