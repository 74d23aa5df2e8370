"""What the grower said would be done, beside what a plan lays out: nothing said is missing from it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Spot
from benchmate.telling import lines as role
from benchmate.telling.lines import Line
from benchmate.telling.wording import sentence, work_words

if TYPE_CHECKING:
    from benchmate.garden import FollowUp
    from benchmate.talk.house import House


def meant_by_grower(house: House, tree: Tree, on: dt.date) -> list[FollowUp]:
    """Open plans and reminders in the grower's own words, by day; those without a day last."""
    if house.garden is None:
        return []
    own = [one for one in house.garden.follow_ups(tree, on) if not one.rule]
    return sorted(own, key=lambda one: (one.on or dt.date.max, one.work))


def meant_lines(meant: Collection[FollowUp], on: dt.date, planned: Collection[str] = ()) -> list[Line]:
    """A line each, under a heading. planned: the works that the plan holds itself."""
    told = [Line(words, role.REASON, "- ", 2) for words in meant_words(meant, on, planned)]
    return [Line("What you said you would do:", role.OPTION), *told] if told else []


def meant_words(meant: Collection[FollowUp], on: dt.date, planned: Collection[str] = ()) -> list[str]:
    """The same as sentences, for an answer in the talk."""
    from benchmate.garden import Due
    from benchmate.telling.due import item_words

    out = []
    for one in meant:
        if one.on is None:
            work = work_words(one.work, Spot(one.part, one.side, one.level))
            words = f"{work} (no day was told): {one.says.rstrip('.')}"
        else:
            words = item_words(Due(one, ((one.until or one.on) - on).days), on)
        out.append(sentence(words + ("; the plan holds such work too" if one.work in planned else "")))
    return out
