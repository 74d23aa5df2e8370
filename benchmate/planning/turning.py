"""The days on which the rule base may change its word on a work. Between two of them one look answers for all days."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from itertools import pairwise

from benchmate import seasons
from benchmate.hearing.reading import Spot
from benchmate.planning.world import World
from benchmate.practice.book import Rule
from benchmate.practice.budget import takes
from benchmate.practice.condition import Clause
from benchmate.practice.truth import Where, clause_truth

_DAY = dt.timedelta(days=1)
_YEAR = dt.timedelta(days=365)
_NUMBERS: seasons.Kept[tuple[tuple[dt.date, float], ...]] = seasons.Kept(60)
_LASTING = ("species", "trait")
_ANYWHERE = Where(Spot(part="tree"), Spot(part="tree"))
_BY_DATE = ("frost_days", "spring_frost_days", "day_length_h")


def turning_days(work: str, world: World) -> list[dt.date]:
    """First days of the spans in which the rules say the same of a work, the works of a plan left aside."""
    if work not in world.turning:
        world.turning[work] = _turning(work, world)
    return world.turning[work]


def _turning(work: str, world: World) -> list[dt.date]:
    rules = rules_on(work, world)
    days = {world.on, *world.turns, *season_turns(world)}
    days |= {day for pair in {rule.between for rule in rules if rule.between} for day in _between(pair, world)}
    days |= set(_limits(rules, world))
    days |= set(_since(rules, world))
    return sorted(day for day in days if world.on <= day <= world.end)


def rules_on(work: str, world: World) -> list[Rule]:
    """The rules that bear on a work, with the caps of the season's budget where it takes leaf or root. Those for other
    kinds of trees are left out: they are false on every day."""
    book = world.book
    numbers = {number for numbers in book.index.get(work, {}).values() for number in numbers}
    cap = {"foliage": "cap", "root": "root_cap"}.get(takes(work, book))
    if cap:
        numbers |= set(book.budget.get(cap, ()))
    rules = (book.rules[number] for number in sorted(numbers))
    return [rule for rule in rules if not any(_of_other_kinds(clause, world) for clause in rule.condition)]


def _of_other_kinds(clause: Clause, world: World) -> bool:
    """Whether a clause that speaks of nothing but the kind of tree is false of this one, as it then is on every day."""
    known = world.other_kinds.get(id(clause))
    if known is None:
        lasting = all(test.kind in _LASTING for tests in clause for test in tests)
        known = lasting and clause_truth(clause, world.today, _ANYWHERE, world.book.places) is False
        world.other_kinds[id(clause)] = known
    return known


def season_turns(world: World) -> tuple[dt.date, ...]:
    """The days on which a new growing season begins; none where there is no cold season."""
    return tuple(day for day in chunk_turns(world) if world.season(day) == day)


def chunk_turns(world: World) -> tuple[dt.date, ...]:
    """The days that part a plan into seasons: those on which one begins; half years where there is no cold season."""
    if world.chunks is None:
        world.chunks = tuple(_chunks(world))
    return world.chunks


def _chunks(world: World) -> Iterator[dt.date]:
    day, end = world.on, world.end
    while world.season(day) < world.season(end):
        now = world.season(day)
        day = first_day(partial(_later, world, now), day, end)
        if world.season(day) != day:
            break
        yield day
    else:
        return
    half = dt.timedelta(days=int(world.book.seasons["frost"]["season"]["tropical_days"]))
    day = world.on + half
    while day <= end:
        yield day
        day += half


def _later(world: World, start: dt.date, day: dt.date) -> bool:
    """Whether the season of a day began after `start`."""
    return world.season(day) > start


def first_day(holds: Callable[[dt.date], bool], low: dt.date, high: dt.date) -> dt.date:
    """The first day of a span on which something holds that holds from then on; `high` must be such a day."""
    while low < high:
        middle = low + dt.timedelta(days=(high - low).days // 2)
        low, high = (low, middle) if holds(middle) else (middle + _DAY, high)
    return low


def _between(pair: tuple[str, str], world: World) -> Iterator[dt.date]:
    """First days of each such span, and the days after its last."""
    calendar = world.almanac(world.on)
    for text, more in ((pair[0], 0), (pair[1], 1)):
        day = calendar.next_date(text, max(dt.date.min + _YEAR, world.on - _YEAR))
        while day <= world.end:
            # the last day of a short month stands for those that it has not; one more look costs little
            yield from (day + dt.timedelta(days=more + extra) for extra in (0, 1))
            day = calendar.next_date(text, day + dt.timedelta(days=2))


def _limits(rules: Iterable[Rule], world: World) -> Iterator[dt.date]:
    """The days on which a number that hangs on the date passes a limit of some rule."""
    passed = {(one.quantity, one.value) for rule in rules for one in rule.limits if one.quantity in _BY_DATE}
    for quantity, value in passed:
        if (quantity, value) not in world.passes:
            world.passes[quantity, value] = tuple(_passes(_by_day(quantity, world), value))
        yield from world.passes[quantity, value]


def _passes(numbers: Sequence[tuple[dt.date, float]], value: float) -> Iterator[dt.date]:
    """The days on which the number comes to lie on another side of the value, or on it."""
    for (_, before), (day, now) in pairwise(numbers):
        if (before > value, before < value) != (now > value, now < value):
            yield day


def _by_day(quantity: str, world: World) -> Sequence[tuple[dt.date, float]]:
    """The number on each day of the plan, up to the first on which it is not known."""
    key = quantity, world.place, world.on, world.end  # the trees of one garden ask for the same
    return _NUMBERS.get(world.book.seasons, key, lambda: tuple(_numbers(quantity, world)))


def _numbers(quantity: str, world: World) -> Iterator[tuple[dt.date, float]]:
    day = world.on
    while day <= world.end:
        number: float | None
        if quantity == "day_length_h":
            number = world.almanac(day).day_length_h()
        elif quantity == "frost_days":
            number = seasons.frost_days(day, world.place, world.book.seasons)
        else:
            number = seasons.spring_frost_days(day, world.place, world.book.seasons)
        if number is None:
            return
        yield day, float(number)
        day += _DAY


def _since(rules: Iterable[Rule], world: World) -> Iterator[dt.date]:
    """The days on which work of the journal has lain back for as long as some rule says, or falls out of a season."""
    lengths: dict[str, set[int]] = {}
    for rule in rules:
        for work, days in (*rule.within, *rule.not_within):
            for one in world.book.group(work):
                lengths.setdefault(one, set()).update({int(days)} if isinstance(days, int) else ())
        for limit in rule.limits:
            if limit.quantity.startswith("days_since_"):
                for one in world.book.group(limit.quantity.removeprefix("days_since_")):
                    lengths.setdefault(one, set()).update({int(limit.value) - 1, int(limit.value)})
    for done in world.today.done:
        for days in lengths.get(done.work, ()):
            for end in (done.first, done.last):
                yield from (end + dt.timedelta(days=days + extra) for extra in (0, 1))
        for end in {done.first, done.last}:
            for start in (end, end + _YEAR if end < world.end else end):
                if world.season(world.on) <= start < world.season(world.end):
                    yield first_day(partial(_later, world, start), world.on, world.end)
