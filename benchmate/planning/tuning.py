"""What the record has taught, as the plan uses it: how long things take, how many flushes a year there are to spend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.planning.lessons import Lesson, usual_for
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Tuning:
    """lengths: name of a lesson -> days from and until. flushes: how many flushes of a season a plan may spend.
    buds_back: how many buds a cut shoot gives, low, usual and high, where it was seen. told: what of it was learned, in
    words."""

    lengths: Mapping[str, tuple[int, int]]
    flushes: int
    buds_back: tuple[float, float, float] | None = None
    told: tuple[str, ...] = ()


def tuning_of(
    kinds: Mapping[str, Any], lessons: Sequence[Lesson], bounds: Mapping[str, Any], table: Mapping[str, Any]
) -> Tuning:
    """The numbers of a plan: what was taught where there is anything, the usual ones where there is not.

    kinds: the taxon's traits and, under "group", its groups. bounds: [bounds.capacity] has the flushes by the trait
    `flush`. table: [lesson.*] of rules/planning.
    """
    capacity = bounds["capacity"]
    flushes = int(capacity.get(str(kinds.get("flush")), capacity["unknown"]))
    lengths: dict[str, tuple[int, int]] = {}
    for what, row in table.items():
        if row["unit"] == "days" and (usual := usual_for(row, kinds)):
            lengths[what] = (round(usual.low), round(usual.high))
    buds: tuple[float, float, float] | None = None
    told = []
    for lesson in (one for one in lessons if one.learned):
        told.append(lesson.mix)
        if lesson.unit == "days":
            lengths[lesson.what] = (max(1, round(lesson.low)), max(2, round(lesson.high)))
        elif lesson.what == "flushes-a-year":
            # a flush is spent only where the tree is sure to have it: the mixed value rounded down
            flushes = max(1, int(lesson.value + 1e-9))
        elif lesson.what == "buds-back":
            buds = (lesson.low, lesson.value, lesson.high)
    return Tuning(lengths, flushes, buds, tuple(told))
