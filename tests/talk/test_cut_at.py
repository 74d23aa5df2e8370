"""What a number beside a cut or a wire is of: the branch cut at, the places that are told."""

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


def test_a_count_of_places_that_are_told_is_of_all_of_them(bench):
    works = bench.answer("wired two branches on Ratchet with 2.5 mm alu, low left and low right").reading.work
    assert [(work.spot.side, work.spot.count) for work in works] == [("left", None), ("right", None)]
    assert all(work.measures == {"diameter_mm": 2.5} for work in works)


def test_wire_told_without_its_unit_is_in_millimetres(bench):
    works = bench.answer("wired the first left with 2.5 and the second right with 2 mm alu").reading.work
    assert [work.measures["diameter_mm"] for work in works] == [2.5, 2]
    (work,) = bench.answer("wired the left branch with two wires").reading.work
    assert not work.measures
