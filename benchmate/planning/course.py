"""What health and phase are taken to be over the years of a plan: as they are now, mending as trees mend."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.practice.facts import Done, Facts
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """What is taken to hold from a day on. hoped: it rests on the tree having mended, which must be looked at."""

    since: dt.date
    health: str | None
    phase: str | None
    hoped: bool = False

    @property
    def taken(self) -> tuple[tuple[str, str], ...]:
        """The step as facts: (kind, value), what is not known left out."""
        pairs = (("health", self.health), ("phase", self.phase))
        return tuple((kind, value) for kind, value in pairs if value)


def course_of(facts: Facts, bounds: Mapping[str, Any], collected: dt.date | None) -> tuple[Step, ...]:
    """The steps from today on, oldest first.

    facts: as of today. bounds: [bounds.health.VALUE] says what a value turns into and after how many days, and
    [bounds.recovery] how long a tree is left in that phase. collected: the day it was dug up, or None.
    """
    health, phase = _value(facts, "health"), _value(facts, "phase")
    steps = [Step(facts.on, health, phase)]
    day = facts.on
    table = bounds.get("health", {})
    while health in table:
        day += dt.timedelta(days=int(table[health]["days"]))
        health = str(table[health]["turns"])
        steps.append(Step(day, health, phase, True))
    if phase == "recovery":
        rest = bounds["recovery"]
        since = collected + dt.timedelta(days=int(rest["collected_days"])) if collected else facts.on
        least = facts.on + dt.timedelta(days=int(rest["days"]))
        steps = _left_recovery(steps, max(since, least if not collected else since, day), str(rest["turns"]))
    return tuple(steps)


def _left_recovery(steps: list[Step], day: dt.date, phase: str) -> list[Step]:
    """The steps with the phase changed from a day on."""
    before = [step for step in steps if step.since < day]
    last = max((step for step in steps if step.since <= day), key=lambda step: step.since)
    return [*before, Step(day, last.health, phase, True)]


def step_at(steps: Sequence[Step], day: dt.date) -> Step:
    """The step that holds on a day; the first one before its time."""
    held = [step for step in steps if step.since <= day]
    return held[-1] if held else steps[0]


def collected_on(done: Sequence[Done]) -> dt.date | None:
    """The last day on which the tree was dug up, by the record, or None."""
    days = [one.last for one in done if one.work == "collect" and not one.denied]
    return max(days, default=None)


def _value(facts: Facts, kind: str) -> str | None:
    known = facts.first(kind)
    return str(known.value) if known else None
