"""The day that an answer names is true when it comes: asked again then the work is free, and it was on none before."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import pytest
from example_runner import answer, built
from sweeping import PLACES, kinds, matcher_of, target_of, year

from benchmate.practice.advice import AVOID, HOLD
from benchmate.practice.later import Days, settled
from benchmate.practice.weigh import weigh

WORKS = ("shorten", "shorten:hard", "remove", "wire", "repot", "collect", "air-layer", "graft", "pinch", "feed")
# of the kinds, one in so many is asked about; days between two on which it is asked; days between two looks on the way
KIND_STEP = 9
DAY_STEP = 73
LOOK = dt.timedelta(days=14)
STATE = "strong"


def told(taxon: str, place: str, on: dt.date) -> Iterator[tuple[str, dt.date]]:
    """Works that are held on a day, each with the day that the answer names."""
    _, _, book = built()
    matcher = matcher_of(taxon, place, on, STATE)
    days = Days(matcher.facts, book, PLACES[place])
    for work in WORKS:
        held = weigh(target_of(work), matcher)
        if held.option.verdict == HOLD:
            opens = settled(held, days, False).option.opens
            if opens:
                yield work, dt.date.fromisoformat(opens)


def is_free(taxon: str, place: str, on: dt.date, work: str) -> bool:
    return weigh(target_of(work), matcher_of(taxon, place, on, STATE)).option.verdict not in (HOLD, AVOID)


@pytest.mark.parametrize("part", range(4))
def test_told_day_is_true_when_it_comes_and_none_before_it_was_free(part: int) -> None:
    wrong = []
    for number, taxon in list(enumerate(kinds()[::KIND_STEP]))[part::4]:
        place = tuple(PLACES)[number % len(PLACES)]
        for on in year(1)[(number * 11) % DAY_STEP :: DAY_STEP]:
            for work, day in told(taxon, place, on):
                asked = f"{work} on {taxon}, {place}, asked {on}: from {day}"
                if not is_free(taxon, place, day, work):
                    wrong.append(f"{asked}, and held then")
                look = on + LOOK
                while look < day:
                    if is_free(taxon, place, look, work):
                        wrong.append(f"{asked}, and free on {look}")
                        break
                    look += LOOK
    assert not wrong, "\n".join(wrong)


def test_a_tree_behind_or_ahead_of_its_date_is_told_the_days_of_its_own_spring() -> None:
    tree = {"species": "Acer campestre", "health": "healthy", "phase": "structure"}
    days = []
    for on in (dt.date(2026, 4, 5), dt.date(2026, 5, 1), dt.date(2026, 5, 30)):
        told = answer({"say": "the leaves are unfolding, can I shorten the branches", "tree": tree, "on": on})
        days.append(next(option.opens or "" for option in told.options if option.work == "shorten"))
    assert "2026-04-15" < days[0] < days[1] < days[2] < "2026-07-15"


def test_no_year_is_skipped_for_a_tree_that_wakes_late() -> None:
    tree = {"species": "Punica granatum", "health": "healthy", "phase": "structure"}
    told = answer({"say": "it is still dormant, can I repot it", "tree": tree, "on": dt.date(2026, 5, 10)})
    held = next(option for option in told.options if option.work == "repot")
    assert held.verdict == HOLD
    assert "2026-05-10" < str(held.opens) < "2026-07-15"
