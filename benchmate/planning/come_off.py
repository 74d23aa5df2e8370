"""When a branch that was let grow has done its work: the year in which it may come off, with a range."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.hearing.reading import Spot
from benchmate.planning.mixing import number_words
from benchmate.planning.outlook import Outlook
from benchmate.planning.readings import branch_readings, trunk_readings
from benchmate.practice.facts import Done
from benchmate.practice.places import spots_meet
from benchmate.reckoning.forecast import yearly_gain_mm

if TYPE_CHECKING:
    from benchmate.planning.lessons import Lesson
    from benchmate.planning.plan import Item
    from benchmate.planning.world import World

_YEAR = 365.25
_FARTHEST = 15.0
_GROWN_PARTS = ("branch", "side-branch", "leader", "shoot", "twig", "apex")


def come_off_of(items: Sequence[Item], world: World, lessons: Sequence[Lesson], trunk: Outlook) -> Iterator[Outlook]:
    """One forecast for each branch that grows free: those of the record, else the first that the plan lets grow."""
    running = [done for done in running_free(world)]
    if not running:
        planned = next((item for item in items if item.work == "let-grow" and item.spot.part in _GROWN_PARTS), None)
        running = [Done("let-grow", d := dt.date.fromisoformat(planned.opens), d, planned.spot)] if planned else []
    for done in running:
        yield come_off(done.spot, done.first, world, lessons)


def running_free(world: World) -> Iterator[Done]:
    """Branches that were let grow and have not been cut since, each once, by its first day."""
    seen: list[Spot] = []
    for done in sorted(world.today.done, key=lambda one: one.first):
        if done.work != "let-grow" or done.denied or done.spot.part not in _GROWN_PARTS or done.spot in seen:
            continue
        ended = any(
            other.work in ("remove", "shorten")
            and other.first > done.first
            and not other.denied
            and spots_meet(other.spot, done.spot, world.book.places)
            for other in world.today.done
        )
        if not ended:
            seen.append(done.spot)
            yield done


def come_off(spot: Spot, since: dt.date, world: World, lessons: Sequence[Lesson]) -> Outlook:
    """The year when the branch reaches the share of the trunk at which it comes off; by seasons where it, or the trunk,
    was not measured."""
    table = world.planning.come_off
    branch = branch_readings(world.entries, world.on, spot, world.book.places)
    trunk = trunk_readings(world.entries, world.on)
    base = trunk[-1][1] if trunk else world.tree.size.get("base_mm")
    if not branch or not base:
        return _by_seasons(spot, since, table, measured=bool(branch))
    now = branch[-1][1]
    rate = _rate(branch, world, table)
    gain = next((lesson for lesson in lessons if lesson.what == "trunk-growth"), None)
    trunk_rate = max(0.0, gain.value) if gain else 0.0
    shares = table["share"]
    years = [
        _years(now, float(base), speed, trunk_rate, float(share))
        for speed, share in ((rate[1], shares["value"]), (rate[2], shares["low"]), (rate[0], shares["high"]))
    ]
    start = branch[-1][0]
    value, low, high = (_year_on(start, max(0.0, number)) for number in years)
    if years[0] <= 0:
        how = (
            f"at {number_words(now)} mm on a trunk of {number_words(float(base))} mm it has reached the share at "
            "which it comes off, so its next safe season will do"
        )
        return Outlook(
            "come-off",
            world.on.year,
            world.on.year,
            max(world.on.year, high),
            "year",
            _of(spot, how),
            str(shares["mark"]),
        )
    how = (
        f"{number_words(now)} mm now, gaining about {number_words(rate[1])} mm a year, it reaches "
        f"{100 * float(shares['value']):.0f} % of the trunk's thickness in {value}, {low} at the soonest, "
        f"{high} at the latest"
    )
    notes = (str(shares["says"]),)
    return Outlook(
        "come-off",
        value,
        low,
        high,
        "year",
        _of(spot, how),
        "memory" if len(branch) < 2 else str(shares["mark"]),
        None,
        notes,
    )


def _by_seasons(spot: Spot, since: dt.date, table: Mapping[str, Any], measured: bool) -> Outlook:
    row = table["seasons"]
    value, low, high = (since.year + int(row[key]) for key in ("value", "low", "high"))
    lacks = "the trunk was not measured" if measured else "it was not measured"
    how = (
        f"let grow since {since:%B %Y}; {lacks}, so by the seasons that such growth is given it comes off in "
        f"{value}, {low} to {high}"
    )
    notes = ("Measured once a year, with the trunk beside it, the year can be told better",)
    return Outlook("come-off", value, low, high, "year", _of(spot, how), str(row["mark"]), None, notes)


def _rate(branch: Sequence[tuple[dt.date, float]], world: World, table: Mapping[str, Any]) -> tuple[float, ...]:
    """Millimetres a year, low, usual and high: its own where two readings lie half a year apart, else by health."""
    if len(branch) > 1 and (branch[-1][0] - branch[0][0]).days > 182:
        own = yearly_gain_mm(branch[0], branch[-1])
        if own > 0:
            return 0.5 * own, own, 1.5 * own
    rows = table["growth"]
    row = rows.get(world.step(world.on).health or "", rows["healthy"])
    return float(row["low"]), float(row["value"]), float(row["high"])


def _years(now: float, base: float, rate: float, trunk_rate: float, share: float) -> float:
    """Years until the branch is that share of a trunk that goes on growing."""
    lacking, closing = share * base - now, rate - share * trunk_rate
    if lacking <= 0:
        return 0.0
    return min(_FARTHEST, lacking / closing) if closing > 0 else _FARTHEST


def _year_on(day: dt.date, years: float) -> int:
    return (day + dt.timedelta(days=round(years * _YEAR))).year


def _of(spot: Spot, how: str) -> str:
    name = " ".join(word for word in (spot.level, spot.side, (spot.part or "branch").replace("-", " ")) if word)
    return f"{name} let grow: {how}"
