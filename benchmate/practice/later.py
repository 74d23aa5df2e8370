"""The same tree on a later day, and from when on a held work is free of every hold."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place
from benchmate.hearing.reading import Spot
from benchmate.practice.advice import AVOID, HOLD, Follow, Option, Reason
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.facts import SAID, Facts
from benchmate.practice.gather import said_traits
from benchmate.practice.match import Matcher
from benchmate.practice.stages import BLOOM, stage_facts
from benchmate.practice.target import Target
from benchmate.practice.weigh import Weighed, is_held, reason_of, weigh
from benchmate.value import dataclass, field, replace

# what is true of today only
_PASSING = ("stage", "flush", "weather", "means")
_PASSING_MEASURES = ("temperature_c", "days")
_OF_WEATHER = ("weather", "temperature_c")
# limits that the calendar moves by itself
_BY_CALENDAR = ("frost_days", "spring_frost_days", "bloom_end_days", "day_length_h", "heavy_works", "heavy_cut_days")
_DAY = dt.timedelta(days=1)
_STEP = dt.timedelta(days=7)
# care that follows is put off by no more
_PUT_OFF = dt.timedelta(days=63)
_FARTHEST = dt.timedelta(days=400)
# a tree is at most so far behind or ahead of the stage that its date suggests, and for so long
_SHIFT = dt.timedelta(days=60)
_SAME_SPRING = dt.timedelta(days=100)


def matcher_on(
    facts: Facts,
    day: dt.date,
    book: RuleBook,
    place: Place,
    tells: bool = True,
    lag_days: int | None = None,
    weather: bool = False,
) -> Matcher:
    """Rules and facts as they will stand on a later day if nothing else is done: health, phase and findings as now, the
    stage as the date suggests it, later or sooner by as much as the tree is behind or ahead now.

    lag_days: what `lag_of` gives, where it is known already. weather: what is known of it is of that day as well.
    """
    lag = lag_of(facts, book, place) if lag_days is None else lag_days
    lag = lag if day - facts.on <= _SAME_SPRING else 0
    almanac = almanac_for(day, place, facts.entry, book.seasons, said_traits(facts), lag)
    passing = [kind for kind in (*_PASSING, *_PASSING_MEASURES) if not (weather and kind in _OF_WEATHER)]
    kept = {kind: rows for kind, rows in facts.known.items() if kind not in passing}
    measures = {name: value for name, value in facts.measures.items() if name not in passing}
    then = replace(facts, on=day, known=kept, measures=measures, season_start=almanac.season_start)
    then = replace(then, stage_assumed=None, stage_turns=False)
    stages = stage_facts(then, almanac)
    known = {**kept, "stage": stages.stages, "flush": stages.flush}
    return Matcher(book, replace(then, known={kind: rows for kind, rows in known.items() if rows}), almanac, tells)


@dataclass(slots=True)
class Days:
    """The days to come for one tree, each looked up once for all options that are asked about."""

    facts: Facts
    book: RuleBook
    place: Place
    _lag: int | None = None
    _on: dict[dt.date, Matcher] = field(default_factory=dict)

    def on(self, day: dt.date) -> Matcher:
        if self._lag is None:
            self._lag = lag_of(self.facts, self.book, self.place)
        if day not in self._on:
            self._on[day] = matcher_on(self.facts, day, self.book, self.place, False, self._lag)
        return self._on[day]

    def free(self, target: Target, day: dt.date) -> bool:
        return not is_held(target, self.on(day))


def settled(one: Weighed, days: Days, search: bool) -> Weighed:
    """The option with the day that it truly opens on: the first on which nothing holds it. A rule only knows what lifts
    itself; the year is walked, so that the day told is true when it comes and none before it would have been.

    search: also look for the last free day (asked for by "when").
    """
    option = one.option
    if not _year_known(days.place):
        # with neither latitude nor frost dates a stage on a later day is anybody's guess, and so is a window
        return replace(one, option=replace(option, opens=None, closes=None)) if search else one
    if option.verdict == AVOID or (option.verdict != HOLD and not search):
        return one
    day: dt.date | None = None
    closes = option.closes
    if option.verdict == HOLD:
        day = _first_free(one, days) if search or _passes(one) else None
        if day is None and search and (weeks := _weeks_but_for(one.target, days)):
            return replace(one, option=_of_weeks(option, *weeks))
        closes = weigh(one.target, days.on(day)).option.closes if day else None
    if search and closes is None and (day or option.verdict != HOLD):
        last = _last_free(one.target, day or days.facts.on, days)
        closes = last.isoformat() if last else None
    return replace(one, option=replace(option, opens=day.isoformat() if day else None, closes=closes))


def _of_weeks(option: Option, opens: dt.date, last: dt.date, first: tuple[Reason, ...]) -> Option:
    return replace(option, opens=opens.isoformat(), closes=last.isoformat(), first=first)


def due_when_free(one: Weighed, days: Days) -> Weighed:
    """The option with care that is to follow set on the first day on which nothing holds it, so that the day which is
    kept is the one that would be told. What stays held for long keeps its day: then it is looked at and asked again."""
    if not one.option.follow or not _year_known(days.place):
        return one
    care = days.book.group("care")
    follow = tuple(_freed(item, days) if item.work in care else item for item in one.option.follow)
    if follow == one.option.follow:
        return one
    return replace(one, option=replace(one.option, follow=tuple(sorted(follow, key=lambda item: item.on))))


def _freed(item: Follow, days: Days) -> Follow:
    target, first = Target(item.work, Spot(part=item.part)), dt.date.fromisoformat(item.on)
    day = first
    while day <= first + _PUT_OFF:
        if days.free(target, day):
            while day > first and days.free(target, day - _DAY):
                day -= _DAY
            return replace(item, on=day.isoformat())
        day += _STEP
    return item


def _year_known(place: Place) -> bool:
    return not (place.latitude is None and place.last_frost is None and place.first_frost is None)


def _passes(one: Weighed) -> bool:
    """Whether each hold is one that time lifts: not a tree's weakness, nor the weather of today."""
    holds = [result.rule for result in one.spoke if result.rule.verdict == HOLD]
    budget = one.allowance.verdict != HOLD or one.allowance.opens is not None
    return budget and all(_timed(rule) for rule in holds)


def _timed(rule: Rule) -> bool:
    tests = [test for clause in rule.condition for tests in clause for test in tests]
    if rule.opens is not None:
        return True
    if any(test.kind in ("weather", "means") and not test.denied for test in tests):
        return False  # what is sprayed, and in what weather, is no matter of the date
    return (
        rule.between is not None
        or any(test.kind == "stage" and not test.denied for test in tests)
        or any(limit.quantity in _BY_CALENDAR for limit in rule.limits)
    )


def _first_free(one: Weighed, days: Days) -> dt.date | None:
    held = days.facts.on
    hint = max(held, dt.date.fromisoformat(one.option.opens)) if one.option.opens else held
    while held < hint + _FARTHEST:
        day = held + _STEP
        if days.free(one.target, day):
            while day - _DAY > held and days.free(one.target, day - _DAY):
                day -= _DAY
            return day
        held = day
    return None


def _weeks_but_for(target: Target, days: Days) -> tuple[dt.date, dt.date, tuple[Reason, ...]] | None:
    """(first day, last day, what must change) of the next weeks on which nothing holds the work but what no time lifts
    ("not fed in spring"); None where none come within a year."""
    start = days.facts.on
    steps = [start + dt.timedelta(days=at) for at in range(0, _FARTHEST.days, _STEP.days)]
    inside = next((day for day in steps if _untimed_alone(target, day, days)), None)
    if inside is None:
        return None
    opens = last = inside
    while opens > start and _untimed_alone(target, opens - _DAY, days):
        opens -= _DAY
    while last < start + _FARTHEST and _untimed_alone(target, last + _DAY, days):
        last += _DAY
    return opens, last, _untimed_alone(target, opens, days)


def _untimed_alone(target: Target, day: dt.date, days: Days) -> tuple[Reason, ...]:
    """The reasons that hold the work on a day, where each is one that no time lifts; else none."""
    then = weigh(target, days.on(day))
    blocks = [result for result in then.spoke if result.rule.blocks]
    if then.allowance.verdict or any(one.rule.verdict == AVOID or _timed(one.rule) for one in blocks):
        return ()
    return tuple(reason_of(one.rule, one.rests_on) for one in blocks)


def lag_of(facts: Facts, book: RuleBook, place: Place) -> int:
    """By how many days the tree is behind what is usual at its place for the stage that was said of it, negative where
    it is ahead; 0 where the date agrees, or nothing near does."""
    almanac = almanac_for(facts.on, place, facts.entry, book.seasons, said_traits(facts))
    for known in facts.of("stage"):
        if known.origin != SAID or known.denied or known.value in BLOOM:
            continue
        last = almanac.window(str(known.value), facts.on - _SHIFT)
        coming = almanac.window(str(known.value), facts.on)
        behind = (facts.on - last.closes).days if last and last.closes and last.closes < facts.on else None
        ahead = (coming.opens - facts.on).days if coming else None
        if ahead is not None and ahead <= 0:
            return 0
        shifts = [shift for shift in (behind, -ahead if ahead and ahead <= _SHIFT.days else None) if shift]
        return min(shifts, key=abs, default=0)
    return 0


def _last_free(target: Target, start: dt.date, days: Days) -> dt.date | None:
    """The last day before a rule holds the work again; None where none does within a year."""
    day = start
    while day <= start + _FARTHEST:
        if not days.free(target, day + _STEP):
            while days.free(target, day + _DAY):
                day += _DAY
            return day
        day += _STEP
    return None
