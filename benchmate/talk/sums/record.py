"""What the record tells a sum: when wire went on, when leaf was cut and how much is left, what was measured."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry, Tree
from benchmate.practice.budget import share_of
from benchmate.practice.facts import Facts

if TYPE_CHECKING:
    from benchmate.practice.book import RuleBook

_GROWN = ("base_mm", "height_mm", "diameter_mm")
_CUTTING = ("leaf-cut", "defoliate", "shorten", "candle-cut")
_WOUNDING = ("remove", "shorten", "select-leader")
_BLADES = ("leaf-cut", "defoliate")
_RELEAFS_DAYS = 28  # practice: elms and maples are in leaf again four weeks after
_NOT_OF_WHOLE = (
    "diameter_mm",
    "length_mm",
    "width_mm",
    "depth_mm",
    "angle_deg",
    "gap_mm",
    "leaves",
    "pairs",
    "buds",
    "days",
)


def recorded_values(
    facts: Facts, tree: Tree | None, entries: Sequence[Entry], on: dt.date, what: str | None = None
) -> dict[str, Any]:
    """By the names that sums use. what: the measure that a forecast is of ("base", "height"), or None for the one that
    was read most often."""
    out: dict[str, Any] = {}
    if facts.taxon:
        out["species"] = facts.taxon
    for kind in ("health", "stage"):
        # a stage that only the season suggests tells a sum nothing that the date does not
        if (fact := facts.first(kind)) and (kind != "stage" or fact.origin in ("said", "record")):
            out[kind] = fact.value
    if tree:
        out |= dict(tree.size) | _pot_values(as_potted(tree, entries, on).pot)
    out |= {key: value for key, value in facts.measures.items() if key not in _NOT_OF_WHOLE}
    on_tree = [known for known in facts.of("finding") if known.value == "wire-on" and not known.denied]
    wired = [done for done in facts.done if done.work == "wire" and not done.denied]
    if on_tree and wired:
        out["wired_on"] = wired[0].last
    cut = [done for done in facts.done if done.work in _CUTTING and not done.denied and (on - done.last).days < 120]
    if cut:
        out["cut_on"] = cut[0].last
    if wounds := _wounds(entries, on):
        out["wound_mm"] = wounds[-1]
    readings = measured(entries, on)
    chosen = next((key for key in readings if what and key.startswith(what)), None)
    if what is None and readings:
        chosen = max(readings, key=lambda key: len(readings[key]))
    if chosen:
        out |= {"readings": tuple(readings[chosen]), "what": chosen.removesuffix("_mm").replace("base", "trunk")}
    return out


def _pot_values(pot: Mapping[str, float]) -> dict[str, Any]:
    """The pot by the names that sums use; one that has a diameter is round."""
    if "diameter_mm" not in pot:
        return {f"pot_{key}": value for key, value in pot.items()}
    out: dict[str, Any] = {"pot_length_mm": pot["diameter_mm"], "pot_shape": "round"}
    return out | {f"pot_{key}": pot[key] for key in ("depth_mm",) if key in pot}


def _wounds(entries: Sequence[Entry], on: dt.date) -> list[float]:
    """How wide what was cut off was, in mm, oldest first."""
    struck = {entry.strikes for entry in entries if entry.strikes}
    done = [entry for entry in entries if entry.kind == "done" and entry.day <= on and entry.id not in struck]
    works = [work for entry in sorted(done, key=lambda entry: entry.day) for work in entry.work]
    sizes = [work.get("diameter_mm") for work in works if work.get("work") in _WOUNDING]
    return [float(size) for size in sizes if isinstance(size, int | float)]


def leaf_left(facts: Facts, taken: float, book: RuleBook, on: dt.date) -> float:
    """Share of its leaf that the tree carries, 0 to 1. taken: share of the foliage that went this season. Blades that
    were cut off count until new ones are out."""
    blades = [
        share_of(done.work, {} if done.share is None else {"share": done.share}, book)[0]
        for done in facts.done
        if done.work in _BLADES and not done.denied and 0 <= (on - done.last).days < _RELEAFS_DAYS
    ]
    return max(0.0, 1 - taken - max((share or 0.0 for share in blades), default=0.0))


def measured(entries: Sequence[Entry], on: dt.date, least: int = 2) -> dict[str, list[tuple[dt.date, float]]]:
    """What was measured on the tree, by measure, oldest first: the trunk's girth and the height, from any entry. least:
    how many readings a measure must have."""
    out: dict[str, list[tuple[dt.date, float]]] = {}
    struck = {entry.strikes for entry in entries if entry.strikes}
    for entry in sorted(entries, key=lambda entry: entry.day):
        if entry.day > on or entry.id in struck:
            continue
        tables = [
            entry.measures,
            *(fact for fact in entry.facts if fact.get("part") in (None, "trunk", "base", "tree")),
        ]
        for table in tables:
            for key in _GROWN:
                if isinstance(table.get(key), int | float):
                    out.setdefault("base_mm" if key == "diameter_mm" else key, []).append(
                        (entry.day, float(table[key]))
                    )
    return {key: readings for key, readings in out.items() if len(readings) >= least}
