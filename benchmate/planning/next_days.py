"""The days on which a plan puts some works, for a question over many trees: the plan itself, without its telling."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence

from benchmate.garden.record import Entry, Place, Tree
from benchmate.planning.candidates import chances_of
from benchmate.planning.items import later_item
from benchmate.planning.lay import laid, opened
from benchmate.planning.lessons import Lesson
from benchmate.planning.wishes import PlanBook, Wish
from benchmate.practice.book import RuleBook

Days = tuple[dt.date, dt.date]


def next_days(
    works: Collection[str],
    tree: Tree,
    entries: Sequence[Entry],
    place: Place,
    on: dt.date,
    years: int,
    book: RuleBook,
    planning: PlanBook,
    lessons: Sequence[Lesson] = (),
) -> tuple[Days, ...]:
    """First and last day of each item of these works, as `lay_plan` lays them, soonest first.

    years: 1 to 10, from `on`. Where no wish of theirs has a chance on any day nothing else is weighed. Raises
    ValueError for another number of years.
    """
    world, tuning = opened(tree, entries, place, on, years, book, planning, lessons)
    wishes = [wish for wish in planning.wishes if _brings(wish, works)]
    if not any(row.candidates for wish in wishes for row in chances_of(wish, world, tuning)):
        return ()
    out: list[Days] = []
    for one in laid(world, tuning).chosen:
        if one.wish.work in works:
            out.append((one.opens, one.closes))
        items = (later_item(one, then, "", world) for then in one.later if then.work in works)
        out += [(dt.date.fromisoformat(item.opens), dt.date.fromisoformat(item.closes)) for item in items if item]
    return tuple(sorted(out))


def _brings(wish: Wish, works: Collection[str]) -> bool:
    """Whether a wish is for one of the works, or one follows of it by itself."""
    return wish.work in works or any(then.work in works for then in wish.then)
