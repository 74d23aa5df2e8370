"""What the season's budget lets an option take, and what it says where more was asked."""

from __future__ import annotations

import datetime as dt

from benchmate.practice.advice import AVOID, HOLD, Reason
from benchmate.practice.book import Rule
from benchmate.practice.budget import (
    Cap,
    cap_for,
    counts_apart,
    crown_share,
    foliage_taken,
    is_free,
    root_taken,
    takes,
    takes_all,
)
from benchmate.practice.match import Matcher
from benchmate.practice.places import is_at, spot_of
from benchmate.practice.target import DONE, LEAVE, Target
from benchmate.value import dataclass

# below this the rest of a budget is no longer worth an offer
_LEAST = 0.02
# a share is said in round words: "a third" is no more than 33 per cent
_SLACK = 0.005


@dataclass(frozen=True, slots=True)
class Allowance:
    """share: the most that this option may take, or None where no budget bears on it. verdict: hold or avoid where the
    budget stands against it. assumed: what was taken for want of knowing."""

    share: float | None = None
    verdict: str | None = None
    opens: dt.date | None = None
    reasons: tuple[Reason, ...] = ()
    cautions: tuple[str, ...] = ()
    assumed: str | None = None


NO_BUDGET = Allowance()


def allowance(target: Target, matcher: Matcher) -> Allowance:
    """The budget's word on one target: the cap by health and phase, less what the season has taken already."""
    what = takes(target.work, matcher.book)
    if target.how == LEAVE or what not in ("foliage", "root") or _takes_dead_wood(target, matcher):
        return NO_BUDGET
    if takes_all(target.work, target.spot, matcher.book):
        return NO_BUDGET  # for rules alone to say: no share of a season covers it
    share, said = crown_share(target.work, target.measures, target.spot, matcher.book)
    cap = cap_for(target, matcher, "cap" if what == "foliage" else "root_cap")
    if cap is None:
        return NO_BUDGET
    taken = (foliage_taken if what == "foliage" else root_taken)(matcher.facts, matcher.book)
    left = round(max(0.0, cap.share - taken), 4)
    reasons = tuple(_reason(rule) for rule in cap.rules)
    cautions = tuple(caution for rule in cap.rules for caution in rule.cautions)
    if counts_apart(target.work, matcher.book) and not said:
        return NO_BUDGET
    over = matcher.book.budget.get("over", {})
    too_much = (str(over.get("caution", "over-dose")),)
    if not said and _too_much_there(target, cap, matcher):
        cautions = (*too_much, *cautions)
    opens = matcher.almanac.next_season(matcher.almanac.on) if cap.share > 0 and taken > 0 else None
    if said and share is not None and taken + share > cap.share + _SLACK:
        far = taken + share > cap.share + float(over.get("margin", 0.0)) + 1e-6
        verdict = AVOID if far else HOLD
        return Allowance(left, verdict, None if far else opens, reasons, (*too_much, *cautions), cap.assumed)
    if not said and share is not None and target.how == DONE and _LEAST <= left < share - _SLACK and taken > 0:
        # what such work usually takes is more than was left: told of work that is done, it is over the measure
        return Allowance(left, HOLD, opens, reasons, (*too_much, *cautions), cap.assumed)
    if left < _LEAST and not said and (_is_care(target, matcher, cap) or (what == "root" and _is_rescue(matcher))):
        return Allowance(None, cautions=cautions, assumed=cap.assumed)
    if left < _LEAST:
        spent = too_much if taken > 0 and cap.share > 0 else ()
        return Allowance(left, HOLD, opens, reasons, (*spent, *cautions), cap.assumed)
    return Allowance(left, None, None, reasons, cautions, cap.assumed)


def dose_left(matcher: Matcher) -> tuple[float | None, Cap | None]:
    """Share of the foliage that may still go this season, 0 to 1, and the cap behind it."""
    cap = cap_for(Target("shorten"), matcher)
    if cap is None:
        return None, None
    return round(max(0.0, cap.share - foliage_taken(matcher.facts, matcher.book)), 3), cap


def _too_much_there(target: Target, cap: Cap, matcher: Matcher) -> bool:
    """Whether leaf is to come off one place in a share that would be too much for the crown: what holds for the whole
    holds for each part of it."""
    share = target.measures.get("share")
    return target.work in matcher.book.budget.get("of_part", {}).get("held", ()) and (share or 0.0) > cap.share + _SLACK


def _is_care(target: Target, matcher: Matcher, cap: Cap) -> bool:
    """Whether the work takes so little that on a tree in health a spent budget does not stop it."""
    light = matcher.book.budget.get("light", {})
    health = matcher.facts.first("health")
    return (
        target.work in light.get("works", ())
        and health is not None
        and health.value in light.get("health", ())
        and cap.share >= float(light.get("cap", 1.0))
        and not set(target.manner).intersection(light.get("not_when", ()))
    )


def _is_rescue(matcher: Matcher) -> bool:
    """Whether roots are rotting: those that come off are dead, and a spent season does not stop it."""
    wanted = matcher.book.budget.get("free", {}).get("roots", ())
    return any(known.value in wanted and not known.denied for known in matcher.facts.of("finding"))


def _takes_dead_wood(target: Target, matcher: Matcher) -> bool:
    """What is dead carries no leaf: taking it off spends nothing."""
    places = matcher.book.places
    return is_free(target.manner, matcher.facts, matcher.book) or any(
        known.value in matcher.book.budget.get("free", {}).get("findings", ())
        and not known.denied
        and is_at(target.spot, spot_of(known, places), places)
        for known in matcher.facts.of("finding")
    )


def _reason(rule: Rule) -> Reason:
    return Reason(rule.id, rule.says, rule.source, rule.mark, 0, rule.yours, rule.where)
