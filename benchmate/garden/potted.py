"""The pot that a tree stands in: its sheet's, until the journal tells of another."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry, Tree
from benchmate.value import replace

_INTO_A_POT = ("repot", "slip-pot", "collect")
_SIZES = ("length_mm", "width_mm", "depth_mm", "diameter_mm")


def as_potted(tree: Tree, entries: Sequence[Entry], on: dt.date) -> Tree:
    """The tree with the pot of that day: the newest one that it was put into with its sizes told, or that was measured
    since. A new pot keeps no size of the old one: what is not told of it is not known."""
    pot = tree.pot
    struck = {entry.strikes for entry in entries if entry.strikes}
    for entry in sorted(entries, key=lambda entry: entry.day):
        if entry.day > on or entry.id in struck:
            continue
        if entry.kind == "done":
            for work in entry.work:
                if work.get("work") in _INTO_A_POT and work.get("part") in (None, "pot", "soil"):
                    pot = _sizes(work) or pot
        elif entry.kind == "seen" and (seen := _sizes(entry.measures)) and "depth_mm" in seen and len(seen) > 1:
            pot = seen  # a depth beside a length or a diameter is no tree's
    return tree if pot is tree.pot else replace(tree, pot=pot)


def _sizes(table: Mapping[str, Any]) -> dict[str, float]:
    return {key: float(table[key]) for key in _SIZES if isinstance(table.get(key), int | float)}
