"""A "when" is answered with weeks, also where something that no time lifts stands against the work; in a mild southern
garden the candles are cut within a month of midsummer, however late its frost."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

ROWS = [
    # place, day, last and first frost, latitude; the weeks of the cut
    ("melbourne", "2026-08-15", (9, 5), (6, 10), -37.8, "2027-01-05", "2027-01-20"),
    ("worcester", "2026-02-15", (4, 28), (10, 18), 52.2, "2026-06-10", "2026-07-10"),
    ("no frost", "2026-08-15", None, None, -33.9, "2027-01-05", "2027-01-20"),
]


def bench(tmp_path, latitude, last, first, on):
    home = tmp_path / "garden"
    new_garden(home, Place("Here", latitude, None, last, first))
    (home / "kuro").mkdir()
    sheet = 'name = "Kuro"\nspecies = "Pinus thunbergii"\nphase = "refinement"\nhealth = "strong"\n'
    (home / "kuro" / "tree.toml").write_text(sheet, encoding="utf-8")
    return Bench(House(home), dt.date.fromisoformat(on))


@pytest.mark.parametrize(("name", "on", "last", "first", "latitude", "opens", "closes"), ROWS, ids=[r[0] for r in ROWS])
@pytest.mark.parametrize(
    "said", ["when do I decandle Kuro", "when should I cut the candles off Kuro", "when can I cut Kuro's candles off"]
)
def test_the_weeks_of_an_unfed_pine_are_told_with_what_must_change(
    tmp_path, name, on, last, first, latitude, opens, closes, said
):
    answer = bench(tmp_path, latitude, last, first, on).answer(said)
    option = next(one for one in answer.advice.options if one.work == "candle-cut")
    assert option.verdict == "hold" and [one.rule for one in option.first] == ["candle-cut-needs-a-fed-tree"]
    assert abs((dt.date.fromisoformat(option.opens) - dt.date.fromisoformat(opens)).days) <= 7, option.opens
    assert abs((dt.date.fromisoformat(option.closes) - dt.date.fromisoformat(closes)).days) <= 3, option.closes


def test_a_pine_fed_in_spring_is_told_the_day_alone(tmp_path):
    talk = bench(tmp_path, -37.8, (9, 5), (6, 10), "2026-11-01")
    talk.answer("fed Kuro on 20 October")
    option = next(one for one in talk.answer("when do I decandle Kuro").advice.options if one.work == "candle-cut")
    assert option.opens == "2027-01-05" and not option.first
