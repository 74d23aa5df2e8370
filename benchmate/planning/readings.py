"""Measurements in a journal: of the trunk, and of one branch."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Spot
from benchmate.practice.places import spots_meet
from benchmate.practice.recorded import day_of, spot_from, standing

Readings = list[tuple[dt.date, float]]
_TRUNK = (None, "trunk", "base", "tree")
_KEYS = ("base_mm", "diameter_mm")


def trunk_readings(entries: Sequence[Entry], on: dt.date) -> Readings:
    """(day, mm) of the trunk's thickness, oldest first; one a day, the last one told. Struck entries do not count."""
    out: dict[dt.date, float] = {}
    for entry in reversed(standing(entries, on)):
        # measures of an entry without a part are of the tree, unless the entry is about work on some branch
        tables: list[Mapping[str, Any]] = [] if any(work.get("part") for work in entry.work) else [entry.measures]
        tables += [fact for fact in entry.facts if fact.get("part") in _TRUNK and fact.get("kind") != "candidate"]
        for table in tables:
            for key in _KEYS:
                if isinstance(table.get(key), int | float) and float(table[key]) > 0:
                    out[day_of(entry.at)] = float(table[key])
    return sorted(out.items())


def branch_readings(entries: Sequence[Entry], on: dt.date, spot: Spot, places: Mapping[str, Any]) -> Readings:
    """(day, mm) of the thickness of a branch, oldest first, from what was seen or measured at its place."""
    out: dict[dt.date, float] = {}
    for entry in reversed(standing(entries, on)):
        for table in (*entry.facts, *entry.work):
            size = table.get("diameter_mm")
            if table.get("part") in _TRUNK or not isinstance(size, int | float) or size <= 0:
                continue
            if spots_meet(spot_from(table), spot, places):
                out[day_of(entry.at)] = float(size)
    return sorted(out.items())
