"""The plan laid out: wishes to candidates, the best of them chosen, each told with its reasons and what hangs on it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from benchmate.garden.record import Entry, Place, Tree
from benchmate.planning.candidate import Candidate
from benchmate.planning.candidates import Chances, chances
from benchmate.planning.items import items_of
from benchmate.planning.judge import Judge
from benchmate.planning.left_out import left_out
from benchmate.planning.lessons import Lesson
from benchmate.planning.outlook import outlook_of
from benchmate.planning.plan import Plan
from benchmate.planning.search import Best, Chosen, Problem, Search
from benchmate.planning.tuning import Tuning, tuning_of
from benchmate.planning.wishes import PlanBook
from benchmate.planning.world import World
from benchmate.practice.advice import Ask
from benchmate.practice.book import RuleBook
from benchmate.value import dataclass

MOST_YEARS = 10
# how many ways the search may carry side by side, and how many in all, so that a long plan ends in good time
_LEAST_WAYS, _ALL_WAYS = 150, 250_000
_ASKED = ("species", "phase", "health")


@dataclass
class Layout:
    """A plan in the making: the candidates in order, the judge, what was chosen."""

    world: World
    judge: Judge
    every: tuple[Chances, ...]
    candidates: tuple[Candidate, ...]
    search: Search
    best: Best

    @property
    def chosen(self) -> tuple[Candidate, ...]:
        return tuple(self.candidates[number] for number in self.best.chosen)


def lay_plan(
    tree: Tree,
    entries: Sequence[Entry],
    place: Place,
    on: dt.date,
    years: int,
    book: RuleBook,
    planning: PlanBook,
    lessons: Sequence[Lesson] = (),
) -> Plan:
    """Works laid over the coming seasons toward the tree's next phase, the most value that the rules let stand.

    years: 1 to 10, from `on`. lessons: what this garden's journals taught, which goes before the defaults. Raises
    ValueError for another number of years.
    """
    layout = lay_out(tree, entries, place, on, years, book, planning, lessons)
    world = layout.world
    items = items_of(layout)
    return Plan(
        tree=tree.name,
        species=tree.species,
        on=on.isoformat(),
        until=world.until.isoformat(),
        years=years,
        phase=world.step(on).phase,
        toward=str(planning.toward.get(world.step(on).phase or "", {}).get("says", "")),
        items=items,
        left_out=left_out(layout),
        assumed=_assumed(world, layout.judge.tuning.told, layout.best.exact),
        exact=layout.best.exact,
        asks=_asks(world),
        outlook=outlook_of(items, world, layout.judge.tuning, lessons),
        worth=layout.best.value,
    )


def lay_out(
    tree: Tree,
    entries: Sequence[Entry],
    place: Place,
    on: dt.date,
    years: int,
    book: RuleBook,
    planning: PlanBook,
    lessons: Sequence[Lesson] = (),
) -> Layout:
    """The search itself, with everything that the telling of its result wants to look at."""
    return laid(*opened(tree, entries, place, on, years, book, planning, lessons))


def opened(
    tree: Tree,
    entries: Sequence[Entry],
    place: Place,
    on: dt.date,
    years: int,
    book: RuleBook,
    planning: PlanBook,
    lessons: Sequence[Lesson] = (),
) -> tuple[World, Tuning]:
    """What a plan is laid in. Raises ValueError for a number of years that cannot be planned."""
    if not 1 <= years <= MOST_YEARS:
        raise ValueError(f"{years} years cannot be planned; 1 to {MOST_YEARS} would do")
    world = World(tree, entries, place, on, _years_on(on, years), book, planning)
    kinds = {**world.traits, "group": world.today.entry.get("groups", ())}
    return world, tuning_of(kinds, lessons, planning.bounds, planning.lesson)


def laid(world: World, tuning: Tuning) -> Layout:
    """The best of all chances chosen."""
    judge = Judge(world, tuning)
    every = tuple(chances(world, tuning))
    found = sorted(
        (one for row in every for one in row.candidates),
        key=lambda one: (one.opens, one.closes, one.wish.id, str(one.spot)),
    )
    search = Search(problem_of(found, judge))
    return Layout(world, judge, every, tuple(found), search, search.best())


def problem_of(found: Sequence[Candidate], judge: Judge) -> Problem:
    """The candidates, in order of their first days, as a problem of choice under the judge's predicate."""

    def allowed(number: int, chosen: Chosen) -> bool:
        return judge.joins(found[number], [found[one] for one in chosen])

    def shuts(one: int, other: int) -> bool:
        return judge.shuts(found[one], found[other])

    bearing = set(_bearing(found, judge))
    free = [judge.touching.free(number, found) for number in range(len(found))]
    return Problem(
        values=[max(1, one.value) for one in found],
        days=[one.opens.toordinal() for one in found],
        allowed=allowed,
        bears=lambda one, other: (one, other) in bearing,
        chains=["heavy" if one.wish.heavy else one.key for one in found],
        shuts=shuts,
        free=free.__getitem__,
        most_ways=max(_LEAST_WAYS, _ALL_WAYS // max(1, len(found))),
    )


def _bearing(found: Sequence[Candidate], judge: Judge) -> Iterator[tuple[int, int]]:
    """Pairs of which the first, chosen, may change whether the second may join.

    A work that overlaps with a later one is judged again when that joins, so what bears on it matters until then.
    """
    count = len(found)
    bears = [[n for n in range(other) if judge.touching.bears(found[n], found[other])] for other in range(count)]
    for other in range(count):
        yield from ((one, other) for one in bears[other])
        for near in bears[other]:
            if found[near].closes >= found[other].opens:
                yield from ((one, other) for one in bears[near])
                yield from ((one, other) for one in range(near + 1, other) if near in bears[one])


def _years_on(day: dt.date, years: int) -> dt.date:
    """The day before the same day so many years on."""
    day -= dt.timedelta(days=1)
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)


def _assumed(world: World, told: Sequence[str], exact: bool) -> tuple[str, ...]:
    """What the plan takes to be so, in words."""
    said = world.planning.bounds["says"]
    out = []
    for before, after in zip(world.steps, world.steps[1:], strict=False):
        day = f"{after.since.day} {after.since:%B %Y}"
        if after.health != before.health:
            out.append(f"it is {after.health} by {day}, if it mends as trees do")
        if after.phase != before.phase:
            out.append(f"the {after.phase} phase begins by {day}")
    if len(world.steps) == 1 and world.steps[0].health:
        out.append(f"it stays as {world.steps[0].health} as it is now")
    out.append(str(said["usual-dates"]["says"]))
    if not exact:
        out.append(str(said["not-exact"]["says"]))
    return (*out, *told)


def _asks(world: World) -> tuple[Ask, ...]:
    """What is not known and would change the plan."""
    lacks = [kind for kind in _ASKED if not world.today.first(kind)]
    return tuple(Ask(kind, str(world.book.questions[kind]["says"])) for kind in lacks if world.book.questions.get(kind))
