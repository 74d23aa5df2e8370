"""Work told of the past is judged by its own days and leaves nothing to do that lies behind; what is told twice is
counted once, and care that follows is due when nothing holds it."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from example_runner import PLACE, built, place_of

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.practice import advise, gather
from benchmate.practice.advice import Advice, Option

NORTH = place_of(PLACE)
JUNE = dt.date(2026, 6, 14)


def told(reading: Reading, species: str, on: dt.date, entries: tuple[Entry, ...] = (), **tree: str) -> Advice:
    book = built()[2]
    grown = Tree("Anvil", "anvil", species, **{"phase": "structure", "health": "healthy", **tree})
    return advise(reading, gather(reading, grown, list(entries), NORTH, on, book), book, NORTH, on)


def did(work: str, when: str | None = None) -> Reading:
    return Reading("told", ("decide",), work=(Work(work, done="done"),), when=when)


def option(advice: Advice, work: str) -> Option:
    return next(one for one in advice.options if one.work == work)


def entry(on: dt.date, work: str, **more: Any) -> Entry:
    return Entry(f"{on}-{work}", on, "done", work=({"work": work, **more},))


@pytest.mark.parametrize(
    ("when", "on", "verdict"),
    [
        ("2026-03", JUNE, "go"),
        ("2026-03-20", JUNE, "go"),
        ("2026-01", JUNE, "hold"),
        ("2026-06-12", JUNE, "hold"),
        (None, JUNE, "hold"),
    ],
)
def test_work_of_the_past_is_judged_by_its_days(when, on, verdict):
    assert option(told(did("repot", when), "Acer palmatum", on), "repot").verdict == verdict


@pytest.mark.parametrize(
    ("when", "done_on"),
    [("2026-03", dt.date(2026, 3, 31)), ("2026-05-01", dt.date(2026, 5, 1)), ("2026-06-04", dt.date(2026, 6, 4))],
)
def test_nothing_follows_that_lies_behind(when, done_on):
    follow = option(told(did("repot", when), "Acer palmatum", JUNE), "repot").follow
    assert follow
    # follow-ups are counted from today and moved back by as much as the work lies behind
    assert all(dt.date.fromisoformat(one.on) - (JUNE - done_on) >= JUNE for one in follow)


def test_the_season_of_today_is_what_is_left():
    cut = Reading("told", ("decide",), work=(Work("shorten", done="done", measures={"share": 0.2}),), when="2025-09")
    assert told(cut, "Ulmus parvifolia", JUNE).dose_left == pytest.approx(0.25)


@pytest.mark.parametrize("work", ["shorten", "remove"])
def test_a_leader_kept_and_its_rival_cut_are_one_cut(work):
    kept = entry(JUNE, "select-leader", side="left")
    ask = Reading("what now", ("ask",), "advice")
    alone = told(ask, "Ulmus parvifolia", JUNE, (entry(JUNE, work, side="right"),))
    both = told(ask, "Ulmus parvifolia", JUNE, (kept, entry(JUNE, work, side="right")))
    other = told(ask, "Ulmus parvifolia", JUNE, (kept, entry(JUNE, work, part="branch", side="right")))
    assert both.dose_left == alone.dose_left
    assert other.dose_left is not None
    assert both.dose_left is not None
    assert other.dose_left < both.dose_left


@pytest.mark.parametrize(
    ("species", "phase"),
    [("Fagus sylvatica", "refinement"), ("Acer palmatum", "refinement"), ("Tilia cordata", "trunk")],
)
def test_the_feed_that_follows_a_repot_is_due_when_it_may_be_given(species, phase):
    on = dt.date(2026, 3, 20)
    after = option(told(did("repot"), species, on, phase=phase), "repot").follow
    due = next(dt.date.fromisoformat(one.on) for one in after if one.work == "feed")
    asked = Reading("can I", ("ask",), "may", work=(Work("feed"),))
    record = (entry(on, "repot"),)
    assert option(told(asked, species, due, record, phase=phase), "feed").verdict != "hold"
    assert option(told(asked, species, due - dt.timedelta(days=1), record, phase=phase), "feed").verdict == "hold"


@pytest.mark.parametrize("finding", ["whorl", "crossing", "upright", "water-shoots"])
def test_the_trunk_is_never_taken_for_what_sits_on_it(finding):
    seen = Fact("finding", finding, spot=Spot("trunk"))
    advice = told(Reading("seen", ("observe", "ask"), "advice", facts=(seen,)), "Acer campestre", JUNE)
    assert not [one for one in advice.options if one.spot.part == "trunk" and one.work in ("remove", "shorten")]


def test_work_that_was_done_goes_before_what_was_left():
    works = (
        Work("leave", Spot("branch", level="low"), done="done"),
        Work("thin-leaves", Spot(level="high"), done="done"),
    )
    advice = told(Reading("told", ("decide",), work=works), "Acer campestre", JUNE, health="strong")
    assert [one.work for one in advice.options if one.verdict == "go"][:2] == ["thin-leaves", "leave"]


def test_weakness_is_told_before_the_time_of_year():
    asked = Reading("can I", ("ask",), "may", work=(Work("repot"),))
    weak = option(told(asked, "Larix decidua", dt.date(2027, 2, 15), health="weak"), "repot")
    assert weak.against[0].rule != "repot-conifers-not-before-spring"
    assert "repot-conifers-not-before-spring" in [reason.rule for reason in weak.against]
