"""What to come back for once a work is done: the follow-ups of the rules that spoke, as dates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.practice.advice import Follow
from benchmate.practice.almanac import Almanac
from benchmate.practice.match import Result


def follow_ups(spoke: Iterable[Result], almanac: Almanac) -> tuple[Follow, ...]:
    """Follow-ups counted from today, the earliest first.

    The same work on the same part stands once, on its earlier day: coming back too soon costs a look, too late may cost
    a branch.
    """
    out: dict[tuple[str, str | None], Follow] = {}
    for result in spoke:
        for spec in result.rule.follow:
            day = _day(spec, almanac)
            if day is None:
                continue
            follow = Follow(
                spec["work"],
                day.isoformat(),
                spec.get("says", result.rule.says),
                spec.get("part"),
                result.rule.id,
                spec.get("weather"),
            )
            key = follow.work, follow.part
            if key not in out or follow.on < out[key].on:
                out[key] = follow
    return tuple(sorted(out.values(), key=lambda follow: follow.on))


def _day(spec: Mapping[str, Any], almanac: Almanac) -> dt.date | None:
    if "between" in spec and not almanac.between(*spec["between"]):
        return None
    soonest = almanac.on + dt.timedelta(days=int(spec.get("days", 0)))
    if "date" in spec:
        return almanac.next_date(str(spec["date"]), soonest)
    if "days" in spec:
        return soonest
    if "stage" in spec:
        return almanac.next_stage(str(spec["stage"]), almanac.on)
    return None
