"""Forecasts with ranges: tips, the trunk's thickness, the year in which a branch that was let grow may come off."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.planning.mixing import number_words
from benchmate.planning.readings import trunk_readings
from benchmate.reckoning.forecast import growth_forecast
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.planning.lessons import Lesson
    from benchmate.planning.plan import Item
    from benchmate.planning.tuning import Tuning
    from benchmate.planning.world import World


@dataclass(frozen=True, slots=True)
class Outlook:
    """One forecast. value, low, high: numbers in `unit`, or years, None where nothing can be said. how: one sentence
    with the numbers in it. mark: of the weakest figure in it. notes: what to say with it."""

    what: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    how: str
    mark: str = "practice"
    source: str | None = None
    notes: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {
            "what": self.what,
            "value": self.value,
            "low": self.low,
            "high": self.high,
            "unit": self.unit,
            "how": self.how,
            "mark": self.mark,
            "source": self.source,
        }
        return out | ({"notes": list(self.notes)} if self.notes else {})


def outlook_of(
    items: Sequence[Item], world: World, tuning: Tuning, lessons: Sequence[Lesson] = ()
) -> tuple[Outlook, ...]:
    """All forecasts that bear on a plan."""
    from benchmate.planning.come_off import come_off_of

    flush = {wish.id for wish in world.planning.wishes if wish.flush}
    works = [item.work for item in items if item.wish in flush and item.work in world.planning.tips]
    tips = tips_after(works, world.planning.tips, tuning.buds_back)
    trunk = trunk_in(world, lessons)
    return tuple(one for one in (tips, trunk, *come_off_of(items, world, lessons, trunk)) if one)


def tips_after(
    works: Sequence[str], tips: Mapping[str, Any], buds_back: tuple[float, float, float] | None = None
) -> Outlook | None:
    """How many tips there are for each one now, once each of the works has been answered by a flush; None without any.

    tips: [tips.WORK] of rules/planning, with value, low and high: shoots that one shoot becomes.
    buds_back: what this garden saw instead, for shortened shoots. Spreads are taken as independent.

    >>> tips_after(["shorten", "shorten"], {"shorten": {"value": 2, "low": 1, "high": 4, "mark": "practice"}}).value
    4.0
    """
    if not works:
        return None
    product, below, above = 1.0, 0.0, 0.0
    marks = []
    for work in works:
        row = tips[work]
        low, value, high = float(row["low"]), float(row["value"]), float(row["high"])
        if buds_back and work == "shorten":
            low, value, high = (max(1.0, number) for number in buds_back)
        product *= value
        # ratios multiply, so their spreads add up as squares of logarithms
        below += math.log(value / low) ** 2
        above += math.log(high / value) ** 2
        marks.append(str(row.get("mark") or "published"))
    low, high = product / math.exp(math.sqrt(below)), product * math.exp(math.sqrt(above))
    flushes = f"{len(works)} flush{'es' if len(works) > 1 else ''} that answer work"
    how = (
        f"after {flushes}, one tip has become {number_words(product)}, "
        f"{number_words(low)} to {number_words(high)}, if none dies or is taken off"
    )
    notes = ("Where shoots crowd, fewer are kept",) if product > 4 else ()
    mark = "memory" if "memory" in marks else "practice"
    return Outlook("tips", round(product, 2), round(low, 2), round(high, 2), "tips for one now", how, mark, None, notes)


def trunk_in(world: World, lessons: Sequence[Lesson]) -> Outlook:
    """The trunk's thickness at the end of the plan, from the tree's own readings; where these are too few, from the
    last one and what such trees gain."""
    readings = trunk_readings(world.entries, world.on)
    days = (world.until - world.on).days + 1
    figure = growth_forecast(readings, world.on, days)
    if figure.value is not None:
        value, low, high = (float(n) if n is not None else None for n in (figure.value, figure.low, figure.high))
        return Outlook("trunk", value, low, high, "mm", figure.how, figure.mark, figure.source, figure.notes)
    gain = next((lesson for lesson in lessons if lesson.what == "trunk-growth"), None)
    last = readings[-1] if readings else _from_tree(world)
    if last is None or gain is None:
        return Outlook("trunk", None, None, None, "mm", figure.how, figure.mark, None, figure.notes)
    years = (world.until - last[0]).days / 365.25
    value, low, high = (round(last[1] + max(0.0, rate) * years, 1) for rate in (gain.value, gain.low, gain.high))
    how = (
        f"trunk: {number_words(last[1])} mm, gaining {number_words(gain.value)} mm a year as "
        f"{'others here do' if gain.learned else 'such trees do'}, comes to {number_words(value)} mm by the end"
    )
    # the reckoning's own note tells how many readings there are and what would do
    short = figure.how.removeprefix("trunk: ")
    notes = (f"{short[:1].upper()}{short[1:]}", *figure.notes[-1:])
    return Outlook("trunk", value, low, high, "mm", how, gain.mark, None, notes)


def _from_tree(world: World) -> tuple[dt.date, float] | None:
    """The thickness that the tree's own file gives; it has no day, so it is taken as of today."""
    size = world.tree.size.get("base_mm")
    return (world.on, float(size)) if size else None
