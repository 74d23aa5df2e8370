"""Where each wished work could stand: spans of days on which the rule base, the journal being what it is, allows it."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

from benchmate.hearing.reading import Spot
from benchmate.planning.candidate import Candidate, dated
from benchmate.planning.pieces import parted, pieces_of
from benchmate.planning.spans import Span, spans_of
from benchmate.planning.tuning import Tuning
from benchmate.planning.turning import chunk_turns, season_turns, turning_days
from benchmate.planning.verdicts import verdict_on
from benchmate.planning.wishes import After, Wish
from benchmate.planning.world import World
from benchmate.practice.advice import Reason
from benchmate.practice.facts import Done
from benchmate.practice.places import spot_of
from benchmate.practice.target import Target
from benchmate.value import dataclass, replace

_DAY = dt.timedelta(days=1)
_WHOLE = Spot(part="tree")


@dataclass(frozen=True, slots=True)
class Closed:
    """Days of a wish's own window on which the rule base stands against it."""

    opens: dt.date
    closes: dt.date
    against: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Chances:
    """What could be done for one wish at one place: its candidates, soonest first, and the days that are closed.

    wanted: whether its condition holds at any time of the plan. windows: the days of its own window, rules left aside.
    """

    wish: Wish
    spot: Spot
    wanted: bool
    candidates: tuple[Candidate, ...] = ()
    closed: tuple[Closed, ...] = ()
    windows: tuple[Span, ...] = ()


def chances(world: World, tuning: Tuning) -> list[Chances]:
    """Every wish that the tree may have, at each of its places."""
    out: list[Chances] = []
    for wish in world.planning.wishes:
        out += chances_of(wish, world, tuning)
    rows = [one for one in out if one.wanted]
    if not season_turns(world):
        return rows  # where work is open all the year its parts lie close enough
    rests = [(_spread(row.wish.rest, world), _rested(row)) for row in rows if row.wish.rest_days]
    return [_after_rests(row, [*rests, *_leads(row, rows, world, tuning)], world, tuning) for row in rows]


def chances_of(wish: Wish, world: World, tuning: Tuning) -> tuple[Chances, ...]:
    """One wish at each of its places, the rests after other works left aside."""
    if wish.needs_frost and world.place.last_frost is None and world.place.first_frost is None:
        return ()
    if wish.id not in world.chances:
        world.chances[wish.id] = tuple(_chances(wish, spot, world, tuning) for spot in _spots(wish, world))
    return world.chances[wish.id]


def _spread(names: Iterable[str], world: World) -> set[str]:
    return {work for name in names for work in world.book.group(name)}


def _rested(row: Chances) -> list[dt.date]:
    """The days on which the rests that a wish asks for may end."""
    return [one.closes + dt.timedelta(days=row.wish.rest_days) for one in row.candidates]


def _leads(
    row: Chances, rows: Sequence[Chances], world: World, tuning: Tuning
) -> Iterator[tuple[set[str], list[dt.date]]]:
    """The days from which the row's work may follow on what must go before it: its window may be open for weeks
    before, and is of use from then on."""
    for after in row.wish.after:
        works, least = world.book.group(after.work), _least_days(after, tuning)
        ends = [one.closes for other in rows if other.wish.work in works for one in other.candidates]
        yield {row.wish.work}, [day + dt.timedelta(days=least) for day in ends]


def _least_days(after: After, tuning: Tuning) -> int:
    return tuning.lengths[after.least_days][0] if isinstance(after.least_days, str) else after.least_days


def _after_rests(
    row: Chances, rests: Sequence[tuple[set[str], list[dt.date]]], world: World, tuning: Tuning
) -> Chances:
    days = [day for works, ends in rests if row.wish.work in works for day in ends]
    return replace(row, candidates=tuple(parted(row.candidates, days, world, tuning)))


def _spots(wish: Wish, world: World) -> list[Spot]:
    """The places of a wish: each finding that its condition speaks of, or its part."""
    if wish.spot != "finding":
        return [Spot(part=wish.part)]
    clauses = wish.wanted.condition
    wanted = {test.value for clause in clauses for tests in clause for test in tests if test.kind == "finding"}
    places = world.book.places
    found = [known for known in world.today.of("finding") if known.value in wanted and not known.denied]
    spots = [spot_of(known, places) for known in found]
    return list(dict.fromkeys(Spot(wish.part or s.part, s.side, s.level, s.ordinal) for s in spots))


def wanted(wish: Wish, spot: Spot, day: dt.date | None, world: World) -> bool:
    """Whether the condition holds on a day, or as the tree is today where there is none; what is seen on the tree is
    taken as it is seen today."""
    matcher = world.as_seen(day)
    return matcher.result(wish.wanted, Target(wish.work, spot if wish.spot == "finding" else _WHOLE)).truth is True


def _chances(wish: Wish, spot: Spot, world: World, tuning: Tuning) -> Chances:
    windows = spans_of(wish.windows, world) or spans_of(wish.else_windows, world)
    turns = sorted({*turning_days(wish.work, world), *chunk_turns(world)})
    found: list[Candidate] = []
    closed: list[Closed] = []
    ever = False
    for part in _parts(windows, turns):
        if not wanted(wish, spot, part.opens, world):
            continue
        ever = True
        measures = {"share": wish.share} if wish.share is not None else {}
        target = Target(wish.work, spot, measures, wish.manner)
        said = verdict_on(target, part.opens, world, tuple(_led(wish, part.opens, tuning)))
        if not said.open:
            closed.append(Closed(part.opens, part.closes, said.against))
        elif said.weight >= int(world.planning.bounds["least_weight"]):
            found.append(_candidate(wish, spot, part, said.weight, world, tuning))
    ever = ever or (not windows and wanted(wish, spot, None, world))
    return Chances(wish, spot, ever, tuple(pieces_of(found, world, tuning)), tuple(closed), windows)


def _led(wish: Wish, day: dt.date, tuning: Tuning) -> Iterator[Done]:
    """The works that must go before, as if they had been done just in time: whether they will be is for the plan."""
    for after in wish.after:
        before = day - dt.timedelta(days=_least_days(after, tuning))
        yield Done(after.work, before, before)


def _parts(windows: Iterable[Span], turns: list[dt.date]) -> Iterator[Span]:
    """The windows cut at the turns: within a part the rules say the same on every day."""
    for window in windows:
        first = window.opens
        while first <= window.closes:
            number = bisect_left(turns, first + _DAY)
            last = min(window.closes, turns[number] - _DAY if number < len(turns) else window.closes)
            yield Span(first, last, window.name)
            first = last + _DAY


def _candidate(wish: Wish, spot: Spot, span: Span, weight: int, world: World, tuning: Tuning) -> Candidate:
    step = world.step(span.opens)
    season = max((day for day in chunk_turns(world) if day <= span.opens), default=world.on)
    made = Candidate(wish, spot, span.opens, span.closes, span.name, season, 0, weight, step.taken, step.hoped)
    return dated(made, span.opens, span.closes, world, tuning)
