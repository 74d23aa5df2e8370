"""Everything that a tree's sheet tells, gathered: its record, what its seasons cost, what waits, what to mind."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from benchmate.garden.record import Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice import gather
from benchmate.practice.advice import Caution
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.practice.taxa import taxon_entry
from benchmate.practice.warnings import caution_of
from benchmate.talk.recorded.season_costs import seasons_spent
from benchmate.telling.page import Sheet

if TYPE_CHECKING:
    from benchmate.talk.house import House

_FAR_DAYS = 36_500
_GROUPS = ("roots", "cutting", "shaping", "care")


def sheet_of(tree: Tree, house: House, on: dt.date) -> Sheet:
    """The sheet of one tree as of a day. Entries of later days do not count."""
    from benchmate.garden import DueTree, follow_ups, standing
    from benchmate.garden.agenda import due_items

    book, place = house.book, house.place
    entries = tuple(entry for entry in standing(house.entries(tree)) if entry.day <= on)
    waits = follow_ups(entries, place.southern)
    taxon = known_taxon(tree.species, book)
    names = taxon_entry(taxon, book.taxa).get("names", ()) if taxon else ()
    return Sheet(
        tree,
        on,
        entries,
        common_name=names[0] if names else None,
        groups={work: group for group in _GROUPS for work in book.group(group)},
        seasons=tuple(seasons_spent(tree, entries, place, on, book)),
        due=DueTree(tree, due_items(waits, on, _FAR_DAYS)),
        undated=tuple(one for one in waits if one.on is None),
        cautions=tuple(kind_cautions(taxon, place, on, book)) if taxon else (),
        sources=book.sources,
        lessons=tuple(lessons_learned(tree, house, on)),
        units=place.units,
    )


def lessons_learned(tree: Tree, house: House, on: dt.date) -> Iterator[str]:
    """What the journals of this garden taught about the tree, in words: only what was seen in them."""
    from benchmate.talk.asked.plans import lessons_for, plan_book

    return (one.mix for one in lessons_for(house, tree, on, plan_book(house)) if one.learned)


def known_taxon(species: str | None, book: RuleBook) -> str | None:
    """The nearest taxon that the rules know: of a cultivar its species, of a species its genus; None for no species."""
    names = species.split() if species else []
    steps = [" ".join(names[:count]) for count in (len(names), 2, 1)]
    return next((step for step in steps if step in book.taxa), species or None)


def kind_cautions(taxon: str, place: Place, on: dt.date, book: RuleBook) -> Iterator[Caution]:
    """What to mind with any tree of this kind: cautions that rest on the kind alone, and the kind's own."""
    bare = Tree("", "", species=taxon)
    facts = gather(Reading(""), bare, (), place, on, book)
    entry = taxon_entry(taxon, book.taxa)
    matcher = Matcher(book, facts, almanac_for(on, place, entry, book.seasons))
    hazard = entry.get("hazard")
    if hazard:
        yield Caution("hazard", "person", hazard["says"], hazard.get("source"), _mark(hazard))
    for rule in book.rules:
        fits = rule.kind == "caution" and _on_kind(rule) and matcher.result(rule, Target(rule.work[0])).truth
        if fits and (caution := caution_of(rule.id.removeprefix("caution:"), book)):
            yield caution
    for number, table in enumerate(entry.get("cautions", ()), 1):
        yield Caution(f"about-{number}", "tree", table["says"], table.get("source"), _mark(table))


def _on_kind(rule: Rule) -> bool:
    kinds = {test.kind for clause in rule.condition for tests in clause for test in tests}
    return bool(kinds) and kinds <= {"trait", "species"} and not (rule.limits or rule.within or rule.not_within)


def _mark(table: dict[str, str]) -> str:
    return table.get("mark") or ("published" if table.get("source") else "practice")
