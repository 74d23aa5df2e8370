"""When a hold is lifted and when a window shuts: a rule's `opens` and `closes` as dates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.practice.almanac import Almanac
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.facts import Facts


def opens_on(rule: Rule, facts: Facts, almanac: Almanac, book: RuleBook) -> dt.date | None:
    """The day from which the rule no longer stands against the work, or None where only a change of the tree lifts
    it."""
    return None if rule.opens is None else _day(rule.opens, almanac.on, facts, almanac, book)


def lifted(rule: Rule, facts: Facts, almanac: Almanac, book: RuleBook) -> bool:
    """Whether the days that a hold asks for after some work have passed: then it is over, whatever else is so."""
    if rule.verdict != "hold" or not rule.opens or "after" not in rule.opens:
        return False
    day = opens_on(rule, facts, almanac, book)
    return day is not None and day <= almanac.on


def closes_on(rule: Rule, after: dt.date, facts: Facts, almanac: Almanac, book: RuleBook) -> dt.date | None:
    """The last day of the window that the rule speaks of, looked for from `after` on."""
    if rule.closes is None:
        return None
    if "frost_days" in rule.closes:
        return almanac.before_frost(int(rule.closes["frost_days"]), after)
    if "trait" in rule.closes:
        return trait_closes(rule.closes, after, facts, almanac)
    return _day(rule.closes, after, facts, almanac, book)


def trait_closes(spec: Mapping[str, Any], after: dt.date, facts: Facts, almanac: Almanac) -> dt.date | None:
    """When the taxon's own window that holds or next opens is over."""
    window = almanac.window(facts.trait(str(spec["trait"])), after)
    return window.closes if window else None


def _day(spec: Mapping[str, Any], after: dt.date, facts: Facts, almanac: Almanac, book: RuleBook) -> dt.date | None:
    if "stage" in spec:
        return almanac.next_stage(str(spec["stage"]), after)
    if "date" in spec:
        return almanac.next_date(str(spec["date"]), after)
    if "season" in spec:
        return almanac.next_season(after)
    if "trait" in spec:
        window = almanac.window(facts.trait(str(spec["trait"])), after)
        return max(window.opens, after) if window else None
    if "after" in spec:
        works = book.group(str(spec["after"]))
        days = [done.last for done in facts.done if done.work in works and not done.denied]
        return max(days) + dt.timedelta(days=int(spec["days"])) if days else None
    raise ValueError(f"a window cannot be told from {dict(spec)}")


def latest_opening(rules: Iterable[Rule], facts: Facts, almanac: Almanac, book: RuleBook) -> dt.date | None:
    """When the last of several holds is lifted; None where one of them is lifted by no date."""
    days = [opens_on(rule, facts, almanac, book) for rule in rules]
    if not days or any(day is None for day in days):
        return None
    latest = max(day for day in days if day)
    return latest if latest > almanac.on else None
