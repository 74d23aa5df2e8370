"""What a journal shows of how a tree behaves: each function finds one kind of observation in it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from benchmate import seasons
from benchmate.garden.record import Entry, Place
from benchmate.hearing.reading import Spot
from benchmate.planning.readings import trunk_readings
from benchmate.practice.facts import Done
from benchmate.practice.places import spots_meet
from benchmate.practice.recorded import day_of, done_in, spot_from, standing
from benchmate.reckoning.forecast import yearly_gain_mm
from benchmate.value import dataclass

# findings and stages that show that the tree has moved again after a cut
_MOVED_STAGES = ("bud-break", "leafing-out", "extending", "candles")


@dataclass(frozen=True, slots=True)
class Observation:
    """One value that the journal shows. on: the day that it was complete."""

    on: dt.date
    value: float


@dataclass(frozen=True, slots=True)
class Journal:
    """One tree's standing entries, oldest first, with its work and what its taxon and place tell of the year."""

    entries: tuple[Entry, ...]
    done: tuple[Done, ...]
    on: dt.date
    place: Place
    traits: Mapping[str, Any]
    places: Mapping[str, Any]
    seasons: Mapping[str, Any]

    def seen(self) -> Iterator[tuple[dt.date, Mapping[str, Any]]]:
        """Every fact that was seen, with its day."""
        for entry in self.entries:
            for fact in entry.facts:
                if not fact.get("not") and fact.get("kind") != "event":
                    yield day_of(entry.at), fact

    def stage(self, day: dt.date) -> str | None:
        """The stage that the date suggests."""
        guess = seasons.guess_stage(self.traits, self.place, day, self.seasons)
        return guess.stage if guess else None

    def meet(self, one: Spot, other: Spot) -> bool:
        return spots_meet(one, other, self.places)


def journal_of(
    entries: Sequence[Entry],
    on: dt.date,
    place: Place,
    traits: Mapping[str, Any],
    places: Mapping[str, Any],
    tables: Mapping[str, Any],
) -> Journal:
    """The journal as observations are looked for in it: what was struck or lies after `on` is left out."""
    kept = tuple(reversed(standing(entries, on)))
    done = tuple(one for one in reversed(done_in(kept, on, place.southern)) if one.first == one.last and not one.denied)
    return Journal(kept, done, on, place, traits, places, tables)


Observer = Callable[[Journal, Mapping[str, Any]], Iterator[Observation]]
OBSERVERS: dict[str, Observer] = {}


def observes(what: str) -> Callable[[Observer], Observer]:
    """Register the function that finds the observations of a lesson."""

    def register(function: Observer) -> Observer:
        OBSERVERS[what] = function
        return function

    return register


@observes("wire-set")
def wire_set(journal: Journal, lesson: Mapping[str, Any]) -> Iterator[Observation]:
    """Days from wire to unwire, where the branch held: not freed because of a bite, nor wired again soon after."""
    soon = dt.timedelta(days=int(lesson["again_days"]))
    for wired in (one for one in journal.done if one.work == "wire"):
        meets = [one for one in journal.done if journal.meet(one.spot, wired.spot)]
        freed = next((one for one in meets if one.work == "unwire" and one.first > wired.first), None)
        if freed is None or any(one.work == "wire" and wired.first < one.first < freed.first for one in meets):
            continue
        bit = any(
            fact.get("value") == "wire-biting"
            and wired.first < day <= freed.first
            and journal.meet(spot_from(fact), wired.spot)
            for day, fact in journal.seen()
        )
        again = any(one.work == "wire" and freed.first <= one.first <= freed.first + soon for one in meets)
        if not bit and not again:
            yield Observation(freed.first, float((freed.first - wired.first).days))


@observes("days-to-flush")
def days_to_flush(journal: Journal, lesson: Mapping[str, Any]) -> Iterator[Observation]:
    """Days from a cut on a tree in leaf to the first sight of new growth. The last cut before it counts."""
    cuts = sorted({one.first for one in journal.done if one.work in lesson["works"]})
    for number, cut in enumerate(cuts):
        if journal.stage(cut) in lesson["at_rest"]:
            continue
        after = cuts[number + 1] if number + 1 < len(cuts) else journal.on
        moved = next((day for day, fact in journal.seen() if cut < day <= after and _moved(fact)), None)
        if moved is not None:
            yield Observation(moved, float((moved - cut).days))


def _moved(fact: Mapping[str, Any]) -> bool:
    kind, value = fact.get("kind"), fact.get("value")
    return (
        (kind == "stage" and value in _MOVED_STAGES)
        or (kind == "flush" and isinstance(value, int) and value > 1)
        or (kind == "finding" and value == "back-buds")
    )


@observes("flushes-a-year")
def flushes_a_year(journal: Journal, lesson: Mapping[str, Any]) -> Iterator[Observation]:
    """The last flush that was counted in each growing season that is over."""
    most: dict[dt.date, int] = {}
    last: dict[dt.date, dt.date] = {}
    now = seasons.season_start(journal.on, journal.place, journal.seasons)
    for day, fact in journal.seen():
        if fact.get("kind") == "flush" and isinstance(fact.get("value"), int):
            start = seasons.season_start(day, journal.place, journal.seasons)
            most[start] = max(most.get(start, 0), int(fact["value"]))
            last[start] = day
    yield from (Observation(last[start], float(count)) for start, count in sorted(most.items()) if start < now)


@observes("buds-back")
def buds_back(journal: Journal, lesson: Mapping[str, Any]) -> Iterator[Observation]:
    """Buds counted at the place of a cut, within so many days of it."""
    span = dt.timedelta(days=int(lesson["within_days"]))
    for day, fact in journal.seen():
        count = fact.get("count", fact.get("buds"))
        if fact.get("value") != "back-buds" or not isinstance(count, int | float):
            continue
        cuts = [
            one
            for one in journal.done
            if one.work in lesson["works"]
            and one.first < day <= one.first + span
            and journal.meet(one.spot, spot_from({**fact, "part": None}))
        ]
        if cuts:
            yield Observation(day, float(count))


@observes("trunk-growth")
def trunk_growth(journal: Journal, lesson: Mapping[str, Any]) -> Iterator[Observation]:
    """Millimetres a year between two readings of the trunk that lie far enough apart."""
    readings = trunk_readings(journal.entries, journal.on)
    earlier = readings[0] if readings else None
    for later in readings[1:]:
        if earlier and (later[0] - earlier[0]).days >= int(lesson["apart_days"]):
            yield Observation(later[0], yearly_gain_mm(earlier, later))
            earlier = later
