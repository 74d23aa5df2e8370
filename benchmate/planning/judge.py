"""The one predicate of a plan: everything that stands against an item, the other items being what they are.

The search keeps to it, and so does every test of a finished plan. An item may be done on any day of its window, and so
may every other: what must hold is looked at on the first and the last day, with the works before it done as early and
as late as they may be.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from benchmate.planning.breaks import Break
from benchmate.planning.candidate import Candidate
from benchmate.planning.constraints import CONSTRAINTS, LASTING, rule_base
from benchmate.planning.touching import Touching
from benchmate.planning.tuning import Tuning
from benchmate.planning.verdicts import Verdict, verdict_on
from benchmate.planning.world import World
from benchmate.practice.advice import Reason
from benchmate.practice.facts import Done
from benchmate.value import replace


class Judge:
    """Judges items against one another. Keeps what the rule base said, by item, day and works before it."""

    def __init__(self, world: World, tuning: Tuning) -> None:
        self.world, self.tuning = world, tuning
        self.touching = Touching(world)
        self._said: dict[object, Verdict] = {}

    def breaks(self, item: Candidate, others: Sequence[Candidate]) -> Iterator[Break]:
        """What stands against the item. others: the rest of the plan, in any order."""
        before = [one for one in others if one.closes < item.opens and self.touching.bears(one, item)]
        beside = self.beside(item, others)
        for one in beside:
            if self.touching.clashes(one, item):
                yield Break("order", self.own("order"), one)
        for constraint in CONSTRAINTS:
            yield from constraint(self, item, before)
        yield from rule_base(self, item, before, beside)

    def beside(self, item: Candidate, others: Sequence[Candidate]) -> list[Candidate]:
        """Those of the others whose windows overlap with the item's, and that have to do with it."""
        near = [one for one in others if one.opens <= item.closes and item.opens <= one.closes]
        return [one for one in near if self.touching.clashes(one, item) or self.touching.meets(one, item)]

    def joins(self, item: Candidate, chosen: Sequence[Candidate]) -> bool:
        """Whether the item may join a plan of works that begin no later: nothing stands against it, nor, with it beside
        them, against those that it overlaps with."""
        if not self.fits(item, chosen):
            return False
        return all(
            self.fits(one, [*(other for other in chosen if other is not one), item])
            for one in self.beside(item, chosen)
        )

    def shuts(self, one: Candidate, item: Candidate) -> bool:
        """Whether `one`, planned before, stands against the item whatever else is planned."""
        if one.closes >= item.opens:
            return self.touching.clashes(one, item)
        return any(found.other is one for constraint in LASTING for found in constraint(self, item, [one]))

    def fits(self, item: Candidate, others: Sequence[Candidate]) -> bool:
        """Whether nothing stands against the item."""
        return next(self.breaks(item, others), None) is None

    def plan_breaks(self, items: Sequence[Candidate]) -> list[tuple[Candidate, Break]]:
        """Everything that is wrong with a whole plan; empty for a sound one."""
        return [(item, one) for item in items for one in self.breaks(item, [o for o in items if o is not item])]

    def said(self, item: Candidate, day: dt.date, done: Sequence[Done]) -> Verdict:
        """The rule base's word on an item on a day, some works being done."""
        key = item.key, item.wish.share, day, frozenset((d.work, d.spot, d.last, d.share, d.manner) for d in done)
        if key not in self._said:
            self._said[key] = verdict_on(item.target, day, self.world, done)
        return self._said[key]

    def told(self, found: Break) -> Reason:
        """The reason of a break, with the item that it comes from."""
        if found.other is None:
            return found.reason
        other = found.other
        return replace(found.reason, rests_on=(f"{other.wish.work.replace('-', ' ')}, {other.opens:%B %Y}",))

    def own(self, kind: str) -> Reason:
        table = self.world.planning.bounds["says"][kind]
        mark = str(table.get("mark") or "published")
        return Reason(f"plan-{kind}", str(table["says"]), table.get("source"), mark)
