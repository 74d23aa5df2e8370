"""What is done again and again up to now is work of the record and is judged; only what is to come is a plan."""

import datetime as dt

import pytest

from benchmate.garden import new_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def talk(tmp_path):
    new_garden(tmp_path / "garden", Place("Here", 52.2, None, (4, 28), (10, 18)))
    for name, species in (("Juno", "Juniperus chinensis"), ("Olive", "Olea europaea")):
        (tmp_path / "garden" / name.lower()).mkdir()
        sheet = f'name = "{name}"\nspecies = "{species}"\nphase = "structure"\nhealth = "healthy"\n'
        (tmp_path / "garden" / name.lower() / "tree.toml").write_text(sheet, encoding="utf-8")
    return Bench(House(tmp_path / "garden"), dt.date(2026, 5, 20))


ROWS = [
    # said, kind of the entry, work, days from one time to the next
    ("Juno's been sat on the bench, I've been watering every day", "done", "water", 1),
    ("been watering Juno every day", "done", "water", 1),
    ("I have been feeding Juno weekly since March", "done", "feed", 7),
    ("I feed Juno once a month", "plan", "feed", None),
    ("I'm watering Juno every day", "done", "water", 1),
    ("watered Juno every day this week", "done", "water", 1),
    ("I've been turning Juno every fortnight", "done", "turn-tree", 14),
    ("I've been misting the juniper twice a day", "done", "water", 1),
    ("I'm going to water Juno every day", "plan", "water", None),
    ("I need to water Juno every day", "plan", "water", None),
    ("water Juno every day", "plan", "water", None),
    ("I'll feed Juno every two weeks", "plan", "feed", None),
]


@pytest.mark.parametrize(("said", "kind", "work", "every"), ROWS, ids=[row[0] for row in ROWS])
def test_a_habit_is_no_plan(talk, said, kind, work, every):
    answer = talk.answer(said)
    (entry,) = answer.logged
    assert entry.kind == kind and entry.work[0]["work"] == work
    assert entry.work[0].get("every_days") == every
    if kind == "done":
        assert entry.at == dt.date(2026, 5, 20) and not answer.advice.asks


def test_daily_water_on_cut_roots_is_judged(talk):
    talk.answer("repotted Olive 10 days ago")
    answer = talk.answer("I've been watering it every day")
    option = next(one for one in answer.advice.options if one.work == "water")
    assert option.verdict == "hold" and option.against[0].rule == "water-by-the-day-keeps-cut-roots-too-wet"
