"""What a season's work adds up to and what is left of it."""

from __future__ import annotations

import datetime as dt

import pytest
from practice_ear import PLACE, ask, done, tree

from benchmate.hearing.reading import Fact
from benchmate.practice.advise import advise
from benchmate.practice.gather import gather

JULY = dt.date(2026, 7, 4)


def advice(book, reading, tree_, entries=(), on=JULY):
    return advise(reading, gather(reading, tree_, entries, PLACE, on, book), book, PLACE, on)


def first(told, work):
    return next(o for o in told.options if o.work == work)


@pytest.mark.parametrize(
    ("health", "phase", "left"),
    [("weak", None, 0.0), ("healthy", None, 0.25), ("strong", "structure", 0.33), ("strong", "refinement", 0.2)],
)
def test_the_ladder_goes_by_health_and_phase(book, health, phase, left):
    told = advice(book, ask("thin-leaves"), tree(health=health, phase=phase))
    assert told.dose_left == pytest.approx(left)


def test_cuts_of_one_season_add_up(book):
    entries = [done("2026-05-30", "shorten", share=0.22), done("2025-08-30", "shorten", share=0.3)]
    told = advice(book, ask("thin-leaves", share=0.2), tree(health="healthy"), entries)
    thinned = first(told, "thin-leaves")
    assert told.dose_left == pytest.approx(0.03)
    assert thinned.verdict == "avoid"
    assert "over-dose" in [c.id for c in told.cautions]


def test_a_little_over_is_held_and_the_rest_offered(book):
    told = advice(book, ask("thin-leaves", share=0.3), tree(health="healthy"))
    thinned = first(told, "thin-leaves")
    assert (thinned.verdict, thinned.amount) == ("hold", {"share": 0.25})


def test_within_the_cap_the_amount_is_what_is_left(book):
    entries = [done("2026-05-30", "shorten", share=0.1)]
    told = advice(book, ask("thin-leaves", share=0.1), tree(health="healthy"), entries)
    thinned = first(told, "thin-leaves")
    assert (thinned.verdict, thinned.amount) == ("go", {"share": 0.15})
    assert "dose-healthy" in [r.rule for r in thinned.because]


def test_a_share_nobody_said_is_taken_as_usual(book):
    told = advice(book, ask("thin-leaves"), tree(health="healthy"), [done("2026-05-30", "shorten")])
    assert told.dose_left == pytest.approx(0.10)


def test_a_spent_season_holds_until_the_next(book):
    told = advice(book, ask("thin-leaves"), tree(health="healthy"), [done("2026-05-30", "shorten", share=0.25)])
    thinned = first(told, "thin-leaves")
    # work on a bare tree belongs to the season that follows
    assert (thinned.verdict, thinned.opens) == ("hold", "2026-12-05")


def test_unknown_health_takes_a_usual_cap_and_says_so(book):
    told = advice(book, ask("thin-leaves", Fact("species", "Acer campestre")), None)
    assert told.dose_left == pytest.approx(0.25)
    assert any("health is not known" in line for line in told.assumed)


def test_full_leaf_removal_is_weighed_by_rules_and_a_said_share_by_the_budget(book):
    strong = tree(health="strong")
    assert first(advice(book, ask("defoliate"), strong), "defoliate").verdict == "go"
    assert first(advice(book, ask("defoliate", share=0.6), strong), "defoliate").verdict == "avoid"


def test_roots_have_caps_of_their_own(book):
    told = advice(book, ask("root-prune", share=0.6), tree("Pinus", health="healthy"))
    assert first(told, "root-prune").verdict == "avoid"
    told = advice(book, ask("root-prune", share=0.2), tree("Pinus", health="healthy"))
    assert first(told, "root-prune").amount == {"share": 0.25}


@pytest.mark.parametrize(
    ("work", "more", "left"),
    [
        ("leaf-cut", {}, 0.0),
        ("leaf-cut", {"share": 0.2}, 0.13),
        ("leaf-cut", {"part": "branch", "side": "left"}, 0.26),
        ("defoliate", {}, 0.33),
    ],
)
def test_halved_blades_stay_so_and_count_and_a_new_set_of_leaves_does_not(book, work, more, left):
    told = advice(book, ask("shorten"), tree(health="strong"), [done("2026-06-10", work, **more)])
    assert told.dose_left == pytest.approx(left)


def test_halved_blades_of_last_season_are_gone(book):
    told = advice(book, ask("shorten"), tree(health="strong"), [done("2025-06-10", "leaf-cut")])
    assert told.dose_left == pytest.approx(0.33)
