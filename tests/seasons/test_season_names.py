"""Seasons by name, and the bounds of a growing season."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from season_files import PLACES, TABLES, cases

from benchmate.seasons import next_growth, season_name, season_span, season_start

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2090, 12, 31))


@pytest.mark.parametrize("case", cases("names"))
def test_season_of_a_day(case: dict[str, Any]) -> None:
    assert season_name(case["on"], case["southern"], TABLES) == case["name"]
    assert season_span(case["name"], case["southern"], TABLES) == (case["first"], case["last"])


@given(DAYS, st.booleans())
def test_every_day_lies_in_its_season(on: dt.date, southern: bool) -> None:
    first, last = season_span(season_name(on, southern, TABLES), southern, TABLES)
    assert first <= on <= last and 89 <= (last - first).days <= 91


@pytest.mark.parametrize("name", ["2026-monsoon", "spring", "2026", "-spring", "2026-first_month"])
def test_a_name_that_is_no_season_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="not a year and a season"):
        season_span(name, False, TABLES)


@pytest.mark.parametrize("case", cases("growing"))
def test_growing_season(case: dict[str, Any]) -> None:
    place = PLACES[case["place"]]
    assert case["starts"][0] <= season_start(case["on"], place, TABLES) <= case["starts"][1]
    assert case["growth"][0] <= next_growth(case["on"], place, TABLES) <= case["growth"][1]


@given(DAYS, st.sampled_from(sorted(PLACES)))
def test_a_day_lies_between_its_season_and_the_next_growth(on: dt.date, name: str) -> None:
    place = PLACES[name]
    start, growth = season_start(on, place, TABLES), next_growth(on, place, TABLES)
    assert start <= on < growth and (on - start).days <= 366 and (growth - on).days <= 366
