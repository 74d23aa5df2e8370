"""Growth stages: the one that the date suggests, and what one known stage says of another."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place
from benchmate.value import dataclass

from .course import Traits, course_of
from .year import Tables


@dataclass(frozen=True, slots=True)
class StageGuess:
    """A stage taken from the date alone, never more than a suggestion.

    flush: which flush of the year the stage speaks of, or None where the date cannot tell. how: why, in words. since,
    until: first and last day of the stage as usual here, None where it lasts all year.
    """

    stage: str
    flush: int | None
    how: str
    since: dt.date | None = None
    until: dt.date | None = None


def guess_stage(traits: Traits, place: Place, on: dt.date, tables: Tables) -> StageGuess | None:
    """The stage that a tree of these traits is usually at, at a place on a day; None where nothing tells.

    traits: trait -> value (`leaf`, `flush`, `leafing`, `tender`, `candles`). tables: the season tables by file name.
    """
    course = course_of(traits, place, on, tables)
    span = course.at(on) if course else None
    if course is None or span is None:
        return None
    if span.first == dt.date.min:
        return StageGuess(span.stage, span.flush, f"usual for {course.about} where there is no frost")
    since = f"{span.first.day} {span.first:%B}"
    return StageGuess(span.stage, span.flush, f"usual for {course.about} from {since} on", span.first, span.last)


def stage_truth(known: str, asked: str, tables: Tables, leaf: str | None = None) -> bool | None:
    """Whether a tree known to be at one stage is at another: true, false, or None where it may be.

    leaf: the trait, for what only a bare or only an evergreen tree tells. A stage that the tables do not have is None.
    """
    table = tables["stages"]["stage"]
    if known == asked:
        return True
    if known not in table or asked not in table:
        return None
    cell = table[known]
    kinds = tables["stages"]["leaf"]
    kind = next((name for name, leaves in kinds.items() if leaf in leaves), None)
    more = cell.get("on", {}).get(kind, {})
    if asked in cell["implies"] or asked in more.get("implies", ()):
        return True
    if asked in more.get("excludes", ()):
        return False
    return None if asked in cell["allows"] or asked in more.get("allows", ()) else False
