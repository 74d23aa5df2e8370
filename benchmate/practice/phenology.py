"""How a tree's own springs lie to the usual ones: the stages of its buds that the record saw, against the calendar."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry
from benchmate.practice.almanac import Almanac
from benchmate.practice.recorded import day_of
from benchmate.seasons import course_of

Seen = tuple[str, dt.date]
_HALF_A_YEAR = dt.timedelta(days=183)


def springs_of(entries: Iterable[Entry], places: Mapping[str, Any]) -> list[Seen]:
    """The stages of spring that the record saw, each with its day. Of several days of one stage in one spring the first
    tells when it began."""
    wanted = places.get("phenology", {}).get("stages", ())
    first: dict[tuple[str, int], dt.date] = {}
    for entry in entries:
        day = day_of(entry.at)
        for fact in entry.facts:
            if fact.get("kind") == "stage" and fact.get("value") in wanted and not fact.get("not"):
                key = str(fact["value"]), (day + _HALF_A_YEAR).year  # a southern spring lies in one such year as well
                first[key] = min(day, first.get(key, day))
    return [(stage, day) for (stage, _), day in first.items()]


def own_spring(springs: Sequence[Seen], almanac: Almanac, places: Mapping[str, Any]) -> int:
    """Days by which the springs of the record came later than usual, negative earlier; 0 where the calendar held.

    A day within the stage's usual weeks says that the calendar holds. One outside them is taken for the middle of the
    stage. What lies too far off was another kind of spring (under glass, a slip of the pen) and teaches nothing.
    """
    most = int(places.get("phenology", {}).get("most_days", 0))
    shifts = []
    for stage, day in springs:
        course = course_of(almanac.traits, almanac.place, day, almanac.tables)
        spans = [span for span in course.spans if span.stage == stage and span.first > dt.date.min] if course else []
        if not spans:
            continue
        near = min(spans, key=lambda span: abs((day - span.first).days))
        shift = (day - near.first - (near.last - near.first) / 2).days
        if near.first <= day <= near.last:
            shift = 0
        if abs(shift) <= most:
            shifts.append(shift)
    return round(sum(shifts) / len(shifts)) if shifts else 0
