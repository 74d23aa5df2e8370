"""Runs the examples that stand inside the rules: what is said must give what the rule claims."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing import build_lexicon, hear
from benchmate.practice import RuleBook, advise, compile_book, gather
from benchmate.practice.advice import Advice, Option
from benchmate.rulebase import RuleTables, find_rules, read_tables

DAY = dt.date(2026, 6, 15)
PLACE = {"latitude": 51.5, "longitude": -0.5, "last_frost": "04-25", "first_frost": "10-20"}


@dataclass(frozen=True)
class Case:
    """One example of one rule. number: its place among the rule's examples, from 1."""

    file: str
    rule: str
    number: int
    claim: dict[str, Any]

    @property
    def id(self) -> str:
        return f"{self.rule}-{self.number}"


@lru_cache(maxsize=1)
def built() -> tuple[RuleTables, Any, RuleBook]:
    tables = read_tables(find_rules())
    lexicon = build_lexicon(tables.tables)
    return tables, lexicon, compile_book(tables.tables, lexicon, tables.place_of)


def cases() -> list[Case]:
    tables, _, _ = built()
    return [
        Case(name, row["id"], number, example)
        for name, table in sorted(tables.tables.items())
        if name.startswith("practice/")
        for row in table.get("rule", ())
        for number, example in enumerate(row.get("example", ()), 1)
    ]


def month_day(text: str | None) -> tuple[int, int] | None:
    return (int(text[:2]), int(text[3:])) if text else None


def place_of(table: dict[str, Any] | None) -> Place:
    row = PLACE if table is None else table
    return Place(
        "Test garden",
        row.get("latitude"),
        row.get("longitude"),
        month_day(row.get("last_frost")),
        month_day(row.get("first_frost")),
    )


def tree_of(table: dict[str, Any] | None) -> Tree | None:
    return None if table is None else Tree(**{"name": "Test tree", "folder": "test-tree", **table})


def entries_of(rows: list[dict[str, Any]] | None) -> list[Entry]:
    known = set(Entry.__dataclass_fields__)
    out = []
    for number, row in enumerate(rows or ()):
        values = {key: tuple(value) if isinstance(value, list) else value for key, value in row.items() if key in known}
        out.append(Entry(**{"id": f"{row['at']}-{number}", **values}))
    return out


def answer(claim: dict[str, Any]) -> Advice:
    _, lexicon, book = built()
    on = claim.get("on", DAY)
    place, tree = place_of(claim.get("place")), tree_of(claim.get("tree"))
    reading = hear(claim["say"], lexicon, on, place.southern, [tree.name] if tree else ())
    facts = gather(reading, tree, entries_of(claim.get("journal")), place, on, book)
    return advise(reading, facts, book, place, on)


def speaking(option: Option) -> list[str]:
    return [reason.rule for reason in (*option.because, *option.against)]


def wrong(case: Case) -> str | None:
    """What the example claims and does not get, or None."""
    _, _, book = built()
    rule = book.rule(case.rule)
    if rule is None:
        return "the rule did not compile"
    told = answer(case.claim)
    own = [option for option in told.options if option.work in rule.work]
    having = [option for option in own if case.rule in speaking(option)]
    if "gives" in case.claim:
        if not having:
            return f"the rule does not speak; options: {[(o.work, o.verdict) for o in told.options]}{why(case, told)}"
        if not any(option.verdict == case.claim["gives"] for option in having):
            against = [[(r.rule) for r in o.against] for o in having]
            asks = [(a.fact, a.rules) for a in told.asks]
            return f"gives {[o.verdict for o in having]}, not {case.claim['gives']}: {against} asks {asks}"
    if case.claim.get("fires") is False and having:
        return f"it speaks{why(case, told)}"
    if "asks" in case.claim:
        asks = [ask.fact for ask in told.asks]
        if case.claim["asks"] not in asks:
            verdicts = [(o.work, o.verdict) for o in told.options]
            return f"asks {asks}, not {case.claim['asks']}; {verdicts}{why(case, told)}"
    return None


def why(case: Case, told: Advice) -> str:
    mine = [f"{t.work} {t.truth}: {t.by}" for t in told.trace if t.rule == case.rule]
    heard = told.reading.as_json()
    keys = ("facts", "work", "missed", "topic", "measures", "means", "candidates")
    kept = {key: heard[key] for key in keys if heard.get(key)}
    return f"\n    trace: {mine}\n    heard: {kept}\n    facts: {told.facts}"
