"""What the record says of a state: "is it weak", "any mites left". What was seen last counts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Fact, Reading
from benchmate.telling.dates import day_words, span_words
from benchmate.telling.story import entry_words, matching, spot_of, table_fact_words
from benchmate.telling.wording import small

FRESH = 45  # days within which what was seen may still be so
NOTHING_SEEN = "The record holds nothing seen of that"
# Kinds of which a tree has one value at a time: another one seen last answers "no".
_ONE_AT_A_TIME = frozenset({"health", "stage", "flush", "phase"})


def states_asked(reading: Reading) -> list[Fact]:
    """What a question asks about rather than names, where it asks about no work."""
    if reading.work:
        return []
    return [fact for fact in reading.facts if fact.kind in _ONE_AT_A_TIME | {"finding"}]


def told_states(facts: Sequence[Fact], entries: Sequence[Entry], on: dt.date, units: str = "metric") -> list[str]:
    """The answer to each fact asked about, and what was done since for what was found."""
    out: list[str] = []
    for fact in facts:
        out += _told(fact, entries, on, units)
    return out


def _told(fact: Fact, entries: Sequence[Entry], on: dt.date, units: str) -> list[str]:
    asked = table_fact_words({"kind": fact.kind, "value": fact.value}, on, units)
    found = [
        (entry, table)
        for entry in matching(entries, kinds=("seen", "done"), end=on)
        for table in entry.facts
        if _bears_on(fact, table)
    ]
    if not found:
        return [f"{NOTHING_SEEN}: {asked}. Look, and say what you see"]
    entry, table = max(found, key=lambda pair: pair[0].day)
    when = f"seen on {day_words(entry.day, on)}, {span_words((entry.day - on).days)}"
    if table.get("value") != fact.value:
        return [f"No, {table_fact_words(table, on, units)} when last {when}"]
    if table.get("not"):
        return [f"No: {table_fact_words(table, on, units)}, {when}"]
    fresh = "Yes, last" if (on - entry.day).days <= FRESH else "Last"
    lines = [f"{fresh} {when}: {table_fact_words(table, on, units)}"]
    if fact.kind == "finding":
        since = [later for later in matching(entries, kinds=("done",), start=entry.day, end=on) if later.work]
        lines += [f"{day_words(later.day, on)}: {small(entry_words(later, later.day, units))}" for later in since[:3]]
    return lines


def _bears_on(fact: Fact, table: Mapping[str, Any]) -> bool:
    """Whether a recorded fact answers the one asked about: of its kind or the same finding, at the same place if one
    is named."""
    if table.get("kind") != fact.kind:
        return False
    if fact.kind != "finding":
        return True
    asked, seen = fact.spot, spot_of(table)
    pairs = ((asked.side, seen.side), (asked.level, seen.level), (asked.ordinal, seen.ordinal))
    placed = asked == NOWHERE or all(one is None or one == other for one, other in pairs)
    return table.get("value") == fact.value and placed
