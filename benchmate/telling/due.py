"""What is due, told by tree: overdue first, then by day; what a weather holds back says so."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.telling import lines as role
from benchmate.telling.dates import day_words, span_words
from benchmate.telling.lines import Line
from benchmate.telling.wording import part_words, sentence, work_words

if TYPE_CHECKING:
    from benchmate.garden import Due, DueTree


def due_lines(groups: Sequence[DueTree], on: dt.date, days: int) -> list[Line]:
    """The list by tree, the answer first: how much is due, and how much of it is late."""
    lines = [Line(sentence(headline(groups, days)), role.ANSWER)]
    for group in groups:
        lines.append(Line(f"{group.tree.name}:", role.OPTION))
        lines += [Line(sentence(item_words(item, on)), role.REASON, "- ", 2) for item in group.items]
    return lines


def due_words(groups: Sequence[DueTree], on: dt.date, days: int) -> list[str]:
    """The same as plain lines, for an answer in the talk."""
    told = [f"{group.tree.name}: {item_words(item, on)}" for group in groups for item in group.items]
    return [headline(groups, days), *map(sentence, told)]


def headline(groups: Sequence[DueTree], days: int) -> str:
    """How many things are due in the span, and how many of them are overdue."""
    items = [item for group in groups for item in group.items]
    span = f"the next {days} days" if days != 1 else "today and tomorrow"
    if not items:
        return f"Nothing is due in {span}" if days else "Nothing is due today"
    late = sum(item.overdue for item in items)
    things = "1 thing is" if len(items) == 1 else f"{len(items)} things are"
    trees = "1 tree" if len(groups) == 1 else f"{len(groups)} trees"
    overdue = f", {late} of them overdue" if late and len(items) > 1 else ", and it is overdue" if late else ""
    return f"{things} due on {trees} in {span}{overdue}"


def item_words(item: Due, on: dt.date) -> str:
    """One follow-up: the work, its day, what was said of it, what slips by waiting."""
    follow = item.follow
    part = f" the {part_words(follow.part)}" if follow.part else ""
    work = f"check{part}" if follow.work == "check" and part else work_words(follow.work)
    when = f"overdue since {day_words(follow.until or on, on)}" if item.overdue else ""
    if not when and follow.on:
        when = span_words((follow.on - on).days) if follow.on > on else "now"
        when += f", {day_words(follow.on, on)}" if follow.on > on else ""
        if follow.until and follow.until != follow.on:
            when += f", until {day_words(follow.until, on)}"
    words = f"{work} ({when})"
    if follow.says and follow.says.casefold() != work:
        words += f": {follow.says.rstrip('.')}"
    if follow.weather:
        words += f"; only when it is {follow.weather.replace('-', ' ')}"
    if follow.slips:
        words += f"; waiting costs: {follow.slips.rstrip('.')}"
    return words
