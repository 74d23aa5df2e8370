"""What is due over the whole garden, tree by tree, the most urgent first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from benchmate.garden.follow import FollowUp
from benchmate.garden.record import Tree
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.garden.index import Index, Progress
    from benchmate.garden.store import Garden


@dataclass(frozen=True, slots=True)
class Due:
    """A follow-up on a day. days_left: to the last day for it; below 0 where it is overdue."""

    follow: FollowUp
    days_left: int

    @property
    def overdue(self) -> bool:
        return self.days_left < 0

    @property
    def weather_bound(self) -> bool:
        return self.follow.weather is not None

    def as_json(self) -> dict[str, Any]:
        return self.follow.as_json() | {"days_left": self.days_left, "overdue": self.overdue}


@dataclass(frozen=True, slots=True)
class DueTree:
    """One tree with what is due on it, the most urgent first."""

    tree: Tree
    items: tuple[Due, ...]

    def as_json(self) -> dict[str, Any]:
        return {"tree": self.tree.name, "folder": self.tree.folder, "items": [item.as_json() for item in self.items]}


def due_items(follow: Iterable[FollowUp], on: dt.date, days: int) -> tuple[Due, ...]:
    """Those of one tree that begin within `days` days from `on`, or began before."""
    today = on.toordinal()
    items = [
        Due(item, (item.until or item.on).toordinal() - today)
        for item in follow
        if item.on and item.on.toordinal() <= today + days
    ]
    return tuple(sorted(items, key=_urgency))


def _urgency(item: Due) -> tuple[int, bool, str, str]:
    """Days left; at the same day what a weather holds back comes after what can be done, and words keep the order."""
    return item.days_left, item.weather_bound, item.follow.work, item.follow.uid


def due(garden: Garden, on: dt.date, days: int = 7, progress: Progress | None = None) -> tuple[DueTree, ...]:
    """What is due in the garden from `on` to `days` days later, and what is overdue. Undated plans are not due.

    on: today; entries of later days do not count. days: 0 and up. progress: as in Garden.index. Raises NoGarden where
    the garden is gone.
    """
    index = garden.index(progress)
    last = dt.date.fromordinal(min(on.toordinal() + days, dt.date.max.toordinal()))
    groups = [
        DueTree(tree, due_items(items, on, days))
        for tree in garden.trees()
        if tree.folder in index.rows and (items := _open_on(garden, tree, index, on, last))
    ]
    return tuple(sorted(groups, key=lambda group: (_urgency(group.items[0]), group.tree.name)))


def _open_on(garden: Garden, tree: Tree, index: Index, on: dt.date, last: dt.date) -> tuple[FollowUp, ...]:
    """What was open on a day and begins by another. The index knows the record as it stands now; where that holds
    entries of days after `on` the journal itself is read."""
    if not index.written_after(tree.folder, on):
        return index.open_by(tree.folder, last)
    return tuple(item for item in garden.follow_ups(tree, on) if item.on and item.on <= last)
