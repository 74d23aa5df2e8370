"""Corrections laid over the statement before."""

import pytest

from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.talk.corrected.correct import corrected

LAST = Reading(
    "shorten the left branch to three leaves",
    ("decide",),
    work=(Work("shorten", Spot("branch", "left"), {"leaves": 3}, "now"),),
)


def fix(*works, **more):
    return Reading("no", ("correct",), work=works, **more)


@pytest.mark.parametrize(
    "change, spot, measures",
    [
        (Work(None, Spot(side="right")), Spot("branch", "right"), {"leaves": 3}),
        (Work(None, Spot("shoot", "back")), Spot("shoot", "back"), {"leaves": 3}),
        (Work(None, measures={"leaves": 2}), Spot("branch", "left"), {"leaves": 2}),
        (Work(None, measures={"buds": 2}), Spot("branch", "left"), {"buds": 2}),
    ],
)
def test_only_what_was_named_changes(change, spot, measures):
    (work,) = corrected(LAST, fix(change)).work
    assert (work.work, work.spot, dict(work.measures), work.done) == ("shorten", spot, measures, "now")


def test_another_work_keeps_the_place():
    (work,) = corrected(LAST, fix(Work("pinch", done="now"))).work
    assert work.work == "pinch" and work.spot.side == "left"


def test_the_words_of_both_are_kept():
    assert corrected(LAST, fix(Work(None, Spot(side="right")))).said == "shorten the left branch to three leaves; no"


def test_a_species_goes_over_the_tree_that_was_named():
    last = Reading("wire Gatepost", ("decide",), work=(Work("wire", done="now"),), tree="Gatepost")
    meant = corrected(last, fix(facts=(Fact("species", "Fagus"),)))
    assert meant.tree is None and meant.facts == (Fact("species", "Fagus"),)


def test_a_correction_that_could_bear_on_two_works_bears_on_none():
    last = Reading("x", ("decide",), work=(Work("remove", Spot(side="left")), Work("leave", Spot(side="back"))))
    assert corrected(last, fix(Work(None, Spot(side="right")))) is None


def test_a_correction_finds_the_only_work_that_says_such_a_thing():
    last = Reading(
        "x",
        ("decide",),
        work=(Work("wire", Spot("branch")), Work("bend", measures={"angle_deg": 25.0})),
    )
    meant = corrected(last, fix(Work(None, measures={"angle_deg": 30.0})))
    assert meant.work[1].measures == {"angle_deg": 30.0} and meant.work[0].measures == {}


def test_an_empty_correction_is_not_clear():
    assert corrected(LAST, fix()) is None
