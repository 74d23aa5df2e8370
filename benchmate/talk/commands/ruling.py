"""`rules check`, `show`, `list` and `cover`: commands about the rule base."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.fault import Fault, UserError
from benchmate.talk.commands.settings import house_of, print_json, print_lines, wants_json

if TYPE_CHECKING:
    from benchmate.practice.book import Rule
    from benchmate.talk.house import House


def rules_of(house: House) -> list[Rule]:
    """The rules proper; what bounds the season's dose or only carries a caution is no rule of the grower's."""
    return [rule for rule in house.book.rules if rule.kind == "rule"]


def list_command(args: Namespace) -> int:
    """All rules, a line each."""
    from benchmate.telling.rulebook import count_line, rule_line

    house = house_of(args)
    rules = rules_of(house)
    if args.work:
        _known_work(args.work, house)
        rules = [rule for rule in rules if args.work in rule.work]
    if wants_json(args):
        print_json({"rules": [_row(rule) for rule in rules]})
    else:
        print_lines([*map(rule_line, rules), count_line(rules, 0)], args)
    return 0


def show_command(args: Namespace) -> int:
    """One rule with its source."""
    from benchmate.telling.rulebook import rule_lines

    house = house_of(args)
    rule = house.book.rule(args.id)
    if rule is None:
        near = _nearest(args.id, [rule.id for rule in rules_of(house)])
        raise UserError(f"no rule is called {args.id!r}; {near}")
    path, line = house.tables.place_of(rule.file, rule.id)
    examples = _examples(house.tables.tables.get(rule.file, {}), rule.id)
    if wants_json(args):
        print_json(
            {
                **_row(rule),
                "file": path,
                "line": line,
                "examples": examples,
                "source": house.book.sources.get(rule.source or ""),
            }
        )
    else:
        print_lines(rule_lines(rule, house.book.sources, examples, f"{path}:{line}"), args)
    return 0


def check_command(args: Namespace) -> int:
    """The faults of the rule files, then the count of the rules."""
    from benchmate.telling.rulebook import count_line

    house = house_of(args)
    faults = rule_faults(house)
    rules = rules_of(house)
    if wants_json(args):
        yours = sum(rule.yours for rule in rules)
        print_json({"rules": len(rules), "yours": yours, "faults": [fault.as_json() for fault in faults]})
    else:
        for fault in faults:
            print(fault, file=sys.stdout)
        print_lines([count_line(rules, len(faults))], args)
    return 1 if faults else 0


def rule_faults(house: House) -> list[Fault]:
    """Everything that is wrong with the rule files, sorted by place."""
    from benchmate.planning import plan_faults
    from benchmate.practice.check import check_rules

    tables = house.tables
    return sorted({*check_rules(tables, house.book), *plan_faults(tables.tables, tables.place_of)})


def cover_command(args: Namespace) -> int:
    """Taxa by work: what is known and what is not."""
    from benchmate.practice.cover import cover
    from benchmate.telling.rulebook import cover_lines

    house = house_of(args)
    works = list(house.book.works)
    if args.work:
        _known_work(args.work, house)
        works = [args.work]
    table = cover(house.book, works)
    if wants_json(args):
        print_json({"works": works, "taxa": {taxon: dict(row) for taxon, row in table.items()}})
    else:
        print_lines(cover_lines(table, works), args)
    return 0


def _row(rule: Rule) -> dict[str, Any]:
    return {
        "id": rule.id,
        "work": list(rule.work),
        "when": rule.when,
        "verdict": rule.verdict,
        "weight": rule.weight,
        "says": rule.says,
        "mark": rule.mark,
        "source": rule.source,
        "yours": rule.yours,
    }


def _examples(table: Mapping[str, Any], id: str) -> list[dict[str, Any]]:
    for row in table.get("rule", ()):
        if row.get("id") == id:
            return [dict(example) for example in row.get("example", ())]
    return [dict(row) for row in table.get("example", ()) if row.get("rule") == id]


def _known_work(work: str, house: House) -> None:
    if work not in house.book.works:
        raise UserError(f"no work is called {work!r}; {_nearest(work, list(house.book.works))}")


def _nearest(name: str, known: list[str]) -> str:
    from rapidfuzz.distance import OSA

    near = min(known, key=lambda other: OSA.distance(name, other), default="")
    return f"did you mean {near!r}?" if near else "there are none"
