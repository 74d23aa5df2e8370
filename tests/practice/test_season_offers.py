"""What the season puts forward: few works, none that is forbidden, and never before what is seen on the tree."""

from __future__ import annotations

import datetime as dt

import pytest
from example_runner import PLACE, built, place_of

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice import advise, gather
from benchmate.practice.advice import Advice

NORTH = place_of(PLACE)
SOUTH = Place("Cold south garden", -43.5, 172.6, (10, 5), (5, 5))
DAYS = tuple(dt.date(2026, month, 20) for month in (1, 3, 4, 6, 8, 10))
PHASES = ("structure", "ramification", "refinement")
MOST = 4
SEEN = ("crossing", "dead-branch", "wire-biting", "aphids", "competing-leaders", "water-shoots", "too-thick")


def what_now(species: str, on: dt.date, place: Place = NORTH, entries: tuple[Entry, ...] = (), **tree: str) -> Advice:
    book = built()[2]
    reading = Reading("what now", ("ask",), "advice")
    grown = Tree("Anvil", "anvil", species, **{"phase": "structure", "health": "healthy", **tree})
    return advise(reading, gather(reading, grown, list(entries), place, on, book), book, place, on)


@pytest.mark.parametrize("species", sorted(built()[2].taxa))
def test_few_works_are_put_forward_and_none_that_is_forbidden(species):
    for place in (NORTH, SOUTH):
        for number, on in enumerate(DAYS):
            told = what_now(species, on, place, phase=PHASES[number % len(PHASES)])
            offered = [option for option in told.options if option.how == "offered"]
            assert len(offered) <= MOST, [(option.work, option.spot.part) for option in offered]
            assert all(option.verdict in ("go", "ask") for option in offered), on


def test_a_weak_tree_is_put_forward_for_no_cut():
    cutting = set(built()[2].group("cutting"))
    for species in ("Pinus sylvestris", "Acer campestre", "Ficus microcarpa", "Picea abies", "Buxus sempervirens"):
        for month in range(1, 13):
            told = what_now(species, dt.date(2026, month, 10), health="weak", phase="refinement")
            assert not cutting & {option.work for option in told.options}, (species, month)


@pytest.mark.parametrize("finding", SEEN)
@pytest.mark.parametrize("on", (dt.date(2026, 6, 20), dt.date(2026, 12, 20)))
def test_what_was_seen_goes_before_what_the_season_suggests(finding, on):
    fact = {"kind": "finding", "value": finding, "side": "left"}
    seen = Entry("one", on - dt.timedelta(days=10), "seen", facts=(fact,))
    told = what_now("Ulmus parvifolia", on, entries=(seen,), phase="ramification")
    by_season = what_now("Ulmus parvifolia", on, phase="ramification")
    first = told.options[0]
    assert (first.work, first.spot.part) not in {(one.work, one.spot.part) for one in by_season.options}


def test_nothing_is_put_forward_twice_in_a_row():
    on = dt.date(2026, 6, 20)
    for work in ("feed", "shorten", "turn-tree", "thin-leaves"):
        done = Entry("one", on - dt.timedelta(days=5), "done", work=({"work": work},))
        assert work in {option.work for option in what_now("Acer palmatum", on, phase="refinement").options}
        again = what_now("Acer palmatum", on, entries=(done,), phase="refinement")
        assert work not in {option.work for option in again.options}
