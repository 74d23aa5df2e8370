"""The list of trees still to repot agrees with the answer for each of them, north and south, in many words."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.headline import headline_of

KINDS = {
    "Momiji": "Acer palmatum",
    "Quince": "Chaenomeles japonica",
    "Blackie": "Pinus thunbergii",
    "Larry": "Larix decidua",
    "Jade": "Ficus microcarpa",
}


@pytest.fixture(params=["north", "south"])
def house(tmp_path, request):
    south = request.param == "south"
    home = tmp_path / "garden"
    new_garden(
        home, Place("Here", -37.8, None, (9, 5), (6, 10)) if south else Place("Here", 52.2, None, (4, 28), (10, 18))
    )
    for name, species in KINDS.items():
        (home / name.lower()).mkdir()
        sheet = f'name = "{name}"\nspecies = "{species}"\nphase = "refinement"\nhealth = "healthy"\n'
        (home / name.lower() / "tree.toml").write_text(sheet, encoding="utf-8")
    return House(home), dt.date(2026, 8, 15) if south else dt.date(2026, 3, 20)


def listed(answer):
    return {line.split(":")[0]: line for line in answer.says[1:] if line.split(":")[0] in KINDS}


def test_each_tree_is_told_the_day_that_it_is_told_alone(house):
    home, on = house
    told = listed(Bench(home, on).answer("which trees still need repotting"))
    assert len(told) >= 4
    for name, line in told.items():
        alone = headline_of(Bench(home, on).answer(f"when can I repot {name}"))
        if alone.startswith("Yes"):
            assert line.split(": ")[1].startswith("now until") and alone.split("until ")[1].rstrip(".") in line
        else:
            assert alone.split("repot it ")[1].rstrip(".") in line, (alone, line)


@pytest.mark.parametrize(
    "said",
    [
        "what needs repotting",
        "which ones should I repot",
        "which of my trees still need repotting",
        "which trees are due a repot",
        "who needs repotting",
        "which one do I repot first",
        "order for repotting, who goes first",
        "in what order should I repot",
    ],
)
def test_other_words_for_it_give_the_same_list(house, said):
    home, on = house
    assert listed(Bench(home, on).answer(said)) == listed(Bench(home, on).answer("which trees need repotting"))


def test_a_tree_repotted_last_year_is_left_out(house):
    home, on = house
    talk = Bench(home, on)
    talk.answer(f"repotted Momiji on {on.day} {on:%B} {on.year - 1}")
    assert "Momiji" not in listed(talk.answer("which trees still need repotting"))


def test_only_the_kind_that_is_asked_about(house):
    home, on = house
    assert set(listed(Bench(home, on).answer("which maples need repotting"))) == {"Momiji"}
