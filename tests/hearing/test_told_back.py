"""A rule's condition is read, told back in plain words and read again: the facts stay the same."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

from benchmate.hearing import Ear, Fact
from benchmate.telling.heard import fact_words

ON = dt.date(2026, 6, 14)


def _conditions(tables: dict[str, Any]) -> list[str]:
    """Every alternative of every condition, once."""
    found: dict[str, None] = {}
    for path, table in tables.items():
        if path.startswith("practice/"):
            for rule in table.get("rule", []):
                for alternative in re.split(r",|;|\bor\b", rule.get("when", "")):
                    if alternative.strip():
                        found.setdefault(alternative.strip())
    return list(found)


def _key(fact: Fact) -> tuple[object, ...]:
    return (fact.kind, fact.value, fact.spot, fact.denied)


def test_conditions_told_back_give_the_same_facts(ear: Ear, tables: dict[str, Any]) -> None:
    conditions = _conditions(tables)
    assert len(conditions) > 150
    wrong = []
    for condition in conditions:
        # traits are words of the rules alone ("single-flush tree"); nobody is told them back
        facts = [fact for fact in ear.hear(condition, ON).facts if fact.kind != "trait"]
        told = ", ".join(fact_words(fact, ON) for fact in facts)
        again = [fact for fact in ear.hear(told, ON).facts if fact.kind != "trait"]
        if sorted(map(repr, map(_key, facts))) != sorted(map(repr, map(_key, again))):
            wrong.append(f"{condition!r} told as {told!r}")
    assert not wrong, "\n".join(wrong)
