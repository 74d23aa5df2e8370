"""Forecasts: tips, trunk, and the year in which a branch comes off."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest
from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import NORTH, book, entries_of, planning, tree_of

from benchmate.planning import Outlook, lay_plan, taught, tips_after

CASES = tomllib.loads((Path(__file__).parent / "cases" / "outlook.toml").read_text(encoding="utf-8"))["case"]
DAY = dt.date(2026, 6, 14)
TIPS = planning().tips


def forecast(case: dict[str, Any]) -> Outlook | None:
    tree, entries = tree_of(case["tree"]), entries_of(case.get("journal", []))
    lessons = taught(tree, [(tree, entries)], DAY, NORTH, book(), planning().lesson) if case.get("lessons") else ()
    plan = lay_plan(tree, entries, NORTH, DAY, case.get("years", 3), book(), planning(), lessons)
    return next((one for one in plan.outlook if one.what == case["ask"]), None)


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_forecast(case: dict[str, Any]) -> None:
    found = forecast(case)
    if case.get("absent"):
        assert found is None
        return
    assert found is not None
    assert case.get("says", "") in found.how
    assert not case.get("notes") or any(case["notes"] in note for note in found.notes), found.notes
    if case.get("none"):
        assert found.value is None and found.low is None and found.high is None
    for key in ("value", "low", "high"):
        if key in case:
            spare = 0.5 if found.unit == "year" else 0.05 * case[key]
            assert getattr(found, key) == pytest.approx(case[key], abs=spare), found


@given(st.lists(st.sampled_from(sorted(TIPS)), min_size=1, max_size=8))
@settings(deadline=None)
def test_tips_multiply_and_their_range_holds_the_value(works: list[str]) -> None:
    found = tips_after(works, TIPS)
    assert found is not None and found.value is not None and found.low is not None and found.high is not None
    product = 1.0
    for work in works:
        product *= TIPS[work]["value"]
    assert found.value == pytest.approx(product, abs=0.01)
    assert found.low <= found.value <= found.high
    # independent spreads: narrower than if all were low at once
    lows = highs = 1.0
    for work in works:
        lows, highs = lows * TIPS[work]["low"], highs * TIPS[work]["high"]
    assert lows - 0.01 <= found.low and found.high <= highs + 0.01


def test_buds_that_were_counted_go_before_the_usual_ones() -> None:
    seen = tips_after(["shorten"], TIPS, (2.0, 3.0, 4.0))
    assert seen is not None and seen.value == 3.0
    assert tips_after([], TIPS) is None


@given(gardens(most_years=2))
@settings(max_examples=25, deadline=None)
def test_every_forecast_tells_its_range_and_mark(garden: Garden) -> None:
    plan = lay_plan(garden.tree, garden.entries, garden.place, garden.on, garden.years, book(), planning())
    for one in plan.outlook:
        assert one.how and one.mark in ("published", "practice", "memory")
        if one.value is not None:
            assert one.low is not None and one.high is not None and one.low <= one.value <= one.high
