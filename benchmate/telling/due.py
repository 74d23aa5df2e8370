"""What is due, told by tree: overdue first, then by day; what a weather holds back says so."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Spot
from benchmate.telling import lines as role
from benchmate.telling.dates import day_words, span_words
from benchmate.telling.lines import Line
from benchmate.telling.wording import sentence, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.garden import Due, DueTree


LONG_PAST_DAYS = 120


def due_lines(groups: Sequence[DueTree], on: dt.date, days: int, *, whole: bool = False) -> list[Line]:
    """The list by tree, the answer first: how much is due, and how much of it is late.

    whole: with what a rule asked for so long ago that its time has passed; else that is only counted.
    """
    groups, past = (groups, 0) if whole else without_long_past(groups)
    lines = [Line(sentence(headline(groups, days)), role.ANSWER)]
    for group in groups:
        lines.append(Line(f"{group.tree.name}:", role.OPTION))
        lines += [Line(sentence(item_words(item, on)), role.REASON, "- ", 2) for item in group.items]
    if past:
        lines.append(Line(f"{past_words(past)}: --all shows them.", role.ASIDE))
    return lines


def without_long_past(groups: Sequence[DueTree]) -> tuple[list[DueTree], int]:
    """The groups without what a rule asked for long ago, and how much that was.

    The grower's own words never go, nor what something still on the tree asks for (wire that was not taken off).
    """
    kept, past = [], 0
    for group in groups:
        items = tuple(item for item in group.items if _stays(item))
        past += len(group.items) - len(items)
        if items:
            kept.append(replace(group, items=items))
    return kept, past


def _stays(item: Due) -> bool:
    return item.days_left >= -LONG_PAST_DAYS or not item.follow.rule or bool(item.follow.closed_by)


def due_words(groups: Sequence[DueTree], on: dt.date, days: int) -> list[str]:
    """The same as plain lines, for an answer in the talk."""
    groups, past = without_long_past(groups)
    told = [f"{group.tree.name}: {item_words(item, on)}" for group in groups for item in group.items]
    if past:
        told.append(past_words(past))
    return [headline(groups, days), *map(sentence, told)]


def past_words(past: int) -> str:
    """How much is so late that it is only counted."""
    return f"{past} more {'is' if past == 1 else 'are'} over {LONG_PAST_DAYS} days late"


def headline(groups: Sequence[DueTree], days: int) -> str:
    """How many things are due in the span, and how many of them are overdue."""
    items = [item for group in groups for item in group.items]
    span = f"in the next {days} days" if days > 1 else "today and tomorrow" if days else "today"
    if not items:
        return f"Nothing is due {span}"
    late = sum(item.overdue for item in items)
    things = "1 thing is" if len(items) == 1 else f"{len(items)} things are"
    trees = "1 tree" if len(groups) == 1 else f"{len(groups)} trees"
    overdue = f", {late} of them overdue" if late and len(items) > 1 else ", and it is overdue" if late else ""
    return f"{things} due on {trees} {span}{overdue}"


def item_words(item: Due, on: dt.date) -> str:
    """One follow-up: the work, its day, what was said of it, what slips by waiting."""
    follow = item.follow
    work = work_words(follow.work, Spot(follow.part, follow.side, follow.level))
    when = f"overdue since {day_words(follow.until or on, on)}" if item.overdue else ""
    if not when and follow.on:
        when = span_words((follow.on - on).days) if follow.on > on else "now"
        when += f", {day_words(follow.on, on)}" if follow.on > on else ""
        if follow.until and follow.until != follow.on:
            when += f", until {day_words(follow.until, on)}"
    words = f"{work} ({when})"
    if follow.says and follow.says.rstrip(".").casefold() != work:
        words += f": {follow.says.rstrip('.')}"
    if follow.weather:
        words += f"; only when it is {follow.weather.replace('-', ' ')}"
    if follow.slips:
        words += f"; waiting costs: {follow.slips.rstrip('.')}"
    return words
