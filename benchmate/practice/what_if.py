"""What if: the same question under other facts, and what changes by them."""

from __future__ import annotations

from collections.abc import Mapping

from benchmate.hearing.reading import Fact, Reading, Spot
from benchmate.practice.advice import Advice, Option, Reason
from benchmate.value import dataclass, replace

# of these there is one value at a time, so that a supposed one takes the place of what was said
_ONE = ("species", "health", "phase", "stage", "flush")


@dataclass(frozen=True, slots=True)
class Change:
    """How one option differs. before, after: the option then and now; None where it is not among the options.

    gained, lost: reasons that speak now and did not, or no longer do.
    """

    work: str
    spot: Spot
    before: Option | None
    after: Option | None
    gained: tuple[Reason, ...] = ()
    lost: tuple[Reason, ...] = ()

    @property
    def verdicts(self) -> tuple[str | None, str | None]:
        return (self.before.verdict if self.before else None, self.after.verdict if self.after else None)


@dataclass(frozen=True, slots=True)
class WhatIf:
    """The advice under the supposed facts, the options that differ from before, and cautions that came or went."""

    advice: Advice
    changes: tuple[Change, ...]
    cautions_gained: tuple[str, ...] = ()
    cautions_lost: tuple[str, ...] = ()


def supposed(before: Reading, question: Reading) -> Reading:
    """The reading to advise on for "what if ...": the earlier question with the supposed facts in place of its own.

    Works named in the question take the place of the earlier ones; with none named, those stand.
    """
    kinds = {fact.kind for fact in question.facts if fact.kind in _ONE}
    others = tuple(fact for fact in before.facts if fact.kind not in kinds and not _said_otherwise(fact, question))
    works = question.work or before.work
    topic = before.topic if before.topic not in (None, "why", "what-if") else ("may" if works else "advice")
    return replace(
        question,
        facts=(*question.facts, *others),
        work=works,
        topic=topic,
        measures={**before.measures, **question.measures},
        candidates=question.candidates or before.candidates,
        refers=(),
    )


def _said_otherwise(fact: Fact, question: Reading) -> bool:
    return any(
        (other.kind, other.value) == (fact.kind, fact.value) and other.denied != fact.denied for other in question.facts
    )


def what_if(before: Advice, after: Advice) -> WhatIf:
    """What changed from one advice to the other. after: made by `advise` on the supposed reading and its facts."""
    old, new = _by_place(before), _by_place(after)
    changes = []
    for key in [*new, *(key for key in old if key not in new)]:
        change = _change(key, old.get(key), new.get(key))
        if change:
            changes.append(change)
    had, has = [c.id for c in before.cautions], [c.id for c in after.cautions]
    return WhatIf(
        after,
        tuple(changes),
        tuple(id for id in has if id not in had),
        tuple(id for id in had if id not in has),
    )


def _by_place(advice: Advice) -> Mapping[tuple[str, Spot], Option]:
    return {(option.work, option.spot): option for option in advice.options}


def _change(key: tuple[str, Spot], before: Option | None, after: Option | None) -> Change | None:
    had, has = _reasons(before), _reasons(after)
    gained = tuple(reason for rule, reason in has.items() if rule not in had)
    lost = tuple(reason for rule, reason in had.items() if rule not in has)
    same = (
        before
        and after
        and (before.verdict, before.opens, before.closes, dict(before.amount))
        == (after.verdict, after.opens, after.closes, dict(after.amount))
    )
    return None if same and not gained and not lost else Change(*key, before, after, gained, lost)


def _reasons(option: Option | None) -> dict[str, Reason]:
    return {reason.rule: reason for reason in (*option.because, *option.against)} if option else {}
