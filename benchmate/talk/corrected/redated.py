"""A correction of nothing but the day: "no, it was Saturday", also where a question was asked in between."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading
from benchmate.talk.dates import first_day, last_day
from benchmate.telling.dates import day_of
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_WEEK = 7


def day_meant_by(turn: Turn, last: Reading | None, fix: Reading) -> Reading:
    """The correction with the day that it means: a weekday that today is too is the one a week ago, where what it puts
    right was of a day gone by."""
    if fix.when != turn.on.isoformat() or last is None or last.when is None:
        return fix
    before = last_day(last.when, turn.southern)
    texts = turn.house.lexicon.split(fix.said)
    if before is None or before >= turn.on or "today" in texts or any(word.isdecimal() for word in texts):
        return fix
    return replace(fix, when=(turn.on - dt.timedelta(days=_WEEK)).isoformat())


def put_on_day(turn: Turn) -> bool:
    """Put the work that was logged last on the day that the correction names, where the statement before this one put
    nothing down that it could bear on; False where more is said."""
    fix, last, made = turn.reading, turn.before.amends, turn.before.logged
    lost = any(not one.words.casefold().startswith("not ") for one in fix.missed)  # "yesterday, not today"
    named = fix.work or fix.facts or fix.measures or fix.tree or fix.several or lost
    if fix.acts != ("correct",) or not fix.when or named or turn.before.made or not made:
        return False
    if last is None or last.when or "decide" in last.acts or any(entry.kind != "done" for _, entry in made):
        return False
    fix = _as_told_before(turn, made[0][1], fix)
    day = last_day(str(fix.when), turn.southern)
    if day is None or (first_day(str(fix.when), turn.southern) or day) > turn.on:
        return False
    from benchmate.talk.trees.which_tree import meant_tree

    turn.in_its_stead(made)
    for name, entry in made:
        tree = meant_tree(Reading("", tree=name), turn.house.trees(), None).tree
        if tree is not None:
            turn.to_log.append((tree, (_moved(entry, min(day, turn.on), fix),)))
    turn.reading = Reading(fix.said, when=fix.when)
    return True


def _as_told_before(turn: Turn, entry: Entry, fix: Reading) -> Reading:
    return day_meant_by(turn, Reading("", when=entry.day.isoformat()), fix)


def _moved(entry: Entry, day: dt.date, fix: Reading) -> Entry:
    """The entry on another day; what is to be come back to moves with it."""
    by = day - entry.day
    follow = tuple(_on(table, by) for table in entry.follow)
    return replace(entry, id="", at=day, when=fix.when, said=f"{entry.said}; {fix.said}", follow=follow)


def _on(table: Mapping[str, Any], by: dt.timedelta) -> dict[str, Any]:
    day = day_of(table.get("on"))
    return dict(table) | ({"on": (day + by).isoformat()} if day else {})
