"""A question over all trees finds the days that each tree's plan has, and sees what is put into a record."""

import datetime as dt
import shutil
from pathlib import Path

import pytest

from benchmate.garden.record import Entry
from benchmate.talk.asked.plans import days_for, plan_for
from benchmate.talk.house import House

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
ON = dt.date(2026, 6, 14)
WORKS = (("repot",), ("wire", "unwire"), ("feed",), ("root-prune",))


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "demo"
    shutil.copytree(DEMO, folder, ignore=shutil.ignore_patterns(".benchmate"))
    return folder


@pytest.mark.parametrize("years", [1, 2])
def test_the_days_are_those_of_the_plan(home, years):
    house = House(home)
    found = 0
    for tree in house.trees():
        items = plan_for(house, tree, ON, years).plan.items
        for works in WORKS:
            wanted = [(one.opens, one.closes) for one in items if one.work in works]
            days = days_for(works, house, tree, ON, years)
            assert [(first.isoformat(), last.isoformat()) for first, last in days] == wanted, (tree.name, works)
            found += len(days)
    assert found > 10


def test_days_are_reckoned_anew_where_the_record_grew(home):
    house = House(home)
    tree = house.garden.find("Harbour")
    before = days_for(("repot",), house, tree, ON, 1)
    assert before and days_for(("repot",), house, tree, ON, 1) == before
    house.garden.append(tree, Entry("", ON, "done", "repotted it", work=({"work": "repot"},)))
    assert days_for(("repot",), house, tree, ON, 1) != before
