"""What must hold of every taxon in the rules, whatever is asked: no careless yes, and no rule that fails."""

from __future__ import annotations

import datetime as dt

import pytest
from example_runner import PLACE, built, place_of

from benchmate.garden.record import Place, Tree
from benchmate.hearing.reading import Fact, Reading, Work
from benchmate.practice import advise, gather
from benchmate.practice.advice import Option
from benchmate.practice.almanac import Almanac, almanac_for
from benchmate.practice.taxa import taxon_entry

NORTH = place_of(PLACE)
SOUTH = Place("South garden", -35.3, 149.1, (10, 28), (4, 18))
COLD_SOUTH = Place("Cold south garden", -43.5, 172.6, (10, 5), (5, 5))
TROPIC = Place("Warm garden", 1.35, 103.8)
JUNE, LATE, LATE_SOUTH = dt.date(2026, 6, 10), dt.date(2026, 9, 24), dt.date(2026, 3, 28)
# heavy work in every manner; none of it is for a weak tree
HEAVY = (
    ("defoliate", ()),
    ("leaf-cut", ()),
    ("shorten", ("hard",)),
    ("remove", ("hard",)),
    ("root-prune", ()),
    ("repot", ()),
    ("bend", ()),
    ("candle-cut", ()),
    ("collect", ()),
    ("air-layer", ()),
)
# the same part of the year in either hemisphere: (place, day)
DEEP_WINTER = ((NORTH, dt.date(2026, 1, 15)), (COLD_SOUTH, dt.date(2026, 7, 15)))
WEEK_BEFORE_LAST_FROST = ((NORTH, dt.date(2026, 4, 18)), (COLD_SOUTH, dt.date(2026, 9, 28)))
LATE_SPRING = ((NORTH, dt.date(2026, 5, 25)), (COLD_SOUTH, dt.date(2026, 11, 4)))
HIGH_SUMMER = ((NORTH, dt.date(2026, 7, 15)), (COLD_SOUTH, dt.date(2026, 12, 28)))
WEEKS_BEFORE_FROST = ((NORTH, LATE), (COLD_SOUTH, dt.date(2026, 4, 9)))
SPRING_STARTS = dt.date(2026, 2, 1)
OPENING = ("bud-break", "leafing-out", "candles")
TAXA = sorted(built()[2].taxa)


def trait(species: str, name: str) -> object:
    return built()[2].taxa[species]["traits"].get(name, {}).get("is")


def almanac(species: str, place: Place, on: dt.date) -> Almanac:
    book = built()[2]
    return almanac_for(on, place, taxon_entry(species, book.taxa), book.seasons)


def asked(
    species: str,
    health: str,
    work: str,
    on: dt.date,
    manner: tuple[str, ...] = (),
    place: Place = NORTH,
    facts: tuple[Fact, ...] = (),
) -> Option:
    _, _, book = built()
    reading = Reading("by hand", ("ask",), "may", facts, (Work(work, manner=manner),))
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


@pytest.mark.parametrize("species", TAXA)
def test_no_tree_is_stripped_before_the_warmth_comes(species):
    for place, on in (*DEEP_WINTER, *WEEK_BEFORE_LAST_FROST):
        assert asked(species, "strong", "defoliate", on, (), place).verdict != "go", on


@pytest.mark.parametrize("species", TAXA)
def test_no_hard_cut_while_buds_break_and_leaves_open(species):
    for place, on in (*WEEK_BEFORE_LAST_FROST, *LATE_SPRING):
        guess = almanac(species, place, on).guess
        cool = trait(species, "tender") == "yes" and on.month in (4, 9)
        if cool or (guess and guess.stage in OPENING):
            assert asked(species, "strong", "shorten", on, ("hard",), place).verdict != "go", on


@pytest.mark.parametrize("species", TAXA)
def test_roots_are_left_alone_outside_the_kinds_own_weeks(species):
    # what is kept warm roots there all spring; it is only told so
    if trait(species, "tender") == "yes":
        return
    for place, on in (*DEEP_WINTER, *LATE_SPRING, *HIGH_SUMMER, *WEEKS_BEFORE_FROST):
        window = almanac(species, place, on).window(trait(species, "repot"), on)
        # green showing is the very end of most kinds' weeks, and is weighed
        guess = almanac(species, place, on).guess
        if window and not window.holds(on) and not (guess and guess.stage == "bud-break"):
            for work in ("repot", "root-prune"):
                assert asked(species, "healthy", work, on, (), place).verdict != "go", (work, on)


@pytest.mark.parametrize("species", TAXA)
def test_feed_ends_before_frost_and_is_light_under_glass(species):
    for place, on in WEEKS_BEFORE_FROST:
        option = asked(species, "healthy", "feed", on, (), place)
        if trait(species, "tender") == "yes":
            assert option.verdict == "go"
            assert "tender-tree-is-fed-lightly-as-light-fails" in [reason.rule for reason in option.against]
        else:
            assert option.verdict != "go", on


@pytest.mark.parametrize("species", TAXA)
def test_of_all_trees_only_pines_may_be_shortened_weeks_before_frost(species):
    if "pine" in built()[2].taxa[species]["groups"] or species.startswith("Pinus"):
        return
    for place, on in WEEKS_BEFORE_FROST:
        assert asked(species, "strong", "shorten", on, (), place).verdict != "go", on


@pytest.mark.parametrize("species", [taxon for taxon in TAXA if trait(taxon, "tender") == "yes"])
def test_the_tropics_have_no_closed_season(species):
    for on in (dt.date(2026, 1, 15), dt.date(2026, 4, 18), dt.date(2026, 7, 15), LATE):
        for work, manner in (("repot", ()), ("shorten", ("hard",)), ("shorten", ()), ("feed", ())):
            assert asked(species, "strong", work, on, manner, TROPIC).verdict == "go", (work, on)
        if trait(species, "leaf-removal") == "full" and trait(species, "flush") == "continuous":
            assert asked(species, "strong", "defoliate", on, (), TROPIC).verdict == "go", on


@pytest.mark.parametrize("species", TAXA)
def test_each_kinds_own_weeks_are_open_for_its_roots(species):
    # what flowers into the cold waits for spring
    names = ["buds-swelling"] if trait(species, "bloom") == "autumn" else trait(species, "repot")
    # the date does not tell that a tree has flowered: that is said
    said = (Fact("stage", "after-flowering"),) if names == ["after-flowering"] else ()
    for place in (NORTH, COLD_SOUTH):
        window = almanac(species, place, SPRING_STARTS).window(names, SPRING_STARTS)
        days = [window.opens + dt.timedelta(days=5 * step) for step in range(9)]
        open_days = [on for on in days if window.closes is None or on <= window.closes]
        verdicts = {asked(species, "strong", "repot", on, (), place, said).verdict for on in open_days}
        assert "go" in verdicts, place.name
