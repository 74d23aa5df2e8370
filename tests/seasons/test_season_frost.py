"""Days to the frosts of a place, and how a place's year stands."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from season_files import PLACES, TABLES, cases

from benchmate.garden.record import Place
from benchmate.seasons import before_first_frost, frost_days, is_southern, month_day, spring_frost_days, turned
from benchmate.seasons.year import year_of

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2090, 12, 31))
RIPENING = TABLES["frost"]["ripening"]["days"]


@pytest.mark.parametrize("case", cases("frost"))
def test_days_to_frost(case: dict[str, Any]) -> None:
    place = PLACES[case["place"]]
    assert frost_days(case["on"], place, TABLES) == case.get("frost_days")
    assert spring_frost_days(case["on"], place, TABLES) == case.get("spring_frost_days")


@given(DAYS, DAYS, DAYS)
def test_days_to_frost_lead_to_the_frost(on: dt.date, last: dt.date, first: dt.date) -> None:
    place = Place(latitude=50.0, last_frost=(last.month, last.day), first_frost=(first.month, first.day))
    days = frost_days(on, place, TABLES)
    assert days is not None and -RIPENING <= days <= 366
    frost = on + dt.timedelta(days=days)
    # a frost on 29 February is that of the 28th in a common year
    assert (frost.month, frost.day) in {place.first_frost, (2, 28)}


@given(DAYS, st.integers(0, 120))
def test_a_day_before_the_frost(on: dt.date, days: int) -> None:
    day = before_first_frost(days, on, PLACES["north"], TABLES)
    assert day
    frost = day + dt.timedelta(days=days)
    assert (frost.month, frost.day) == (10, 20) and on <= frost


def test_no_day_before_a_frost_that_does_not_come() -> None:
    assert before_first_frost(42, dt.date(2026, 6, 1), PLACES["equator"], TABLES) is None


@pytest.mark.parametrize(
    ("name", "spring", "autumn"),
    [
        ("north", (4, 25), (10, 20)),
        ("south", (10, 5), (5, 5)),
        ("mild", (3, 15), (11, 20)),
        ("frost-free-north", (3, 15), (11, 20)),
        ("frost-free-south", (9, 15), (5, 20)),
        ("spring-only", (4, 25), (10, 14)),
        ("equator", None, None),
        ("nowhere", None, None),
    ],
)
def test_a_place_has_its_year(name: str, spring: tuple[int, int] | None, autumn: tuple[int, int] | None) -> None:
    year = year_of(PLACES[name], TABLES)
    assert (year.spring, year.autumn) == (spring, autumn)


def test_frosts_over_the_new_year_are_those_of_a_mild_place() -> None:
    year = year_of(Place(latitude=36.0, last_frost=(12, 28), first_frost=(1, 10)), TABLES)
    assert (year.spring, year.autumn) == ((3, 15), (11, 20))


def test_hemisphere_comes_from_latitude_else_from_the_frosts() -> None:
    assert is_southern(PLACES["south"]) and is_southern(PLACES["no-latitude-south"])
    assert is_southern(Place(first_frost=(5, 5))) and not is_southern(Place(first_frost=(10, 20)))
    assert not is_southern(PLACES["north"]) and not is_southern(PLACES["nowhere"])


@given(DAYS)
def test_turning_twice_comes_back_to_the_month(day: dt.date) -> None:
    back = turned(turned((day.month, day.day), True), True)
    assert back[0] == day.month and 0 <= day.day - back[1] <= 3


def test_a_month_day_is_read() -> None:
    assert month_day("02-29") == (2, 29)
