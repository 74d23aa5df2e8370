"""What is known of a kind of tree by itself: its cells, what its growers should know, the rules that hold for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from benchmate.hearing.reading import NOWHERE
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.facts import Facts, Known
from benchmate.practice.taxa import taxon_entry
from benchmate.practice.truth import Where, all_of, clause_truth

_ANYWHERE = Where(NOWHERE, NOWHERE)


def rules_of_kind(ids: Iterable[str], taxon: str, book: RuleBook) -> list[Rule]:
    """Those of the rules whose condition the kind alone meets, whatever the day and the weather."""
    entry = taxon_entry(taxon, book.taxa)
    facts = Facts(dt.date.min, {"species": (Known("species", taxon),)}, taxon=taxon, entry=entry)
    rules = [rule for id in ids if (rule := book.rule(id)) is not None]
    return [
        rule
        for rule in rules
        if all_of(clause_truth(clause, facts, _ANYWHERE, book.places) for clause in rule.condition)
    ]


def cell_of(taxon: str, trait: str, book: RuleBook) -> Mapping[str, Any] | None:
    """The cell of a trait, its own or its genus's, or None where neither has one."""
    cell: Mapping[str, Any] | None = taxon_entry(taxon, book.taxa)["traits"].get(trait)
    return cell


def cells_below(genus: str, trait: str, book: RuleBook) -> dict[str, Mapping[str, Any]]:
    """Species -> cell, of the species of a genus that have one of their own."""
    if " " in genus:
        return {}
    own = ((taxon, book.taxa[taxon]["traits"].get(trait)) for taxon in book.taxa if taxon.startswith(f"{genus} "))
    return {taxon: cell for taxon, cell in own if cell and cell["from"] == taxon}


def known_of(taxon: str, works: Sequence[str], book: RuleBook) -> list[Mapping[str, Any]]:
    """What growers of the kind should know that bears on one of the works by name, its own before its genus's."""
    rows = taxon_entry(taxon, book.taxa)["cautions"]
    return [row for row in rows if set(works) & set(row.get("work", ()))]
