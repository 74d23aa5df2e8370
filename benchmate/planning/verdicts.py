"""What the rule base says of one work on one day: the same rules as advice, without its telling."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from benchmate.planning.world import World
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Reason
from benchmate.practice.allowance import allowance
from benchmate.practice.facts import Done
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.practice.weigh import askable, beaten_by, reason_of
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Verdict:
    """verdict: as in advice. weight: what the rules say for it less what they say against it. against: what blocks."""

    verdict: str
    weight: int = 0
    against: tuple[Reason, ...] = ()

    @property
    def open(self) -> bool:
        """Whether nothing known stands against the work."""
        return self.verdict in (GO, ASK)


def verdict_on(target: Target, day: dt.date, world: World, done: Sequence[Done] = ()) -> Verdict:
    """The rule base's word. done: works of the plan that are done by then."""
    if done:
        matcher = Matcher(world.book, world.facts(day, done), world.almanac(day), tells=False)
    else:
        matcher = world.matcher(day)
    results = matcher.results(target)
    beaten = beaten_by(results)
    spoke = [one for one in results if one.truth and one.rule.id not in beaten]
    blocks = [one.rule for one in spoke if one.rule.blocks]
    left = allowance(target, matcher)
    verdicts = {rule.verdict for rule in blocks} | {left.verdict}
    against = tuple(reason_of(rule) for rule in sorted(blocks, key=lambda rule: rule.verdict != AVOID))
    against += left.reasons if left.verdict else ()
    if AVOID in verdicts or HOLD in verdicts:
        return Verdict(AVOID if AVOID in verdicts else HOLD, 0, against)
    weight = sum(one.rule.weight for one in spoke if one.rule.kind == "rule")
    unknown = any(
        one.truth is None
        and one.rule.blocks
        and one.rule.ask
        and one.rule.id not in beaten
        and askable(one, target, matcher)
        for one in results
    )
    return Verdict(ASK if unknown else GO, weight)
