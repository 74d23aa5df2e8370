"""What an option is weighed for: one work at one place, as it was asked, done or put forward."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from benchmate.hearing.reading import NOWHERE, Spot, Work
from benchmate.value import dataclass, field, replace

ASKED, DECIDED, DONE, OFFERED, LEAVE = "asked", "decided", "done", "offered", "leave"


@dataclass(frozen=True, slots=True)
class Target:
    """One work to be weighed. how: asked, decided, done, offered or leave. rest: the tree without the places that have
    an option of their own. offered_by: the rules that put it forward. prompted: something said in this very statement
    called for it."""

    work: str
    spot: Spot = NOWHERE
    measures: Mapping[str, float] = field(default_factory=dict)
    manner: tuple[str, ...] = ()
    how: str = ASKED
    rest: bool = False
    offered_by: tuple[str, ...] = ()
    prompted: bool = False

    def at(self, spot: Spot) -> Target:
        return replace(self, spot=spot)


def target_of(work: Work) -> Target:
    """The target of work that was spoken of."""
    how = {None: ASKED, "done": DONE}.get(work.done, DECIDED)
    return Target(str(work.work), work.spot, dict(work.measures), tuple(work.manner), how)


def placed(work: str, works: Mapping[str, Any], places: Mapping[str, Any]) -> bool:
    """Whether the work is done at a place on the tree (a cut, a wire), or on the whole of it (water, repotting)."""
    return work not in places.get("whole_tree_works", ())


def eval_spot(target: Target, works: Mapping[str, Any], places: Mapping[str, Any]) -> Spot:
    """The place for tests: work on the whole tree meets every finding, wherever that sits."""
    if not placed(target.work, works, places):
        return Spot(part="tree")
    return target.spot
