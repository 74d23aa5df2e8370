"""What stands against an item of a plan, and the works that a plan has put before it as done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.planning.candidate import Candidate
from benchmate.practice.advice import Reason
from benchmate.practice.facts import Done
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.planning.judge import Judge

# (judge, item, the items that are done before it) -> what stands against it
Constraint = Callable[["Judge", Candidate, Sequence[Candidate]], Iterator["Break"]]


@dataclass(frozen=True, slots=True)
class Break:
    """One thing that stands against an item. kind: the constraint. other: the item that it comes from, if one does."""

    kind: str
    reason: Reason
    other: Candidate | None = None


def done_by(items: Sequence[Candidate], late: bool) -> tuple[Done, ...]:
    """The works of some items as done, each as late as it may be, or as early; with those that follow of themselves."""
    out = []
    for one in items:
        out.append(done_on(one, one.closes if late else one.opens))
        ends = [(then, then.closes if late else then.opens) for then in one.later]
        out += [Done(then.work, end, end, then.spot) for then, end in ends]
    return tuple(out)


def done_on(one: Candidate, day: dt.date) -> Done:
    """The work of an item as done on a day."""
    return Done(one.wish.work, day, day, one.spot, one.wish.share, one.wish.manner)
