"""The stage that the date suggests, and what one stage says of another."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from season_files import KINDS, PLACES, TABLES, cases

from benchmate.garden.record import Place
from benchmate.seasons import guess_stage, stage_truth

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2090, 12, 31))
MONTH_DAYS = DAYS.map(lambda day: (day.month, day.day))
STAGES = sorted(TABLES["stages"]["stage"])


@pytest.mark.parametrize("case", cases("stages"))
def test_the_date_suggests_the_stage(case: dict[str, Any]) -> None:
    guess = guess_stage(KINDS[case["kind"]], PLACES[case["place"]], case["on"], TABLES)
    assert (guess.stage if guess else None) == case.get("stage")
    assert (guess.flush if guess else None) == case.get("flush")


def test_a_suggestion_tells_its_ground() -> None:
    guess = guess_stage(KINDS["maple"], PLACES["north"], dt.date(2026, 3, 20), TABLES)
    assert guess and guess.how == "usual for a deciduous broadleaf from 11 March on"
    assert (guess.since, guess.until) == (dt.date(2026, 3, 11), dt.date(2026, 4, 4))


def test_a_suggestion_without_frost_says_so() -> None:
    guess = guess_stage(KINDS["fig"], PLACES["equator"], dt.date(2026, 3, 20), TABLES)
    assert guess and guess.how == "usual for a tree that is kept warm in winter where there is no frost"
    assert (guess.since, guess.until) == (None, None)


@given(st.sampled_from(sorted(set(KINDS) - {"unheard-of"})), DAYS, MONTH_DAYS, MONTH_DAYS, st.floats(-66, 66))
def test_every_day_of_a_place_with_frost_has_one_stage(
    kind: str, on: dt.date, last: tuple[int, int], first: tuple[int, int], latitude: float
) -> None:
    guess = guess_stage(KINDS[kind], Place(latitude=latitude, last_frost=last, first_frost=first), on, TABLES)
    assert guess and guess.stage in STAGES
    assert guess.since and guess.until and guess.since <= on <= guess.until


@given(st.sampled_from(["maple", "pine", "juniper", "box", "larch", "fig"]), DAYS)
def test_the_south_is_half_a_year_behind(kind: str, on: dt.date) -> None:
    """A garden whose frosts are turned by six months goes through the same stages as its northern twin, near enough."""
    south = Place(latitude=-51.5, last_frost=(10, 25), first_frost=(4, 20))
    order = [step["stage"] for clock in TABLES["clocks"]["clock"] for step in clock["steps"]]
    here = guess_stage(KINDS[kind], PLACES["north"], on, TABLES)
    # half a year is 181 to 184 days, so a stage may begin a few days earlier or later
    there = {
        guess.stage
        for days in range(179, 188)
        if (guess := guess_stage(KINDS[kind], south, on + dt.timedelta(days=days), TABLES))
    }
    assert here and here.stage in there and there <= set(order)


@pytest.mark.parametrize("case", cases("truth"))
def test_one_stage_says_of_another(case: dict[str, Any]) -> None:
    truth = stage_truth(case["known"], case["asked"], TABLES, case.get("leaf"))
    assert truth is {"true": True, "false": False, "unknown": None}[case["truth"]]


@given(st.sampled_from(STAGES), st.sampled_from(STAGES), st.sampled_from([None, "deciduous", "needle"]))
def test_stages_agree_both_ways(one: str, other: str, leaf: str | None) -> None:
    """What one stage makes certain the other does not rule out; what one rules out the other never makes certain."""
    if stage_truth(one, other, TABLES, leaf) is True:
        assert stage_truth(other, one, TABLES, leaf) is not False
    if stage_truth(one, other, TABLES, leaf) is False:
        assert stage_truth(other, one, TABLES, leaf) is not True


@given(
    st.sampled_from(STAGES),
    st.sampled_from(STAGES),
    st.sampled_from(STAGES),
    st.sampled_from([None, "deciduous", "needle"]),
)
def test_what_follows_from_what_follows(one: str, two: str, three: str, leaf: str | None) -> None:
    if stage_truth(one, two, TABLES, leaf) and stage_truth(two, three, TABLES, leaf):
        assert stage_truth(one, three, TABLES, leaf) is True
