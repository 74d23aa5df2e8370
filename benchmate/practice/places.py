"""Where on the tree a fact and an option meet."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from benchmate.hearing.reading import NOWHERE, Spot
from benchmate.practice.facts import Known

_WHOLE = (None, "crown", "tree")


def inherent_part(finding: str, places: Mapping[str, Any]) -> str | None:
    """The part that a finding names by itself: a weak branch sits on a branch."""
    part = places.get("finding_part", {}).get(finding)
    return str(part) if part else None


def spot_of(known: Known, places: Mapping[str, Any]) -> Spot:
    """Where the finding sits, its own part filled in where the words left it out."""
    part = known.spot.part or inherent_part(str(known.value), places)
    return known.spot if part == known.spot.part else Spot(part, known.spot.side, known.spot.level, known.spot.ordinal)


def is_local(known: Known, places: Mapping[str, Any]) -> bool:
    """Whether a finding speaks of one place only and not of the tree: it was placed, or its kind always is."""
    return is_placed(known.spot) or known.value in places.get("local", ())


def parts_meet(one: str | None, other: str | None, places: Mapping[str, Any]) -> bool:
    """Whether one may be part of the other: a shoot stands on a branch, a leaf on both."""
    if one is None or other is None or one == other:
        return True
    holds = places.get("holds", {})
    return other in holds.get(one, ()) or one in holds.get(other, ())


def spots_meet(one: Spot, other: Spot, places: Mapping[str, Any]) -> bool:
    """Whether two places may be the same: what is not said agrees with anything."""
    pairs = ((one.side, other.side), (one.level, other.level), (one.ordinal, other.ordinal))
    return parts_meet(one.part, other.part, places) and all(a is None or b is None or a == b for a, b in pairs)


def meets(known: Known, wanted: Spot, option: Spot, places: Mapping[str, Any]) -> bool:
    """Whether a finding counts for a test placed at `wanted` and an option placed at `option`.

    A finding of one place counts only for an option that is placed there: an option for the whole tree is spared by it,
    since the place gets an option of its own. `option` with the part "tree" is work that has no place (watering), and
    every finding counts for it.
    """
    spot = spot_of(known, places)
    if spot.part in places.get("beside", {}).get(known.value, ()) and wanted.part != spot.part:
        return False
    if wanted != NOWHERE and not _within(spot, wanted, places):
        return False
    if option.part == "tree":
        return True
    return not is_local(known, places) or is_at(option, spot, places)


def is_at(option: Spot, spot: Spot, places: Mapping[str, Any]) -> bool:
    """Whether an option is placed where a finding is. "The branches" are not yet the low one on the left."""
    if option.part in _WHOLE and not is_placed(option):
        return False
    return spots_meet(spot, option, places) and (is_placed(option) or not is_placed(spot))


def is_placed(spot: Spot) -> bool:
    return bool(spot.side or spot.level or spot.ordinal)


def _within(spot: Spot, wanted: Spot, places: Mapping[str, Any]) -> bool:
    """Whether a finding lies where the condition wants it: what the condition places, the finding must say."""
    if wanted.part and not (spot.part and parts_meet(spot.part, wanted.part, places)):
        return False
    return all(
        w is None or s == w
        for s, w in ((spot.side, wanted.side), (spot.level, wanted.level), (spot.ordinal, wanted.ordinal))
    )
