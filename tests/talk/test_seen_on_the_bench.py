"""What growers see and tell in passing: heard as the finding it is, and advised on as that."""

import pytest


def seen_and_best(bench, words):
    answer = bench.answer(words)
    found = [fact.value for fact in answer.reading.facts if fact.kind == "finding" and not fact.denied]
    return found, answer


@pytest.mark.parametrize(
    "words, finding",
    [
        ("it is drooping by lunchtime even though the soil is wet", "wilting"),
        ("Gatepost is drooping but the soil is still wet", "wilting"),
        ("the leaves droop and the compost is sodden", "wilting"),
        ("Gatepost has wilted in spite of wet soil", "wilting"),
    ],
)
def test_a_tree_that_droops_in_wet_soil_gets_its_roots_looked_at(bench, words, finding):
    found, answer = seen_and_best(bench, words)
    assert {finding, "waterlogged"} <= set(found)
    best = answer.advice.options[0]
    assert (best.work, best.verdict) == ("check", "go") and best.spot.part == "root"
    assert not [
        one for one in answer.advice.options if one.verdict == "go" and one.work in ("shorten", "feed", "water")
    ]


@pytest.mark.parametrize(
    "words, finding",
    [
        ("it smells a bit sour", "root-rot"),
        ("there is a musty smell from the pot", "root-rot"),
        ("the compost stinks like a drain", "root-rot"),
        ("the juniper is putting out spiky juvenile growth", "juvenile"),
        ("the juniper has gone back to juvenile needles", "juvenile"),
        ("the juniper is throwing needle foliage instead of scale", "juvenile"),
        ("the hawthorn has rust", "rust"),
        ("orange spots on the leaves of the hawthorn", "rust"),
        ("the juniper has orange jelly horns on the branches", "rust"),
        ("the beech still has all its dead leaves on", "held-leaves"),
        ("the hornbeam is holding on to last year's leaves", "held-leaves"),
        ("brown leaves still hanging on the oak", "held-leaves"),
        ("there's a wire mark left on the branch", "wire-marks"),
        ("old wire marks on the trunk", "wire-marks"),
        ("the left branch is drooping", "hanging"),
    ],
)
def test_what_is_seen(bench, words, finding):
    assert finding in seen_and_best(bench, words)[0]


@pytest.mark.parametrize(
    "words",
    [
        "took the leaves with spots off",
        "the hawthorn's leaves have orange spots, took them off",
        "took the spotty leaves off",
        "removed the mouldy leaves",
        "picked off the leaves that had rust on them",
    ],
)
def test_spoilt_leaves_taken_off_are_never_all_of_them(bench, words):
    assert [(work.work, work.manner) for work in bench.answer(words).reading.work] == [("thin-leaves", ("bad-leaves",))]


@pytest.mark.parametrize(
    "words", ["the leaves are scorched, can I defoliate it", "the leaves were frosted so I defoliated it"]
)
def test_all_of_them_where_that_is_said(bench, words):
    assert [work.work for work in bench.answer(words).reading.work] == ["defoliate"]


def test_juvenile_growth_is_not_pinched(bench):
    bench.answer("the juniper is putting out spiky juvenile growth")
    answer = bench.answer("should I pinch the tips out all over")
    assert [one.verdict for one in answer.advice.options if one.work == "pinch"] == ["avoid"]


def test_wire_that_came_off_is_not_taken_off_again(bench):
    bench.answer("took the wire off Gatepost")
    answer = bench.answer("there are wire marks on the branch, what now")
    assert answer.advice.options[0].work == "leave"
    assert not [one for one in answer.advice.options if one.work == "unwire" and one.verdict == "go"]
