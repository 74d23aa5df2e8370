"""What the trees taught: numbers learned from this garden's journals, and how the usual ones give way to them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry, Place, Tree
from benchmate.planning.mixing import Mixed, Usual, mix, mix_words
from benchmate.planning.observe import OBSERVERS, Observation, journal_of
from benchmate.practice.book import RuleBook
from benchmate.practice.taxa import taxon_entry
from benchmate.value import dataclass

Journals = Sequence[tuple[Tree, Sequence[Entry]]]


@dataclass(frozen=True, slots=True)
class Lesson:
    """One number as this garden taught it.

    what: its name in rules/planning. scope: the tree's name, or a taxon. value, low, high: what is now taken, and the
    span in which four of five cases fall. count, others: observations of this tree, and of others of its taxon. seen:
    the tree's own, oldest first. usual: what would be taken without them, None where the rules hold nothing. mix: how
    it came about, in words. mark: of the usual value.
    """

    what: str
    says: str
    scope: str
    value: float
    low: float
    high: float
    unit: str
    count: int = 0
    others: int = 0
    seen: tuple[Observation, ...] = ()
    usual: float | None = None
    mix: str = ""
    mark: str = "practice"

    @property
    def learned(self) -> bool:
        """Whether any journal of this garden bears on it."""
        return bool(self.count or self.others)

    def as_json(self) -> dict[str, Any]:
        return {
            "what": self.what,
            "says": self.says,
            "scope": self.scope,
            "value": round(self.value, 2),
            "low": round(self.low, 2),
            "high": round(self.high, 2),
            "unit": self.unit,
            "count": self.count,
            "others": self.others,
            "usual": self.usual,
            "mark": self.mark,
            "mix": self.mix,
            "seen": [{"on": one.on.isoformat(), "value": round(one.value, 2)} for one in self.seen],
        }


def taught(
    tree: Tree, journals: Journals, on: dt.date, place: Place, book: RuleBook, table: Mapping[str, Any]
) -> tuple[Lesson, ...]:
    """What a tree, and the others of its taxon, taught up to a day.

    journals: of the garden's trees, its own among them. table: [lesson.*] of rules/planning. A lesson of which nothing
    is known, neither seen nor usual, is left out.
    """
    own = [(one, entries) for one, entries in journals if one.folder == tree.folder]
    kin = [(one, entries) for one, entries in journals if one.folder != tree.folder and _kin(one, tree)]
    return _lessons(tree.name, tree.species, own, kin, on, place, book, table)


def taught_by_taxon(
    journals: Journals, on: dt.date, place: Place, book: RuleBook, table: Mapping[str, Any]
) -> dict[str, tuple[Lesson, ...]]:
    """What all trees of each taxon of the garden taught together, by taxon; lessons with nothing seen are left out."""
    out = {}
    for taxon in sorted({tree.species for tree, _ in journals if tree.species}):
        rows = [(tree, entries) for tree, entries in journals if tree.species == taxon]
        lessons = _lessons(taxon, taxon, rows, [], on, place, book, table)
        if found := tuple(lesson for lesson in lessons if lesson.learned):
            out[taxon] = found
    return out


def _kin(one: Tree, other: Tree) -> bool:
    return one.species is not None and one.species == other.species


def _lessons(
    scope: str,
    taxon: str | None,
    own: Journals,
    kin: Journals,
    on: dt.date,
    place: Place,
    book: RuleBook,
    table: Mapping[str, Any],
) -> tuple[Lesson, ...]:
    entry = taxon_entry(taxon, book.taxa) if taxon else {}
    traits = {name: cell["is"] for name, cell in entry.get("traits", {}).items()}
    kinds = {**traits, "group": entry.get("groups", [])}
    out = []
    for what, row in table.items():
        mine = _observed(what, row, own, on, place, traits, book)
        theirs = _observed(what, row, kin, on, place, traits, book)
        usual = usual_for(row, kinds)
        found = mix(
            usual,
            [one.value for one in mine],
            [one.value for one in theirs],
            float(row["counts_as"]),
            float(row["others_count"]),
        )
        if found is not None:
            out.append(_lesson(what, row, scope, found, mine, theirs, usual))
    return tuple(out)


def _lesson(
    what: str,
    row: Mapping[str, Any],
    scope: str,
    found: Mixed,
    mine: Sequence[Observation],
    theirs: Sequence[Observation],
    usual: Usual | None,
) -> Lesson:
    floor = float(row.get("least", 0))
    words = mix_words(
        str(row["says"]),
        str(row["unit"]),
        found,
        [one.value for one in mine],
        [one.value for one in theirs],
        usual,
        float(row["counts_as"]),
        float(row["others_count"]),
    )
    return Lesson(
        what,
        str(row["says"]),
        scope,
        found.value,
        max(floor, found.low),
        found.high,
        str(row["unit"]),
        len(mine),
        len(theirs),
        tuple(mine),
        usual.value if usual else None,
        words,
        usual.mark if usual else "practice",
    )


def _observed(
    what: str,
    row: Mapping[str, Any],
    journals: Journals,
    on: dt.date,
    place: Place,
    traits: Mapping[str, Any],
    book: RuleBook,
) -> list[Observation]:
    """All observations of some trees that can be so; what lies beyond the row's bounds is no observation of it."""
    found: list[Observation] = []
    for _, entries in journals:
        journal = journal_of(entries, on, place, traits, book.places, book.seasons)
        found += OBSERVERS[what](journal, row)
    least, most = float(row.get("least", 0)), float(row["most"])
    return sorted((one for one in found if least <= one.value <= most), key=lambda one: (one.on, one.value))


def usual_for(row: Mapping[str, Any], kinds: Mapping[str, Any]) -> Usual | None:
    """The usual value for a kind of tree: the first row whose `fits` its traits and groups meet."""
    for one in row.get("usual", ()):
        if all(_has(kinds.get(name), wanted) for name, wanted in one.get("fits", {}).items()):
            mark = str(one.get("mark") or "published")
            return Usual(float(one["value"]), float(one["low"]), float(one["high"]), mark, one.get("source"))
    return None


def _has(held: Any, wanted: Any) -> bool:
    values = held if isinstance(held, list | tuple) else [held]
    return bool(set(values) & set(wanted if isinstance(wanted, list) else [wanted]))
