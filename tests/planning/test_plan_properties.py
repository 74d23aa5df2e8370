"""Plans of gardens of every shape: no rule is ever broken, however the works fall within their windows."""

from __future__ import annotations

import datetime as dt
import random
from dataclasses import replace
from itertools import pairwise

from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import book, entry_for, lived, planning, verdict_of, without_memory

from benchmate import seasons
from benchmate.planning import Plan, lay_plan
from benchmate.planning.lay import Layout, lay_out
from benchmate.practice.taxa import taxon_entry

_LIVE = ("shorten", "pinch", "leaf-cut", "thin-leaves", "defoliate", "candle-cut", "candle-shorten", "thin-needles")
_SHAPING = ("wire", "bend", "guy", "air-layer", "graft", "deadwood", "select-leader", "repot", "root-prune")


def layout_of(garden: Garden) -> Layout:
    return lay_out(garden.tree, garden.entries, garden.place, garden.on, garden.years, book(), planning())


def plan_of(garden: Garden) -> Plan:
    return lay_plan(garden.tree, garden.entries, garden.place, garden.on, garden.years, book(), planning())


def day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)


@given(gardens())
@settings(max_examples=20, deadline=None)
def test_the_predicate_holds_for_the_whole_plan(garden: Garden) -> None:
    """Also when every item is judged by all others, not only by those that the search took to bear on it."""
    layout = without_memory(layout_of(garden))
    assert [(one.wish.id, found.kind) for one, found in layout.judge.plan_breaks(layout.chosen)] == []


@given(gardens(), st.randoms(use_true_random=False))
@settings(max_examples=24, deadline=None)
def test_no_plan_breaks_a_rule(garden: Garden, rng: random.Random) -> None:
    plan = plan_of(garden)
    the_bench_stops_nothing(plan, garden, rng)
    one_serious_work_a_season(plan, garden)
    trees_that_mend_are_left_alone(plan, garden)
    kinds_are_given_only_what_they_bear(plan, garden)
    the_same_work_keeps_its_distance(plan)
    needs_and_moves_hold_together(plan, garden)


def the_bench_stops_nothing(plan: Plan, garden: Garden, rng: random.Random) -> None:
    """Each work is done on some day of its window and logged, and before each the bench is asked."""
    journal = list(garden.entries)
    for when, item in lived(plan.items, rng):
        verdict, against = verdict_of(item, when, garden.tree, journal, garden.place)
        assert verdict in ("go", "ask"), (item.id, when, against)
        journal.append(entry_for(when, item))


def one_serious_work_a_season(plan: Plan, garden: Garden) -> None:
    heavy = [item for item in plan.items if item.heavy]
    for one, other in pairwise(heavy):
        start = seasons.season_start(day(other.opens), garden.place, book().seasons)
        assert day(one.closes) < start, (one.id, other.id)


def trees_that_mend_are_left_alone(plan: Plan, garden: Garden) -> None:
    """A weak tree is not worked on, nor one in recovery, nor one that was dug up less than 540 days ago."""
    dug = [entry.day for entry in garden.entries for work in entry.work if work.get("work") == "collect"]
    if garden.tree.since and "collected" in (garden.tree.origin or ""):
        dug.append(garden.tree.since)
    for item in plan.items:
        if item.work in (*_LIVE, *_SHAPING) and item.wish != "repot-out-of-wet-soil":
            taken = dict(item.taken)
            assert taken.get("health") not in ("weak", "declining", "recovering"), item.id
            assert taken.get("phase") != "recovery", item.id
            assert all((day(item.opens) - one).days >= 540 for one in dug), item.id


def kinds_are_given_only_what_they_bear(plan: Plan, garden: Garden) -> None:
    entry = taxon_entry(garden.tree.species, book().taxa) if garden.tree.species else {}
    for item in plan.items:
        if item.work == "candle-cut":
            assert "two-flush-pine" in entry["groups"]
        if item.work == "defoliate":
            assert entry["traits"]["leaf-removal"]["is"] == "full" and entry["traits"]["flush"]["is"] != "single"


def the_same_work_keeps_its_distance(plan: Plan) -> None:
    for work, days in {"repot": 330, "defoliate": 430, "wire": 90}.items():
        for one, other in pairwise(item for item in plan.items if item.work == work):
            assert (day(other.opens) - day(one.closes)).days >= days, (one.id, other.id)
            off = [item for item in plan.items if item.work == "unwire" and item.needs == (one.id,)]
            assert all(day(item.closes) < day(other.opens) for item in off)


def needs_and_moves_hold_together(plan: Plan, garden: Garden) -> None:
    named = {item.id: item for item in plan.items}
    assert len(named) == len(plan.items)
    for item in plan.items:
        assert garden.on <= day(item.opens) <= day(item.closes)
        assert day(item.opens) <= day(plan.until) or item.needs, item.id
        assert all(day(named[need].closes) < day(item.opens) for need in item.needs)
        reasons = (*item.why, *item.not_sooner)
        assert item.why and all(one.says and one.mark in ("published", "practice", "memory") for one in reasons)
        assert all(day(str(move.opens)) > day(item.closes) for move in item.moves if move.opens)
        assert not item.moves or item.moves[0].id == item.id
    held = {(item.wish, item.spot) for item in plan.items}
    assert all(row.why and (row.wish, row.spot) not in held for row in plan.left_out)


@given(gardens(most_years=1), st.randoms(use_true_random=False))
@settings(max_examples=12, deadline=None)
def test_the_order_of_the_journal_changes_nothing(garden: Garden, rng: random.Random) -> None:
    entries = list(garden.entries)
    days = {entry.day for entry in entries}
    rng.shuffle(entries)
    # entries of one day stand in the order that they were written in
    again = replace(garden, entries=tuple(entries)) if len(days) == len(entries) else garden
    assert plan_of(garden) == plan_of(again)
