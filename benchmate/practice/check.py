"""The check of a whole rule base: files and names, then what the rules say together.

A check is a function of the book that gives faults; the decorator gives it its place in the run.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator

from benchmate.fault import Fault
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.bounds import Bounds
from benchmate.practice.quantity import QUANTITIES
from benchmate.rulebase import RuleTables
from benchmate.seasons import season_faults

PlaceOf = Callable[[str, str, str], tuple[str, int]]
Check = Callable[[RuleBook, Bounds, PlaceOf], Iterator[Fault]]
CHECKS: list[Check] = []


def check(function: Check) -> Check:
    CHECKS.append(function)
    return function


def check_rules(tables: RuleTables, book: RuleBook) -> list[Fault]:
    """Everything that is wrong with a rule base, sorted by place: what does not read or compile, what has the wrong
    shape, names that nothing bears, and rules that contradict one another, never speak or never let go."""
    from benchmate.hearing.vocabulary.check import check_words
    from benchmate.practice import check_windows  # noqa: F401 - registers its check
    from benchmate.rulebase.cross import check_names
    from benchmate.rulebase.validate import check_shapes

    bounds = Bounds(book)
    faults = {*tables.faults, *book.faults, *check_shapes(tables), *check_names(tables), *check_words(tables)}
    faults |= set(season_faults(book.seasons, book.sources))
    for run in CHECKS:
        faults |= set(run(book, bounds, tables.place_of))
    return sorted(faults)


def at(place_of: PlaceOf, rule: Rule, key: str, problem: str, remedy: str) -> Fault:
    path, line = place_of(rule.file, rule.id.removeprefix("caution:"), key)
    return Fault(path, line, rule.id, problem, remedy)


def proper(book: RuleBook) -> list[Rule]:
    return [rule for rule in book.rules if rule.kind == "rule"]


@check
def known_quantities(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    from benchmate.rulebase.validate import nearest

    for rule in book.rules:
        for limit in rule.limits:
            name = limit.quantity
            if name.startswith("days_since_"):
                if not set(book.group(name.removeprefix("days_since_"))) <= set(book.works):
                    work = name.removeprefix("days_since_")
                    yield at(place_of, rule, "limits", f"'{work}' is no work{nearest(work, book.works)}", "name a work")
            elif name not in QUANTITIES:
                yield at(
                    place_of,
                    rule,
                    "limits",
                    f"'{name}' is no quantity{nearest(name, QUANTITIES)}",
                    "see DEVELOPERS.md for the quantities",
                )


@check
def rules_that_never_hold(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    for rule in book.rules:
        if not bounds.can_hold(rule):
            yield at(
                place_of,
                rule,
                "when",
                "this can never hold: its conditions shut one another out",
                "take one of them out, or join them with 'or'",
            )
        elif rule.kind == "rule" and not set(rule.work) & set(book.works):
            yield at(place_of, rule, "work", "no work that the rules know", "name a work, or add it under rules/works")


@check
def rules_that_never_speak(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    for loser in proper(book):
        for winner in proper(book):
            if loser.id in winner.beats and set(loser.work) <= set(winner.work) and bounds.implies(loser, winner):
                yield at(
                    place_of,
                    loser,
                    "",
                    f"never speaks: '{winner.id}' beats it whenever it holds",
                    f"narrow {winner.id}, or drop this rule",
                )


@check
def contradictions(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    """A "go" that a block covers is never heard; weights that pull apart on the very same condition are a dispute."""
    by_work: dict[str, list[Rule]] = {}
    for rule in proper(book):
        for work in rule.work:
            by_work.setdefault(work, []).append(rule)
    seen: set[tuple[str, str]] = set()
    for rows in by_work.values():
        for one, other in itertools.permutations(rows, 2):
            if (one.id, other.id) in seen or related(one, other):
                continue
            seen.add((one.id, other.id))
            if one.verdict == "go" and other.blocks and bounds.implies(one, other):
                yield at(
                    place_of,
                    one,
                    "verdict",
                    f"says go, and '{other.id}' says {other.verdict} whenever this holds",
                    f'add beats = ["{other.id}"] if this is an exception to it, or narrow one of the two',
                )
            if one.id < other.id and one.weight * other.weight < 0 and same_condition(one, other, bounds):
                yield at(
                    place_of,
                    one,
                    "weight",
                    f"weighs against '{other.id}' on the same condition",
                    "let each name the other in `disputes`, or make them one rule",
                )


def related(one: Rule, other: Rule) -> bool:
    return bool({other.id} & {*one.beats, *one.disputes} or {one.id} & {*other.beats, *other.disputes})


def same_condition(one: Rule, other: Rule, bounds: Bounds) -> bool:
    return bounds.implies(one, other) and bounds.implies(other, one)


@check
def works_without_a_rule(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    spoken = {work for rule in proper(book) for work in rule.work}
    for work, table in book.works.items():
        if work not in spoken:
            path, line = place_of(f"works/{table.get('group', 'none')}.toml", f"work.{work}", "")
            yield Fault(path, line, f"work.{work}", "no rule speaks of this work", "add a rule under rules/practice")


@check
def works_that_cannot_be_told(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    for work, table in book.works.items():
        if not table.get("told"):
            path, line = place_of(f"works/{table.get('group', 'none')}.toml", f"work.{work}", "")
            remedy = f'add told = {{do = "{work} {{it|it}}", done = "..."}}'
            yield Fault(path, line, f"work.{work}", "no words tell this work", remedy)


@check
def taxa_without_a_rule(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    """A taxon that no rule's condition picks out gets only what is said of every tree."""
    spoken: set[str] = set()
    for rule in proper(book):
        tests = [test for clause in rule.condition for tests in clause for test in tests]
        if any(test.kind in ("species", "trait") and not test.denied for test in tests):
            spoken |= bounds.rule_taxa(rule)
    for taxon in book.taxa:
        if taxon not in spoken:
            path, line = place_of(f"species/{taxon.lower().replace(' ', '-')}.toml", taxon, "")
            remedy = "give it a group or a trait that rules speak of"
            yield Fault(path, line, taxon, "no rule picks this taxon out", remedy)


@check
def cautions_that_nothing_calls(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    called = {caution for rule in book.rules for caution in rule.cautions} | {"over-dose"}
    for id, table in book.cautions.items():
        if id not in called and not (table.get("told") or table.get("beside")):
            name = f"cautions/{table.get('kind', 'tree')}.toml"
            path, line = place_of(name, f"caution.{id}", "")
            remedy = "give it a `when` or words that tell it, or name it in a rule"
            yield Fault(path, line, f"caution.{id}", "no rule calls this caution", remedy)
