"""A plan told: by season, each work with its window, its reasons, what it needs and what moves if it is skipped."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Spot
from benchmate.practice.advice import Caution, Reason
from benchmate.telling import lines as role
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.depth import Sources, source_words
from benchmate.telling.lines import Line
from benchmate.telling.story import season_of
from benchmate.telling.wording import list_words, sentence, work_words

if TYPE_CHECKING:
    from benchmate.planning import Item, LeftOut, Lesson, Move, Outlook, Plan

_NO_SOURCES: Sources = {}
_PEOPLE = ("person", "law")


def plan_lines(
    plan: Plan,
    *,
    lessons: Sequence[Lesson] = (),
    southern: bool = False,
    units: str = "metric",
    sources: Sources = _NO_SOURCES,
    plain: bool = False,
) -> list[Line]:
    """The whole plan. lessons: what the journals taught, told at its end. plain: for a screen reader."""
    lines = [Line(sentence(headline(plan)), role.ANSWER)]
    if plan.toward:
        lines.append(Line(sentence(f"it leads to {plan.toward}"), role.ASIDE))
    lead = "Caution: " if plain else "! "
    lines += [Line(sentence(one.says), role.CAUTION, lead) for one in cautions_of(plan)]
    named = {item.id: item for item in plan.items}
    season, told = "", set[str]()
    for item in plan.items:
        first = _day(item.opens)
        if (now := season_of(first, southern)) != season:
            lines.append(Line(now, role.OPTION))
            season = now
        lines += item_lines(item, named, units, sources, told)
        told.update(reason.says for reason in item.why)
    lines += _more(plan, lessons, units, sources)
    return [*lines, *(Line(ask.says, role.ASK, "Question: " if plain else "? ") for ask in plan.asks)]


def headline(plan: Plan) -> str:
    """How much the plan holds: "14 works for Gatepost from 14 June 2026 to 13 June 2029, 2 of them serious"."""
    span = f"from {day_words(_day(plan.on))} to {day_words(_day(plan.until))}"
    if not plan.items:
        why = "what it is being grown for is not known" if plan.phase is None else "nothing that it wants may be done"
        return f"no work is planned for {plan.tree} {span}: {why}"
    heavy = sum(item.heavy for item in plan.items)
    count = f"{len(plan.items)} work{'s' if len(plan.items) > 1 else ''}"
    return f"{count} for {plan.tree} {span}" + (f", {heavy} of them serious" if heavy else "")


def plan_words(plan: Plan, *, units: str = "metric") -> list[str]:
    """The plan as plain lines for an answer in the talk: the headline, then a line a work, then the forecasts."""
    out = [headline(plan)]
    if plan.toward and plan.items:
        out.append(f"it leads to {plan.toward}")
    out += [f"{window_words(item)}: {_what(item, units)}, for {_aim(item)}" for item in plan.items]
    out += [one.how for one in plan.outlook if one.value is not None]
    out += [ask.says for ask in plan.asks]
    return [sentence(words) for words in out]


def item_lines(
    item: Item, named: Mapping[str, Item], units: str, sources: Sources, told: Collection[str] = ()
) -> list[Line]:
    """One work: its window and what it is for, then a line each for reasons, needs and moves.

    told: reasons that the plan has given before; work that comes again is not argued for again.
    """
    head = f"{_what(item, units)}, for {_aim(item)}" + (". A serious work" if item.heavy else "")
    lines = [Line(sentence(f"{window_words(item)}: {head}"), role.REASON, indent=2)]
    fresh = [reason for reason in item.why if reason.says not in told]
    lines += [_reason_line(reason, sources) for reason in fresh]
    if item.why and not fresh:
        lines.append(Line("As before.", role.REASON, "Why: ", 4))
    lines += [_reason_line(reason, sources, "Not sooner: ") for reason in item.not_sooner]
    if needs := [f"{_what(one, units)} ({window_words(one)})" for id in item.needs if (one := named.get(id))]:
        lines.append(Line(sentence(list_words(needs)), role.REASON, "Needs first: ", 4))
    lines += [Line(ask.says, role.REASON, "Look first: ", 4) for ask in item.asks]
    if item.moves:
        told = "; ".join(_move_words(move, item, units) for move in item.moves)
        lines.append(Line(sentence(told), role.REASON, "If skipped: ", 4))
    return lines


def window_words(item: Item) -> str:
    """The days of a work: "3 to 30 March 2027"."""
    return span_words(_day(item.opens), _day(item.closes))


def span_words(first: dt.date, last: dt.date) -> str:
    """Days as one span in words."""
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {day_words(last)}" if first != last else day_words(last)
    return f"{day_words(first, last)} to {day_words(last)}"


def cautions_of(plan: Plan) -> list[Caution]:
    """What protects people, once for the whole plan: those of the trees stand with the rules that block."""
    found = {one.id: one for item in plan.items for one in item.cautions if one.kind in _PEOPLE}
    return list(found.values())


def lesson_lines(lessons: Sequence[Lesson]) -> list[Line]:
    """What the journals taught, a line each; a lesson of which nothing was seen says so."""
    if not lessons:
        return []
    learned = any(lesson.learned for lesson in lessons)
    words = (
        f"What {lessons[0].scope} and its kind taught:" if learned else "Usual values, until the record teaches better:"
    )
    head = Line(words, role.OPTION)
    return [head, *(Line(sentence(lesson.mix), role.REASON, "- ", 2) for lesson in lessons)]


def _more(plan: Plan, lessons: Sequence[Lesson], units: str, sources: Sources) -> list[Line]:
    """What stands beside the works: forecasts, lessons, what was left out, what was assumed."""
    lines: list[Line] = []
    if plan.outlook:
        lines.append(Line("What to expect:", role.OPTION))
        lines += [line for one in plan.outlook for line in _outlook_lines(one, sources)]
    lines += lesson_lines(lessons)
    if plan.left_out:
        lines.append(Line("Wanted, and not in the plan:", role.OPTION))
        lines += [line for row in plan.left_out for line in _left_out_lines(row, units, sources)]
    # what was learned is told with the lessons already
    learned = {lesson.mix for lesson in lessons}
    assumed = [words for words in plan.assumed if words not in learned]
    return lines + [Line(sentence(words), role.ASIDE, "Taken as known: ") for words in assumed]


def _outlook_lines(one: Outlook, sources: Sources) -> list[Line]:
    lines = [Line(f"{sentence(one.how)}{_mark(one.source, one.mark, sources)}", role.REASON, "- ", 2)]
    return lines + [Line(sentence(note), role.REASON, indent=4) for note in one.notes]


def _left_out_lines(row: LeftOut, units: str, sources: Sources) -> list[Line]:
    lines = [Line(sentence(f"{work_words(row.work, row.spot, units=units)}, for {row.aim}"), role.REASON, "- ", 2)]
    return lines + [_reason_line(reason, sources, "Not: ") for reason in row.why]


def _reason_line(reason: Reason, sources: Sources, lead: str = "Why: ") -> Line:
    beside = f" ({'; '.join(reason.rests_on)})" if reason.rests_on else ""
    mine = " (your rule)" if reason.yours else ""
    says = f"{sentence(reason.says)}{beside}{mine}{_mark(reason.source, reason.mark, sources)}"
    return Line(says, role.REASON, lead, 4)


def _mark(source: str | None, mark: str, sources: Sources) -> str:
    """Where a sentence comes from, told where it is no plain fact of the trade."""
    return "" if mark == "practice" and not source else f" [{source_words(source, mark, sources)}]"


def _move_words(move: Move, item: Item, units: str) -> str:
    what = "it" if move.id == item.id else work_words(move.work, units=units)
    opens, closes = day_of(move.opens), day_of(move.closes)
    says = move.says.removeprefix("it ")
    if opens is None or closes is None:
        return f"{what}: {says}" if what != "it" else f"it {says}"
    days = span_words(opens, closes)
    return f"{what} {says} to {days}" if what == "it" else f"{what}: {says}, {days}"


def _what(item: Item, units: str) -> str:
    words = work_words(item.work, item.spot, manner=item.manner, units=units)
    # a plan speaks of all branches where it names no one of them
    return words.replace("the branch", "the branches") if item.spot == Spot(part="branch") else words


def _aim(item: Item) -> str:
    return item.aim.removeprefix("what follows: ")


def _day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)
