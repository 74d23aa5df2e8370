"""What must hold of every taxon in the rules, whatever is asked: no careless yes, and no rule that fails."""

from __future__ import annotations

import datetime as dt

import pytest
from example_runner import PLACE, built, place_of

from benchmate.garden.record import Place, Tree
from benchmate.hearing.reading import Reading, Work
from benchmate.practice import advise, gather

NORTH = place_of(PLACE)
SOUTH = Place("South garden", -35.3, 149.1, (10, 28), (4, 18))
JUNE, LATE, LATE_SOUTH = dt.date(2026, 6, 10), dt.date(2026, 9, 24), dt.date(2026, 3, 28)
# heavy work in every manner; none of it is for a weak tree
HEAVY = (
    ("defoliate", ()), ("leaf-cut", ()), ("shorten", ("hard",)), ("remove", ("hard",)), ("root-prune", ()),
    ("repot", ()), ("bend", ()), ("candle-cut", ()), ("collect", ()), ("air-layer", ()),
)
TAXA = sorted(built()[2].taxa)


def asked(species: str, health: str, work: str, on: dt.date, manner: tuple[str, ...] = (), place: Place = NORTH):
    _, _, book = built()
    reading = Reading("by hand", ("ask",), "may", (), (Work(work, manner=manner),))
    tree = Tree("Anvil", "anvil", species, phase="ramification", health=health)
    told = advise(reading, gather(reading, tree, [], place, on, book), book, place, on)
    assert told.faults == ()
    assert told.asks or all(option.verdict != "ask" for option in told.options)
    return next(option for option in told.options if option.work == work)


@pytest.mark.parametrize("species", TAXA)
def test_a_weak_tree_is_never_told_to_bear_heavy_work(species):
    for work, manner in HEAVY:
        assert asked(species, "weak", work, JUNE, manner).verdict != "go", work


@pytest.mark.parametrize("species", TAXA)
def test_leaves_are_not_stripped_where_none_come_again(species):
    entry = built()[2].taxa[species]
    removal = entry["traits"].get("leaf-removal", {}).get("is")
    if "conifer" in entry["groups"] or removal == "none":
        assert asked(species, "strong", "defoliate", JUNE).verdict == "avoid"
    for on, place in ((LATE, NORTH), (LATE_SOUTH, SOUTH)):
        assert asked(species, "strong", "defoliate", on, (), place).verdict != "go"


@pytest.mark.parametrize("species", TAXA)
def test_no_broadleaf_is_cut_hard_weeks_before_frost(species):
    if "conifer" in built()[2].taxa[species]["groups"]:
        return
    for on, place in ((LATE, NORTH), (LATE_SOUTH, SOUTH)):
        assert asked(species, "strong", "shorten", on, ("hard",), place).verdict != "go"


@pytest.mark.parametrize("species", TAXA)
def test_what_holds_a_work_back_always_says_so(species):
    for work, manner in HEAVY:
        option = asked(species, "strong", work, LATE, manner)
        assert option.verdict in ("go", "ask") or option.against
