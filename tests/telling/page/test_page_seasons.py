"""What the seasons of a record cost, by the rules as they stand: a garden of its own, the real rule base."""

import datetime as dt

import pytest
from page_sheets import ON, entry

from benchmate.garden import new_garden, new_tree
from benchmate.garden.record import Place
from benchmate.talk.house import House
from benchmate.talk.recorded.sheet_of import known_taxon, sheet_of

NORTH = Place("Test garden", 51.5, -0.5, (4, 25), (10, 20))
SOUTH = Place("Test garden", -37.8, 145.0, (9, 20), (5, 20))
TROPICS = Place("Test garden", 1.3, 103.8)


@pytest.fixture
def seasons(tmp_path):
    """The seasons of a tree with these entries, by label."""

    def told(*entries, place=NORTH, on=ON, **tree):
        garden = new_garden(tmp_path / "garden", place)
        made = new_tree(garden, "Knuckle", **({"species": "Carpinus betulus", "health": "strong"} | tree))
        garden.append_all(made, entries)
        house = House(tmp_path / "garden")
        return {one.label: one for one in sheet_of(house.garden.find("Knuckle"), house, on).seasons}

    return told


def test_shares_that_were_said_add_up_over_the_season_and_bare_tree_work_belongs_to_the_next(seasons):
    cut = [{"work": "shorten", "share": 0.1}]
    found = seasons(entry("2025-01-15", work=cut), entry("2025-06-20", work=cut), entry("2025-12-20", work=cut), on=ON)
    assert list(found) == ["2025", "2026"]
    assert found["2025"].foliage == pytest.approx(0.2) and not found["2025"].about_foliage
    assert found["2026"].foliage == pytest.approx(0.1) and found["2026"].now


def test_a_share_that_was_not_said_is_what_such_work_usually_takes_and_told_so(seasons):
    found = seasons(entry("2025-06-20", work=[{"work": "shorten", "part": "shoot"}]))
    assert found["2025"].foliage > 0 and found["2025"].about_foliage


def test_roots_and_serious_work_stand_with_their_day(seasons):
    found = seasons(entry("2025-03-10", work=[{"work": "repot", "share": 0.3}, {"work": "root-prune"}]))
    assert found["2025"].roots >= 0.3
    assert found["2025"].serious == (("repotted it", dt.date(2025, 3, 10)),)


def test_halved_blades_count_as_foliage(seasons):
    found = seasons(entry("2025-06-08", work=[{"work": "leaf-cut", "share": 0.2}]))
    assert (found["2025"].foliage, found["2025"].apart) == (0.2, ())


def test_full_leaf_removal_stands_apart_from_the_share(seasons):
    found = seasons(entry("2025-06-08", work=[{"work": "defoliate"}]))
    assert found["2025"].foliage == 0
    assert [day for _, day in found["2025"].apart] == [dt.date(2025, 6, 8)]


def test_the_bound_is_that_of_the_day_of_the_cut(seasons):
    cut = [{"work": "shorten", "share": 0.2}]
    weak = [{"kind": "health", "value": "weak"}]
    strong = [{"kind": "health", "value": "strong"}]
    found = seasons(
        entry("2024-05-01", "seen", facts=weak),
        entry("2024-06-20", work=cut),
        entry("2025-05-01", "seen", facts=strong),
        entry("2025-06-20", work=cut),
    )
    assert found["2024"].most == 0 and found["2025"].most == pytest.approx(0.33)
    assert found["2024"].foliage > found["2024"].most and not found["2024"].most_assumed


def test_the_health_of_today_is_no_witness_of_an_earlier_year(seasons):
    found = seasons(entry("2023-06-20", work=[{"work": "shorten", "share": 0.2}]), health="weak")
    assert found["2023"].most == pytest.approx(0.25) and found["2023"].most_assumed
    assert found["2026"].most == 0 and not found["2026"].most_assumed


def test_no_cut_no_bound_but_for_the_season_that_is_not_over(seasons):
    found = seasons(entry("2024-06-20", work=[{"work": "feed"}]))
    assert found["2024"].most is None and not found["2024"].silent
    assert found["2025"].silent and found["2026"].most is not None


def test_a_tree_that_was_dug_up_is_dug_up_once(seasons):
    dug = entry("2022-03-12", work=[{"work": "collect", "share": 0.5}])
    found = seasons(dug, origin="hedge-collected", since=dt.date(2022, 3, 12))
    assert found["2022"].roots == pytest.approx(0.5)


def test_what_was_taken_back_costs_nothing(seasons):
    cut = entry("2025-06-20", work=[{"work": "shorten", "share": 0.2}])
    found = seasons(cut, entry("2025-06-21", "struck", strikes=cut.id), entry("2025-06-22", "note", "x"))
    assert found["2025"].foliage == 0


def test_southern_seasons_run_over_the_new_year(seasons):
    cut = [{"work": "shorten", "share": 0.1}]
    found = seasons(entry("2024-12-20", work=cut), entry("2025-02-20", work=cut), place=SOUTH, on=dt.date(2025, 3, 1))
    assert {label: one.foliage for label, one in found.items()} == {"2024-25": pytest.approx(0.2)}


def test_without_a_cold_season_half_years_are_told_by_their_months(seasons):
    found = seasons(entry("2026-05-01", work=[{"work": "shorten", "share": 0.1}]), place=TROPICS, species="Ficus")
    assert list(found) == ["2025-12 to 2026-06"]


def test_no_record_no_season(seasons):
    assert seasons() == {}


def test_days_after_the_sheets_own_do_not_count(seasons):
    found = seasons(entry("2026-06-20", work=[{"work": "shorten", "share": 0.2}]), entry("2026-06-01", "note", "x"))
    assert found["2026"].foliage == 0


@pytest.mark.parametrize(
    "species, name, warned",
    [
        ("Taxus baccata", "English yew", "poisonous"),
        ("Acer palmatum Deshojo", "Japanese maple", None),
        ("Pyracantha", "firethorn", "Thorns"),
    ],
)
def test_cautions_and_common_name_are_those_of_the_kind(tmp_path, species, name, warned):
    garden = new_garden(tmp_path / "garden", NORTH)
    new_tree(garden, "Knuckle", species)
    house = House(tmp_path / "garden")
    sheet = sheet_of(house.garden.find("Knuckle"), house, ON)
    assert sheet.common_name == name
    people = [one.says for one in sheet.cautions if one.kind == "person"]
    assert (warned is None and not people) or any(warned in says for says in people)
    assert not {"weak-tree", "recent-repot", "heat", "lifting"} & {one.id for one in sheet.cautions}


def test_a_kind_that_the_rules_do_not_know_has_no_cautions(tmp_path):
    garden = new_garden(tmp_path / "garden", NORTH)
    new_tree(garden, "Knuckle", "Nosuchia mirabilis")
    house = House(tmp_path / "garden")
    sheet = sheet_of(house.garden.find("Knuckle"), house, ON)
    assert sheet.cautions == () and sheet.common_name is None
    assert known_taxon("Acer campestre Carnival", house.book) == "Acer campestre"
    assert known_taxon(None, house.book) is None
