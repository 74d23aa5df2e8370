"""Advice from a reading and the facts: options weighed, cautions, questions, what is left of the season's dose."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from benchmate.garden.record import Place
from benchmate.hearing.reading import NOWHERE, Reading, Spot
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Advice, Option
from benchmate.practice.allowance import dose_left
from benchmate.practice.almanac import almanac_for
from benchmate.practice.asks import MOST, choose_asks, no_tree, nothing_compared, unjudged
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.budget import counts_apart
from benchmate.practice.day_told import day_meant, past_told
from benchmate.practice.facts import Done, Facts
from benchmate.practice.gather import said_traits
from benchmate.practice.later import Days, due_when_free, matcher_on, settled
from benchmate.practice.match import Matcher
from benchmate.practice.options import (
    MOST_OFFERED,
    RIVAL,
    chosen_between,
    leave_target,
    offered_targets,
    rival_targets,
    spared_places,
    spoken_targets,
    undone_first,
    wants_care,
    wants_offers,
)
from benchmate.practice.places import is_placed
from benchmate.practice.target import ASKED, DECIDED, DONE, OFFERED, Target
from benchmate.practice.truth import CLOSED
from benchmate.practice.warnings import cautions_for
from benchmate.practice.weigh import Weighed, not_left, weigh
from benchmate.practice.when import weather_then
from benchmate.value import replace

_RANK = {GO: 0, ASK: 1, HOLD: 2, AVOID: 3}
# the most that a work weighs which only the season puts forward: more than nothing, less than one reason
_SEASON_WEIGHT = 0.5
# of work told of the past: since when the tree is as it was then
_LONG_AGO = dt.timedelta(days=21)


def advise(reading: Reading, facts: Facts, book: RuleBook, place: Place, on: dt.date) -> Advice:
    """The whole answer to one statement. Doing nothing is always among the options."""
    spoken = undone_first(spoken_targets(reading, book), facts, book)
    meant = day_meant(reading, on, place)
    today = Matcher(book, facts, almanac_for(on, place, facts.entry, book.seasons, said_traits(facts)))
    past = None if meant else past_told(reading, on, place)
    if past and past[1] < on - _LONG_AGO:
        # the work is judged by the days that it was done in
        day = past[0] + (past[1] - past[0]) / 2
        before = replace(facts, done=tuple(one for one in facts.done if one.first <= day or one.now))
        matcher = matcher_on(before, day, book, place)
        facts = matcher.facts
    elif meant:
        matcher = matcher_on(facts, meant, book, place, weather=weather_then(reading, on, meant))
        facts = matcher.facts
    else:
        matcher = today
    blank = no_tree(facts, spoken, reading, book)
    rows = [one for target in spoken for one in weigh_with_spared(target, matcher)]
    if wants_offers(reading, spoken):
        rows += _offered(reading, facts, matcher, rows)
    elif wants_care(spoken):
        # where something speaks against leaving it, the care that the season offers is told as well
        pressed = set(book.group("care")) if any(one.option.weight < 0 for one in rows) else set()
        offered = _offered(reading, facts, matcher, rows)
        rows += [one for one in offered if one.target.prompted or one.target.work in pressed]
    elif grounds := _in_the_way(rows):
        rows += [one for one in _offered(reading, facts, matcher, rows) if _clears(one, grounds, book)]
    if any(one.how == ASKED for one in spoken) and any(fact.kind == "finding" for fact in reading.facts):
        told = {(one.target.work, one.target.spot) for one in rows}
        looks = [one for one in _offered(reading, facts, matcher, rows) if _comes_first(one)]
        rows += [one for one in looks if (one.target.work, one.target.spot) not in told]
    if same := _parts_refused(rows, book):
        have = {one.target.work for one in rows}
        rows += [
            one
            for one in _offered(reading, facts, matcher, rows)
            if one.target.work not in have
            and one.option.verdict == GO
            and book.places.get("work_part", {}).get(one.target.work) in same
        ]
    if not any(one.target.work == "leave" for one in rows):
        rows.append(weigh(leave_target(), matcher))
    rows = [not_left(one, rows) for one in rows]
    if blank:
        rows = [unjudged(one) for one in rows]
    days = Days(facts, book, place)
    rows = [due_when_free(settled(one, days, reading.topic == "when"), days) for one in rows]
    if past:
        rows = [_still_ahead(one, facts.on, past[1], on) for one in rows]
    rows = chosen_between(sorted(rows, key=_rank), reading)
    asked = [one for one in rows if one.target.how in (ASKED, DECIDED)]
    best = [one for one in rows if one.target.how == OFFERED][:1]
    asks = choose_asks(asked or best, book) or choose_asks([one for one in rows if one.option.verdict == ASK], book)
    if blank:
        asks = (blank, *(ask for ask in asks if ask.fact != blank.fact))[:MOST]
    if (apart_by := nothing_compared(reading, facts, book)) and not asks:
        asks = (apart_by,)
    left, cap = (
        dose_left(_with_decided(today if past else matcher, reading)) if facts.taxon or facts.tree else (None, None)
    )
    apart = book.budget.get("apart", {})
    stays, own = apart.get("stays", ()), apart.get("own", ())
    if spoken and all(
        one.work in own or (counts_apart(one.work, book) and one.work not in stays and "share" not in one.measures)
        for one in spoken
    ):
        left = cap = None  # leaf or candles that come again are no part of the season's dose
    assumed = [one.allowance.assumed for one in rows if one.allowance.assumed]
    if facts.stage_assumed and any(_rests_on_stage(one) for one in rows):
        assumed.insert(0, facts.stage_assumed)
    if meant:
        assumed.insert(0, f"weighed for {meant.isoformat()}, with all else as it is now")
    if cap and cap.assumed:
        assumed.append(cap.assumed)
    return Advice(
        reading=reading,
        tree=facts.tree,
        on=on.isoformat(),
        options=tuple(one.option for one in rows),
        cautions=cautions_for(rows, facts, book, matcher.almanac),
        asks=asks,
        dose_left=left,
        assumed=tuple(dict.fromkeys(assumed)),
        trace=tuple(trace for one in rows for trace in one.traces),
        facts=tuple(dict.fromkeys(known.told for known in facts.all if not (known.kind == "stage" and known.denied))),
        faults=tuple(dict.fromkeys(matcher.faults)),
    )


def _with_decided(matcher: Matcher, reading: Reading) -> Matcher:
    """Rules and facts as they stand once what is decided has been done: of that the season's dose is short as well."""
    if "decide" not in reading.acts:
        return matcher
    facts = matcher.facts
    done = [replace(one, now=False) for one in facts.done]
    done += [
        Done(work.work, facts.on, facts.on, work.spot, work.measures.get("share"), work.manner)
        for work in reading.work
        if work.work and work.done == "now"
    ]
    return Matcher(matcher.book, replace(facts, done=tuple(done)), matcher.almanac, matcher.tells)


def _still_ahead(one: Weighed, weighed_on: dt.date, done_on: dt.date, on: dt.date) -> Weighed:
    """The option with what is still to follow on work of the past: no day that lies behind. What was to come within
    weeks of work done lately is due today. Follow-ups are counted from today, as if the work were done now."""
    shift = on - done_on
    follow = []
    for item in one.option.follow:
        told = dt.date.fromisoformat(item.on) + (on - weighed_on)
        if told - shift >= on:
            follow.append(replace(item, on=told.isoformat()))
        elif shift <= _LONG_AGO:
            follow.append(replace(item, on=(on + shift).isoformat()))
    return replace(one, option=replace(one.option, follow=tuple(follow)))


def weigh_with_spared(target: Target, matcher: Matcher) -> list[Weighed]:
    """The target, and apart from it the places that fare worse than the rest of the tree."""
    whole = weigh(target, matcher)
    if whole.option.verdict in (HOLD, AVOID):
        return [whole]
    apart = []
    for spot in spared_places(target, matcher.facts, matcher.book):
        there = weigh(target.at(spot), matcher)
        if there.option.verdict in (HOLD, AVOID):
            apart.append(there)
    if not apart:
        return [whole]
    rest = replace(target, rest=True)
    return [weigh(rest, matcher), *apart]


def _in_the_way(rows: Iterable[Weighed]) -> set[str]:
    """The findings on which the blocks of works that were asked about, or told, rest: empty where one of them may be
    done."""
    asked = [one for one in rows if one.target.how in (ASKED, DECIDED, DONE)]
    if any(one.option.verdict not in (HOLD, AVOID) for one in asked):
        return set()
    return {value for one in asked for result in one.spoke if result.rule.blocks for value in _looked_for(result.rule)}


def _comes_first(one: Weighed) -> bool:
    """Whether what was just seen calls for it before any work that was asked about."""
    offering = [result.rule for result in one.spoke if result.rule.id in one.target.offered_by]
    return one.option.verdict == GO and one.target.prompted and any(rule.first for rule in offering)


def _parts_refused(rows: Iterable[Weighed], book: RuleBook) -> set[str]:
    """The parts that belong to works which were asked about and may not be done: leaf, candle, needle. Another work on
    such a part that is the season's own is told together with the no."""
    named = book.places.get("work_part", {})
    asked = [one for one in rows if one.target.how == ASKED]
    if any(one.option.verdict not in (HOLD, AVOID) for one in asked):
        return set()
    return {named[one.target.work] for one in asked if one.target.work in named}


def _clears(one: Weighed, grounds: set[str], book: RuleBook) -> bool:
    """Whether it is care that may be given now for what stands in the way of the work that was asked about."""
    if one.option.verdict != GO or not one.target.prompted or one.target.work not in book.group("care"):
        return False
    offering = [result.rule for result in one.spoke if result.rule.id in one.target.offered_by]
    return any(grounds & _looked_for(rule) for rule in offering)


def _looked_for(rule: Rule) -> set[str]:
    """The findings that a rule's condition wants to see."""
    tests = (test for clause in rule.condition for tests in clause for test in tests)
    return {str(test.value) for test in tests if test.kind in ("finding", "means") and not test.denied}


def _offered(reading: Reading, facts: Facts, matcher: Matcher, rows: list[Weighed]) -> list[Weighed]:
    """Works put forward, the best first, without those that were spoken of."""
    rivals = [weigh(target, matcher) for target in rival_targets(reading, facts)]
    known = {(one.target.work, one.target.spot) for one in [*rows, *rivals]}
    broad = {one.target.work for one in rows if one.target.how == ASKED and one.target.spot == NOWHERE}
    targets = [t for t in offered_targets(facts, matcher) if (t.work, t.spot) not in known]
    targets = [t for t in targets if t.work not in broad or is_placed(t.spot)]  # "wire it" is asked about already
    targets = _by_side(targets, rivals)
    out = [one for target in targets for one in weigh_with_spared(target, matcher)]
    # the season offers nothing that a rule forbids: only what is seen on the tree is told together with its no
    out = [one for one in out if one.option.verdict in (GO, ASK) or not _by_season(one)]
    return sorted([*rivals, *out], key=_rank)[:MOST_OFFERED]


def _by_season(one: Weighed) -> bool:
    """Whether only the time of year and the kind of tree put the work forward, and nothing that is seen on it."""
    offering = [result.rule for result in one.spoke if result.rule.id in one.target.offered_by]
    kinds = {
        test.kind
        for rule in offering
        for clause in rule.condition
        for tests in clause
        for test in tests
        if not test.denied
    }
    return bool(offering) and not one.target.prompted and not kinds.intersection(CLOSED)


def _by_side(targets: list[Target], rivals: list[Weighed]) -> list[Target]:
    """With rivals told apart, work on "the leader" is work on those that do not stay, each by its side.

    Where it is not clear which of them stays, nobody is told to take "the leader" off.
    """
    if not rivals:
        return targets
    ranked = sorted(rivals, key=_rank)
    best = ranked[0]
    clear = best.option.verdict == GO and (len(ranked) < 2 or _rank(best)[:4] != _rank(ranked[1])[:4])
    out = []
    for target in targets:
        if target.work == RIVAL and not is_placed(target.spot):
            continue
        if target.spot != Spot(part="leader"):
            out.append(target)
        elif clear:
            out += [target.at(one.target.spot) for one in ranked[1:]]
    return [target for number, target in enumerate(out) if target not in out[:number]]


def _rank(one: Weighed) -> tuple[int, int, int, float, int, int, int]:
    """Verdict; what was just seen before the rest; weight; what was asked before what was offered. Leaving it goes last
    among its equals. What only the season suggests goes before leaving it, and after all that was seen: many small
    reasons for a work do not make it more pressing. Work that was done goes before what was left beside it."""
    option: Option = one.option
    order = {ASKED: 0, DECIDED: 0, DONE: 0, OFFERED: 1}
    called = 0 if one.target.prompted else 1
    weight = min(option.weight, _SEASON_WEIGHT) if _by_season(one) else option.weight
    rest = 0 if option.rest else 1
    left = int(one.target.how == DONE and one.target.work in ("leave", "wait"))
    return _RANK[option.verdict], called, left, -weight, order.get(one.target.how, 2), rest, -option.weight


def _rests_on_stage(one: Weighed) -> bool:
    """Whether a rule that spoke, or that may yet, looked at the stage."""
    return any(
        test.kind in ("stage", "flush")
        for result in (*one.spoke, *one.open)
        for clause in result.rule.condition
        for tests in clause
        for test in tests
    )
