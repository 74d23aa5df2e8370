"""Plans by cases: which works must stand where, which must not, and what is said of those left out."""

from __future__ import annotations

import datetime as dt
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from plan_files import book, entries_of, place_of, planning, tree_of

from benchmate.planning import Item, Plan, lay_plan

CASES = tomllib.loads((Path(__file__).parent / "cases" / "plans.toml").read_text(encoding="utf-8"))["case"]
BY_ID = {case["id"]: case for case in CASES}
DAY = dt.date(2026, 6, 14)


@cache
def laid(id: str) -> Plan:
    case = BY_ID[id]
    tree, entries = tree_of(case["tree"]), entries_of(case.get("journal", []))
    place, on = place_of(case.get("place", "north")), case.get("on", DAY)
    return lay_plan(tree, entries, place, on, case.get("years", 3), book(), planning())


def told(plan: Plan) -> str:
    rows = [f"{item.opens} {item.work} {item.spot.as_json()} {item.id} needs {item.needs}" for item in plan.items]
    rows += [f"left out: {row.work} {[reason.rule for reason in row.why]}" for row in plan.left_out]
    return "\n".join(rows)


def fits(item: Item, wanted: dict[str, Any], plan: Plan) -> bool:
    spot = item.spot.as_json()
    needs = {one.work for one in plan.items if one.id in item.needs}
    return (
        item.work == wanted["work"]
        and item.opens.startswith(wanted["from"])
        and all(spot.get(key) == wanted[key] for key in ("part", "side", "level") if key in wanted)
        and item.heavy == wanted.get("heavy", item.heavy)
        and item.stage == wanted.get("stage", item.stage)
        and ("needs" not in wanted or wanted["needs"] in needs)
    )


@pytest.mark.parametrize("id", BY_ID)
def test_plan(id: str) -> None:
    case, plan = BY_ID[id], laid(id)
    works = [item.work for item in plan.items]
    used: set[str] = set()
    for wanted in case.get("items", []):
        found = next((item for item in plan.items if item.id not in used and fits(item, wanted, plan)), None)
        assert found, f"{wanted} is not in the plan:\n{told(plan)}"
        used.add(found.id)
    assert not set(works) & set(case.get("never", [])), told(plan)
    for work, first in case.get("not_before", {}).items():
        assert all(item.opens >= first.isoformat() for item in plan.items if item.work == work), told(plan)
    for wanted in case.get("left_out", []):
        rows = [row for row in plan.left_out if row.work == wanted["work"]]
        assert any(reason.rule == wanted["rule"] for row in rows for reason in row.why), told(plan)
    for work, months in case.get("never_from", {}).items():
        assert not [item.opens for item in plan.items if item.work == work and item.opens[5:7] in months], told(plan)
    if "asks" in case:
        assert [ask.fact for ask in plan.asks] == case["asks"]


def test_every_wish_is_met_in_some_case() -> None:
    met = {row.wish for id in BY_ID for row in (*laid(id).items, *laid(id).left_out)}
    assert {wish.id for wish in planning().wishes} - met == set()


def test_every_wish_stands_in_some_plan() -> None:
    planned = {item.wish for id in BY_ID for item in laid(id).items}
    assert {wish.id for wish in planning().wishes} - planned == set()


@pytest.mark.parametrize("years", (0, 11, -1))
def test_a_span_that_cannot_be_planned_is_refused(years: int) -> None:
    with pytest.raises(ValueError, match="1 to 10"):
        lay_plan(tree_of({}), [], place_of("north"), DAY, years, book(), planning())


def test_a_leap_day_is_no_fault() -> None:
    plan = lay_plan(tree_of({"species": "Acer"}), [], place_of("north"), dt.date(2028, 3, 1), 1, book(), planning())
    assert plan.until == "2029-02-28"
