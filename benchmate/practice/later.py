"""The same tree on a later day, and from when on a held work is free of every hold."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place
from benchmate.practice.advice import AVOID, HOLD
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import RuleBook
from benchmate.practice.facts import Facts
from benchmate.practice.gather import said_traits
from benchmate.practice.match import Matcher
from benchmate.practice.stages import stage_facts
from benchmate.practice.target import Target
from benchmate.practice.weigh import Weighed, weigh
from benchmate.value import replace

# what is true of today only
_PASSING = ("stage", "flush", "weather", "means")
_PASSING_MEASURES = ("temperature_c", "days")
_DAY = dt.timedelta(days=1)
_STEP = dt.timedelta(days=7)
_FARTHEST = dt.timedelta(days=400)


def matcher_on(facts: Facts, day: dt.date, book: RuleBook, place: Place) -> Matcher:
    """Rules and facts as they will stand on a later day if nothing else is done: health, phase and findings as now, the
    stage as the date suggests it."""
    almanac = almanac_for(day, place, facts.entry, book.seasons, said_traits(facts))
    kept = {kind: rows for kind, rows in facts.known.items() if kind not in _PASSING}
    measures = {name: value for name, value in facts.measures.items() if name not in _PASSING_MEASURES}
    then = replace(facts, on=day, known=kept, measures=measures, season_start=almanac.season_start)
    then = replace(then, stage_assumed=None, stage_turns=False)
    stages = stage_facts(then, almanac)
    known = {**kept, "stage": stages.stages, "flush": stages.flush}
    return Matcher(book, replace(then, known={kind: rows for kind, rows in known.items() if rows}), almanac)


def settled(one: Weighed, facts: Facts, book: RuleBook, place: Place, search: bool) -> Weighed:
    """The option with a window that no other rule shuts again: where on the day that lifts one hold another stands, the
    day moves on.

    search: also look week by week for the first free day where no rule says what lifts the hold, and for the last one
    (asked for by "when").
    """
    option = one.option
    if not _year_known(place):
        # with neither latitude nor frost dates a stage on a later day is anybody's guess, and so is a window
        return replace(one, option=replace(option, opens=None, closes=None)) if search else one
    if option.verdict == AVOID or (option.verdict != HOLD and not search):
        return one
    day: dt.date | None = None
    closes = option.closes
    if option.verdict == HOLD:
        opens = dt.date.fromisoformat(option.opens) if option.opens else None
        day, then = _first_free(one.target, opens, facts, book, place) if opens else (None, None)
        if day is None and search:
            day, then = _searched(one.target, opens or facts.on, facts, book, place)
        closes = then.option.closes if then else None
    if search and closes is None and (day or option.verdict != HOLD):
        last = _last_free(one.target, day or facts.on, facts, book, place)
        closes = last.isoformat() if last else None
    return replace(one, option=replace(option, opens=day.isoformat() if day else None, closes=closes))


def _year_known(place: Place) -> bool:
    return not (place.latitude is None and place.last_frost is None and place.first_frost is None)


def _first_free(
    target: Target, opens: dt.date, facts: Facts, book: RuleBook, place: Place
) -> tuple[dt.date | None, Weighed | None]:
    day = opens
    for _ in range(6):
        then = weigh(target, matcher_on(facts, day, book, place))
        if then.option.verdict not in (HOLD, AVOID):
            return day, then
        if then.option.verdict == AVOID or not then.option.opens:
            return None, None
        day = dt.date.fromisoformat(then.option.opens)
    return None, None


def _searched(
    target: Target, start: dt.date, facts: Facts, book: RuleBook, place: Place
) -> tuple[dt.date | None, Weighed | None]:
    day = start + _STEP
    while day <= facts.on + _FARTHEST:
        then = weigh(target, matcher_on(facts, day, book, place))
        if then.option.verdict not in (HOLD, AVOID):
            return day, then
        day += _STEP
    return None, None


def _last_free(target: Target, start: dt.date, facts: Facts, book: RuleBook, place: Place) -> dt.date | None:
    """The last day before a rule holds the work again; None where none does within a year."""
    day = start
    while day <= start + _FARTHEST:
        if not _free(target, day + _STEP, facts, book, place):
            while _free(target, day + _DAY, facts, book, place):
                day += _DAY
            return day
        day += _STEP
    return None


def _free(target: Target, day: dt.date, facts: Facts, book: RuleBook, place: Place) -> bool:
    return weigh(target, matcher_on(facts, day, book, place)).option.verdict not in (HOLD, AVOID)
