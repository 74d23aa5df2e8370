"""Cautions: those that the rules call for, those whose own condition holds, and what is special to the taxon."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.practice.advice import Caution
from benchmate.practice.almanac import Almanac
from benchmate.practice.book import RuleBook
from benchmate.practice.facts import Facts
from benchmate.practice.target import LEAVE, OFFERED
from benchmate.practice.weigh import Weighed

# people first, then the law, then the tree
_RANK = {"person": 0, "law": 1, "tree": 2}
# a bench answer is short: of what is special to a taxon, the first of its own
_MOST_OF_TAXON = 2
# what an answer shows before "more"; what only later options bring is told after all else
_SHOWN = 5
# handling of a plant that hurts: the taxon's own sentence is told with the first of these
_HANDLING = ("toxic-plant", "skin-sap", "thorns")


def cautions_for(weighed: Iterable[Weighed], facts: Facts, book: RuleBook, almanac: Almanac) -> tuple[Caution, ...]:
    """Every caution once, those that protect people first; of the others those of what was asked about, or of the best,
    before those of works put forward beside it, and last those of works that are not shown at once.

    almanac: of the day on which the works would be done.
    """
    rows = list(weighed)
    ids = list(dict.fromkeys(id for one in rows for id in one.cautions))
    near = {
        id for number, one in enumerate(rows) if number < _SHOWN or one.target.how != OFFERED for id in one.cautions
    }
    late = set(ids) - near
    answering = [one for number, one in enumerate(rows) if number == 0 or one.target.how != OFFERED]
    beside = set(ids) - {id for one in answering for id in one.cautions}
    # what the grower's own words call for is told whatever the pot holds: "heavy pot"
    own = {id for one in rows for result in one.spoke if result.rule.kind == "caution" for id in result.rule.cautions}
    pots = {id: None if id in own else facts.pot_l for id in ids}
    told = [caution_of(id, book) for id in ids if _fits(book.cautions.get(id, {}), almanac, pots[id])]
    out = _with_hazard([caution for caution in told if caution], facts)
    worked = any(one.target.how != LEAVE for one in rows)
    out += _of_taxon(answering, facts, book, almanac) if worked else []

    def rank(caution: Caution) -> tuple[bool, bool, int]:
        place = _RANK.get(caution.kind, 3)
        return caution.id in late, bool(place) and caution.id in beside, place

    return tuple(sorted(out, key=rank))


def caution_of(id: str, book: RuleBook) -> Caution | None:
    """A caution by its id, or None where the book has none of that name (the check names such)."""
    table = book.cautions.get(id)
    if table is None:
        return None
    return Caution(
        id,
        str(table.get("kind", "tree")),
        str(table.get("says", "")),
        table.get("source"),
        _mark(table),
        str(table.get("short", "")),
    )


def _fits(table: Mapping[str, Any], almanac: Almanac, pot_l: float | None) -> bool:
    """Whether a caution about the time of year suits the day, and one about the pot its litres; a place without frost
    has no such days, and all suits, as with a pot of unknown size."""
    known = {"frost_days": almanac.frost_days(), "spring_frost_days": almanac.spring_frost_days(), "pot_l": pot_l}
    for key, bound in table.get("fits", {}).items():
        name, _, way = key.rpartition("_")
        value = known[name]
        if value is not None and math.isfinite(value) and not (value > bound if way == "over" else value < bound):
            return False
    return True


def _mark(table: dict[str, object]) -> str:
    return str(table.get("mark") or ("published" if table.get("source") else "practice"))


def _with_hazard(cautions: list[Caution], facts: Facts) -> list[Caution]:
    hazard = facts.entry.get("hazard")
    if not hazard:
        return cautions
    for number, caution in enumerate(cautions):
        if caution.id in _HANDLING:
            says = f"{caution.says} {hazard['says']}"
            told = Caution(caution.id, caution.kind, says, caution.source, caution.mark, caution.short)
            return [*cautions[:number], told, *cautions[number + 1 :]]
    return cautions


def _of_taxon(rows: list[Weighed], facts: Facts, book: RuleBook, almanac: Almanac) -> list[Caution]:
    """What growers of this taxon should know of the works weighed, in its part of the year; what names no work, with
    any that touches it."""
    touching = {work for group in ("cutting", "shaping", "roots") for work in book.group(group)}
    weighed = {one.target.work for one in rows if one.target.how != LEAVE}
    slug = (facts.taxon or "").lower().replace(" ", "-")
    told = [
        Caution(
            f"about-{slug}" + (f"-{number}" if number > 1 else ""),
            "tree",
            table["says"],
            table.get("source"),
            _mark(table),
        )
        for number, table in enumerate(facts.entry.get("cautions", ()), 1)
        if weighed & (_works(table["work"], book) if table.get("work") else touching)
        and ("between" not in table or almanac.between(*table["between"]))
    ]
    return told[:_MOST_OF_TAXON]


def _works(value: str | list[str], book: RuleBook) -> set[str]:
    return {work for name in ([value] if isinstance(value, str) else value) for work in book.group(name)}
