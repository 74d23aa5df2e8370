"""Whether a test holds on the facts: true, false, or unknown (None). Unknown is never false."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.hearing.reading import Spot
from benchmate.practice.condition import SINGLE, UNSEEN, Claim, Clause
from benchmate.practice.facts import SAID, Done, Facts
from benchmate.practice.places import meets
from benchmate.value import dataclass

Truth = bool | None
# work told of a longer time than this, up to a year, is taken for the middle of it
_MONTH, _YEAR = dt.timedelta(days=45), dt.timedelta(days=370)
# found by looking at the tree: what nobody spoke of is taken not to be there, but where a rule leaves it open
CLOSED = ("finding", "weather", "means")


def all_of(truths: Iterable[Truth]) -> Truth:
    """Three-valued and: false wins over unknown."""
    out: Truth = True
    for truth in truths:
        if truth is False:
            return False
        if truth is None:
            out = None
    return out


def any_of(truths: Iterable[Truth]) -> Truth:
    """Three-valued or: true wins over unknown."""
    out: Truth = False
    for truth in truths:
        if truth:
            return True
        if truth is None:
            out = None
    return out


def negated(truth: Truth) -> Truth:
    return None if truth is None else not truth


@dataclass(frozen=True, slots=True)
class Where:
    """The place that tests are made for. spot: the option's place. wide: the place for what is to be there, which may
    be the whole tree where the rule only weighs: a finding anywhere on it is then a reason, while it blocks only at its
    own place."""

    spot: Spot
    wide: Spot


def claim_truth(test: Claim, facts: Facts, where: Where, places: Mapping[str, Any]) -> Truth:
    """One test, for an option at a place."""
    truth = _plain_truth(test, facts, where.spot if test.denied else where.wide, places)
    return negated(truth) if test.denied else truth


def clause_truth(clause: Clause, facts: Facts, where: Where, places: Mapping[str, Any]) -> Truth:
    """Some alternative holds: all of its tests."""
    return any_of(all_of(claim_truth(test, facts, where, places) for test in tests) for tests in clause)


def _plain_truth(test: Claim, facts: Facts, spot: Spot, places: Mapping[str, Any]) -> Truth:
    kind, value = test.kind, test.value
    if kind in SINGLE:
        known = facts.first(kind)
        if known:
            return known.value == value
        return False if value in facts.denials(kind) else None
    if kind == "stage":
        return stage_truth(str(value), facts)
    if kind == "finding":
        return _finding_truth(test, facts, spot, places)
    if kind in ("weather", "means"):
        return any(known.value == value and not known.denied for known in facts.of(kind))
    if kind == "species":
        return _species_truth(str(value), facts)
    if kind == "trait":
        return _trait_truth(str(value), facts)
    if kind == "event":
        start = facts.season_start if test.ever != "ever" else dt.date.min
        end = None
        if test.ever == "last-season" and facts.season_start:
            start, end = facts.season_start - dt.timedelta(days=365), facts.season_start
        return done_truth((str(value),), start, facts, end)
    raise ValueError(f"a test on '{kind}' is not known")


def stage_truth(stage: str, facts: Facts) -> Truth:
    """By what is known of the stage; the stages that go together and those that shut each other out are in the
    facts."""
    held: Truth = None
    for known in facts.of("stage"):
        if known.value == stage:
            return not known.denied
    return held


def _finding_truth(test: Claim, facts: Facts, spot: Spot, places: Mapping[str, Any]) -> Truth:
    for known in facts.of("finding"):
        if known.value == test.value and meets(known, test.spot, spot, places):
            return not known.denied
    return None if test.ever == UNSEEN else False


def _species_truth(taxon: str, facts: Facts) -> Truth:
    if facts.taxon is None:
        return False if taxon in facts.denials("species") else None
    if taxon in facts.entry["lineage"]:
        return True
    # only the genus is known and the test is about one of its species
    return None if taxon.startswith(facts.taxon + " ") else False


def _trait_truth(wanted: str, facts: Facts) -> Truth:
    name, _, value = wanted.partition(":")
    for known in facts.of("trait"):
        if known.value == wanted:
            return not known.denied
        if str(known.value).partition(":")[0] == name and name != "group" and not known.denied:
            return False
    if facts.taxon is None:
        return None
    if name == "group":
        if value in facts.entry.get("some", ()):
            return None  # some species of the genus are, some are not
        return value in facts.entry.get("groups", ())
    cell = facts.entry.get("traits", {}).get(name)
    if not cell:
        return None
    held = cell["is"]
    if isinstance(held, bool):
        return held == (value in ("yes", "true"))
    return value in held if isinstance(held, list) else str(held) == value


def done_truth(
    works: Iterable[str], start: dt.date | None, facts: Facts, end: dt.date | None = None, closed: bool = True
) -> Truth:
    """Whether one of the works was done from `start` on, and before `end` where that is given.

    start: None where the season's start is not known, which leaves all but a closed record unknown. closed: work that
    the record of a tree does not hold was not done.
    """
    wanted = set(works)
    last = end or dt.date.max
    maybe = told = False
    for done in facts.done:
        if done.work not in wanted:
            continue
        if done.denied:
            if _covers(done, start) and not end:
                return False
        elif start is None:
            maybe = True
        elif done.first >= start and done.last < last:
            return True
        elif done.last >= start and done.first < last:
            middle = None if end or done.last >= facts.on else _middle(done)
            if middle and middle >= start:
                return True
            maybe = maybe or middle is None
            told = told or middle is not None
        elif done.origin == SAID and done.last < start:
            told = True  # "repotted last spring" says of itself that it was not done since
    if maybe:
        return None
    return False if (facts.tree and closed) or (told and not end) else None


def _middle(done: Done) -> dt.date | None:
    """The day that work told of a season or a year is taken for; of a month or less its day may be asked."""
    span = done.last - done.first
    return done.first + span / 2 if _MONTH < span <= _YEAR else None


def _covers(done: Done, start: dt.date | None) -> bool:
    """Whether "not since ..." reaches back to `start`."""
    return start is None or done.first <= start
