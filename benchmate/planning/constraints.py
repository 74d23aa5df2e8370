"""What may stand against an item of a plan: one function a constraint, all of them in the judge's predicate."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.planning.breaks import Break, Constraint, done_by, done_on
from benchmate.planning.candidate import Candidate, same_work
from benchmate.planning.state import STATE
from benchmate.planning.wishes import After
from benchmate.planning.world import World
from benchmate.practice.budget import is_heavy
from benchmate.practice.places import spots_meet

if TYPE_CHECKING:
    from benchmate.planning.judge import Judge


def rule_base(
    judge: Judge, item: Candidate, before: Sequence[Candidate], beside: Sequence[Candidate]
) -> Iterator[Break]:
    """No rule of the rule base stands against it, on its first day or its last.

    beside: works whose windows overlap with its own; they may be done by then or not.
    """
    causes = [one for one in before if judge.touching.ruled(one, item)]
    if not causes and not beside and not item.wish.after:
        return  # it is a candidate because the rules, with the journal alone, let it stand
    for late in (True, False):
        done = done_by(causes, late)
        for day in dict.fromkeys((item.opens, item.closes)):
            near = [done_on(one, min(day, one.closes)) for one in beside if late and one.opens <= day]
            said = judge.said(item, day, [*(one for one in done if one.last <= day), *near])
            if not said.open:
                for reason in said.against or (judge.own("order"),):
                    yield Break("rule", reason, (*causes, *beside)[-1] if causes or beside else None)
                return


def _one_heavy(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """One serious work a growing season, the journal's counted; what saves the tree is bound by the rules alone."""
    if not item.wish.heavy or item.wish.gentle:
        return
    start = judge.world.season(item.opens)
    for one in before:
        if one.wish.heavy and one.closes >= start:
            yield Break("heavy", judge.own("heavy"), one)
    for done in judge.world.today.done:
        if not done.denied and done.last >= start and is_heavy(done, judge.world.book):
            yield Break("heavy", judge.own("heavy"))


def _rest(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """The rest that a work asks for after it."""
    for one in before:
        works = {work for name in one.wish.rest for work in judge.world.book.group(name)}
        if item.wish.work in works and not item.wish.gentle and (item.opens - one.closes).days < one.wish.rest_days:
            yield Break("rest", judge.own("rest"), one)


def _spacing(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """Days since the same work was last done, by plan or journal."""
    wish = item.wish
    for one in before:
        same = same_work(one, item, judge.world.book.places)
        least = max(wish.least_days, one.wish.least_days if one.wish.id == wish.id else 0)
        if same and ((item.opens - one.closes).days < least or (wish.once and one.key == item.key)):
            yield Break("spacing", judge.own("spacing"), one)
    for done in judge.world.today.done:
        if done.denied or done.work != wish.work or not set(wish.manner) <= set(done.manner):
            continue
        meets = spots_meet(done.spot, item.spot, judge.world.book.places)
        if meets and (item.opens - done.last).days < wish.least_days:
            yield Break("spacing", judge.own("spacing"))


def _per_season(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """How often a season sees the same wish."""
    start = judge.world.season(item.opens)
    same = [one for one in before if one.key == item.key and one.closes >= start]
    if len(same) >= item.wish.per_season:
        yield Break("per-season", judge.own("per-season"), same[-1])


def _flushes(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """Works that make the tree flush again, no more of them in a season than it has flushes to give."""
    if not item.wish.flush:
        return
    world = judge.world
    start = world.season(item.opens)
    spent = [one for one in before if one.wish.flush and one.closes >= start]
    works = {wish.work for wish in world.planning.wishes if wish.flush}
    past = {
        done.last
        for done in world.today.done
        if not done.denied and done.work in works and done.last >= start and in_leaf(done.last, world)
    }
    if len(spent) + len(past) >= judge.tuning.flushes:
        yield Break("flushes", judge.own("flushes"), spent[-1] if spent else None)


def in_leaf(day: dt.date, world: World) -> bool:
    """Whether a cut on that day made the tree flush again: not one of a tree at rest."""
    guess = world.almanac(day).guess
    return guess is None or guess.stage not in world.planning.bounds["capacity"]["at_rest"]


def _after(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """What the work must follow is there, long enough ago and not too long."""
    for after in item.wish.after:
        if not leads(after, item, before, judge):
            yield Break("after", judge.own("after"))


def leads(after: After, item: Candidate, before: Sequence[Candidate], judge: Judge) -> list[Candidate] | bool:
    """The items that lead to this one as it wants it, or True where the journal holds such work, else nothing."""
    world = judge.world
    works = world.book.group(after.work)
    least = judge.tuning.lengths[after.least_days][0] if isinstance(after.least_days, str) else after.least_days
    found = [
        one
        for one in before
        if one.wish.work in works
        and (item.opens - one.closes).days >= least
        and (item.closes - one.opens).days <= after.within_days
    ]
    if found:
        return found
    return any(
        done.work in works
        and not done.denied
        and (item.opens - done.last).days >= least
        and (item.closes - done.first).days <= after.within_days
        for done in world.today.done
        if done.first > dt.date.min
    )


# the cheap ones first: the first that speaks decides the search
CONSTRAINTS: tuple[Constraint, ...] = (
    _per_season,
    _spacing,
    _one_heavy,
    _rest,
    _flushes,
    _after,
    *STATE,
)
# those that two items settle between themselves: nothing that is planned beside them lifts what they say
LASTING: tuple[Constraint, ...] = (_per_season, _spacing, _one_heavy, _rest)
