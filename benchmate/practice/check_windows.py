"""Holds that never let go: a window that does not open for some taxon in the north or in the south."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Any

from benchmate.fault import Fault
from benchmate.garden.record import Place
from benchmate.practice.almanac import Almanac
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.bounds import Bounds
from benchmate.practice.check import PlaceOf, at, check

_PLACES = (
    ("the north", Place("", 51.5, 0.0, (4, 25), (10, 20))),
    ("the south", Place("", -35.3, 149.1, (10, 28), (4, 18))),
)
_DAYS = (dt.date(2026, 1, 15), dt.date(2026, 7, 15))
# traits that the calendar of a taxon depends on
_KEYS = ("leaf", "flush", "leafing", "tender", "candles", "bloom")


Opened = dict[tuple[str, str, str], bool]


@check
def windows_that_never_open(book: RuleBook, bounds: Bounds, place_of: PlaceOf) -> Iterator[Fault]:
    opened: Opened = {}
    for rule in book.rules:
        if not rule.opens or not ({"stage", "trait"} & set(rule.opens)):
            continue
        taxa = sorted(bounds.rule_taxa(rule))
        shut: dict[str, list[str]] = {}
        for where, place in _PLACES:
            for taxon in taxa:
                traits = {name: cell["is"] for name, cell in book.taxa[taxon].get("traits", {}).items()}
                if traits.get("leaf") and not _lets_go(rule, traits, place, where, book, opened):
                    shut.setdefault(taxon, []).append(where)
        if shut:
            names = ", ".join(list(shut)[:3]) + (f" and {len(shut) - 3} more" if len(shut) > 3 else "")
            places = " and ".join(dict.fromkeys(where for rows in shut.values() for where in rows))
            yield at(
                place_of,
                rule,
                "opens",
                f"never lets go in {places} for {names}",
                "open by a stage or window that these trees have, or leave them out of `when`",
            )


def _lets_go(rule: Rule, traits: Mapping[str, Any], place: Place, where: str, book: RuleBook, opened: Opened) -> bool:
    spec = rule.opens or {}
    names = [spec["stage"]] if "stage" in spec else traits.get(str(spec["trait"]))
    if not names or not _comes(list(names), traits, place, where, book, opened):
        # where the tree is never at the stage that the rule holds at, there is nothing to let go of
        return not names or not _holds_at_some(rule, traits, place, where, book, opened)
    return True


def _holds_at_some(
    rule: Rule, traits: Mapping[str, Any], place: Place, where: str, book: RuleBook, opened: Opened
) -> bool:
    for clause in rule.condition:
        stages = [[str(t.value) for t in tests if t.kind == "stage" and not t.denied] for tests in clause]
        if all(stages) and not any(_comes([s], traits, place, where, book, opened) for row in stages for s in row):
            return False
    return True


def _comes(
    names: list[str], traits: Mapping[str, Any], place: Place, where: str, book: RuleBook, opened: Opened
) -> bool:
    """Whether one of the stages or windows is ever met by trees of these traits."""
    key = (where, str(names), str([traits.get(name) for name in _KEYS]))
    if key not in opened:
        opened[key] = all(Almanac(day, place, traits, book.seasons).window(names, day) is not None for day in _DAYS)
    return opened[key]
