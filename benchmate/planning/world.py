"""The tree as it will stand on a day to come: facts of that day, with the works that a plan has put before it."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate import seasons
from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Fact, Reading
from benchmate.planning.course import Step, collected_on, course_of, step_at
from benchmate.planning.wishes import PlanBook
from benchmate.practice.almanac import Almanac, almanac_for, work_counts_from
from benchmate.practice.book import RuleBook
from benchmate.practice.facts import Done, Facts, Known
from benchmate.practice.gather import gather, said_traits
from benchmate.practice.match import Matcher
from benchmate.practice.places import spots_meet
from benchmate.practice.recorded import day_of, left_behind, measure_age, standing
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.planning.candidates import Chances
    from benchmate.planning.spans import Span

_DAY = dt.timedelta(days=1)
_MOST_STAGES = 400
# stages that come beside the one that the tree is at
_BESIDE = ("flowering", "after-flowering")
_BEYOND = dt.timedelta(days=430)
NOTHING = Reading("")


class World:
    """One tree at one place, from today to the last day of a plan and a year beyond, for what follows of itself.

    Only what was looked up is kept inside; the same days and works give the same facts. The journal is closed: what it
    does not hold was not done.
    """

    def __init__(
        self,
        tree: Tree,
        entries: Sequence[Entry],
        place: Place,
        on: dt.date,
        until: dt.date,
        book: RuleBook,
        planning: PlanBook,
    ) -> None:
        self.tree, self.place, self.on, self.until = tree, place, on, until
        self.book, self.planning = book, planning
        self.end = until + _BEYOND
        self.entries = tuple(standing(entries, on))
        self.chunks: tuple[dt.date, ...] | None = None
        self.passes: dict[tuple[str, float], tuple[dt.date, ...]] = {}
        self.chances: dict[str, tuple[Chances, ...]] = {}
        self.other_kinds: dict[int, bool] = {}
        self.turning: dict[str, list[dt.date]] = {}
        self.spans: dict[str, tuple[Span, ...]] = {}
        self._matchers: dict[dt.date, Matcher] = {}
        self._seen: dict[dt.date | None, Matcher] = {}
        self._base: dict[dt.date, Facts] = {}
        self._starts: dict[dt.date, dt.date] = {}
        self._almanacs: dict[dt.date, Almanac] = {}
        self.today = gather(NOTHING, tree, self.entries, place, on, book)
        self.traits = dict(self.almanac(on).traits)
        self.steps: tuple[Step, ...] = course_of(self.today, planning.bounds, collected_on(self.today.done))
        self.turns = self._turns()

    def almanac(self, day: dt.date) -> Almanac:
        """The calendar as of a day."""
        if day not in self._almanacs:
            said = said_traits(self.today)
            self._almanacs[day] = almanac_for(day, self.place, self.today.entry, self.book.seasons, said)
        return self._almanacs[day]

    def season(self, day: dt.date) -> dt.date:
        """First day of the growing season that a day counts for."""
        if day not in self._starts:
            self._starts[day] = seasons.season_start(day, self.place, self.book.seasons)
        return self._starts[day]

    def step(self, day: dt.date) -> Step:
        """What health and phase are taken to be."""
        return step_at(self.steps, day)

    def facts(self, day: dt.date, done: Sequence[Done] = ()) -> Facts:
        """All facts as of a day, the works of a plan that are done by then included.

        Between two turns (of a stage, a season, the age of something seen) facts differ by their day alone, so they are
        gathered once for each.
        """
        turn = self.turns[max(0, bisect_right(self.turns, day) - 1)]
        if turn not in self._base:
            self._base[turn] = self._gathered(turn)
        start = work_counts_from(day, self.season(day), self.book.seasons)
        base = self._base[turn]
        open_day = [one for one in base.done if one.first == dt.date.min and one.last == turn]
        done_by = (
            tuple(replace(one, last=day) if one in open_day else one for one in base.done) if open_day else base.done
        )
        facts = replace(base, on=day, season_start=start, done=done_by)  # what was done on no known day may be as late
        return self._with(facts, done) if done else facts

    def matcher(self, day: dt.date) -> Matcher:
        """The rules on the facts of a day, no work of a plan done: one for all that is asked of that day."""
        if day not in self._matchers:
            self._matchers[day] = Matcher(self.book, self.facts(day), self.almanac(day), tells=False)
        return self._matchers[day]

    def as_seen(self, day: dt.date | None) -> Matcher:
        """The same, what is seen on the tree taken as it is seen today. None: all of it as it is today."""
        if day not in self._seen:
            facts = self.today if day is None else self.facts(day)
            facts = replace(facts, known={**facts.known, "finding": self.today.of("finding")})
            self._seen[day] = Matcher(self.book, facts, self.almanac(facts.on), tells=False)
        return self._seen[day]

    def _gathered(self, day: dt.date) -> Facts:
        talk = [Fact(kind, value) for kind, value in self.step(day).taken]
        return gather(NOTHING, self.tree, self.entries, self.place, day, self.book, talk)

    def _with(self, facts: Facts, done: Sequence[Done]) -> Facts:
        """The facts after some works: what they leave behind, and what they end."""
        places = self.book.places
        every = tuple(sorted((*done, *facts.done), key=lambda one: one.last, reverse=True))
        findings = [known for known in facts.of("finding") if not self._ended(known, done)]
        findings += left_behind(sorted(done, key=lambda one: one.last, reverse=True), facts.on, places)
        known = {**facts.known, "finding": tuple(findings)}
        return replace(facts, done=every, known={kind: rows for kind, rows in known.items() if rows})

    def _ended(self, known: Known, done: Sequence[Done]) -> bool:
        places = self.book.places
        return any(
            known.value in places.get("ends", {}).get(one.work, ())
            and one.work != "wire"
            and spots_meet(one.spot, known.spot, places)
            for one in done
        )

    def _turns(self) -> list[dt.date]:
        """The days on which what is known of the tree changes by itself."""
        days = {self.on, *(step.since for step in self.steps)}
        day = self.on
        for _ in range(_MOST_STAGES):
            guess = seasons.guess_stage(self.traits, self.place, day, self.book.seasons)
            if guess is None or guess.until is None or guess.until >= self.end:
                break
            day = guess.until + _DAY
            days.add(day)
        for name in _BESIDE:
            days |= set(self._edges(name))
        ageing = self.book.places.get("ageing", {})
        for entry in self.entries:
            seen = day_of(entry.at)
            ages = {int(ageing.get(str(f.get("value")), ageing.get(f.get("kind"), 0))) for f in entry.facts}
            ages |= {measure_age(name, self.book.places) for name in entry.measures}
            days |= {seen + dt.timedelta(days=age + 1) for age in ages}
        for one in self.today.done:
            if finding := self.book.places.get("leaves_behind", {}).get(one.work):
                days.add(one.last + dt.timedelta(days=int(ageing.get(finding, 0)) + 1))
        return sorted(day for day in days if self.on <= day <= self.end)

    def _edges(self, name: str) -> Iterator[dt.date]:
        """The days on which a window opens, and those after it closes."""
        day = self.on
        while day <= self.end:
            window = seasons.next_window(name, day, self.traits, self.place, self.book.seasons)
            if window is None:
                return
            yield window.opens
            if window.closes is None or window.closes >= self.end:
                return
            day = window.closes + _DAY
            yield day
