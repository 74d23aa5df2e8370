"""Days to come: the short ways that the search takes against the long ones that advice takes."""

from __future__ import annotations

import datetime as dt
import random
from itertools import pairwise

from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import book, planning

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Fact, Reading, Spot
from benchmate.planning.turning import turning_days
from benchmate.planning.verdicts import verdict_on
from benchmate.planning.world import World
from benchmate.practice import gather
from benchmate.practice.facts import Done, Facts
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.practice.weigh import weigh

_DAY = dt.timedelta(days=1)
TARGETS = (
    Target("repot"), Target("shorten", Spot("shoot"), {"share": 0.1}), Target("shorten", manner=("hard",)),
    Target("wire", Spot("branch")), Target("defoliate"), Target("leaf-cut"), Target("candle-cut"), Target("feed"),
    Target("remove", Spot("branch", "left")), Target("pinch"), Target("thin-needles"), Target("select-leader"),
)  # fmt: skip


def world_of(garden: Garden) -> World:
    until = garden.on + dt.timedelta(days=365 * garden.years)
    return World(garden.tree, garden.entries, garden.place, garden.on, until, book(), planning())


def gathered(garden: Garden, world: World, day: dt.date, done: list[Done]) -> Facts:
    """The facts as advice would gather them on that day, the works being in the journal."""
    entries = [
        Entry(f"{one.last}-{n}", one.last, "done", work=({"work": one.work, **one.spot.as_json(), "share": one.share},))
        for n, one in enumerate(done)
    ]
    talk = [Fact(kind, value) for kind, value in world.step(day).taken]
    return gather(Reading(""), garden.tree, [*garden.entries, *entries], garden.place, day, book(), talk)


def seen(facts: Facts) -> dict[str, set[tuple[object, ...]]]:
    """What tests may ask of facts; where they come from is left aside."""
    return {
        kind: {(known.value, known.spot, known.denied) for known in rows} for kind, rows in facts.known.items() if rows
    }


@given(gardens(), st.integers(0, 1200), st.randoms(use_true_random=False))
@settings(max_examples=120, deadline=None)
def test_facts_of_a_day_are_those_that_advice_gathers(garden: Garden, ahead: int, rng: random.Random) -> None:
    world = world_of(garden)
    day = min(garden.on + dt.timedelta(days=ahead), world.end)
    span = (day - garden.on).days
    works = rng.sample(("repot", "wire", "unwire", "shorten", "remove", "treat"), 2) if span else []
    done = [Done(work, d := garden.on + dt.timedelta(days=rng.randint(1, span)), d) for work in works]
    short, long = world.facts(day, done), gathered(garden, world, day, done)
    assert seen(short) == seen(long)
    assert short.season_start == long.season_start and short.measures == long.measures and short.on == long.on
    mine = {(one.work, one.first, one.last, one.spot) for one in short.done}
    assert mine == {(one.work, one.first, one.last, one.spot) for one in long.done}


@given(gardens(), st.sampled_from(TARGETS), st.integers(0, 1100))
@settings(max_examples=150, deadline=None)
def test_the_short_verdict_is_the_one_of_advice(garden: Garden, target: Target, ahead: int) -> None:
    world = world_of(garden)
    day = garden.on + dt.timedelta(days=ahead)
    option = weigh(target, Matcher(book(), world.facts(day), world.almanac(day))).option
    said = verdict_on(target, day, world)
    assert said.verdict == option.verdict
    if option.verdict in ("hold", "avoid"):
        assert {reason.rule for reason in said.against} <= {reason.rule for reason in option.against}


@given(gardens(), st.sampled_from(TARGETS), st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_between_two_turns_the_word_is_the_same(garden: Garden, target: Target, rng: random.Random) -> None:
    world = world_of(garden)
    turns = [*turning_days(target.work, world), world.end + _DAY]
    for first, after in rng.sample(list(pairwise(turns)), min(12, len(turns) - 1)):
        said = verdict_on(target, first, world)
        for day in {after - _DAY, first + dt.timedelta(days=rng.randint(0, (after - first).days - 1))}:
            again = verdict_on(target, day, world)
            assert (again.verdict, again.weight) == (said.verdict, said.weight), (first, day)
