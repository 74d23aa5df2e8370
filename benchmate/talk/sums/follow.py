"""What figures give to advice and record: when wire is looked at first, what share of the leaf counted leaves are."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading, Spot, Work
from benchmate.practice.advice import Advice, Follow, Option
from benchmate.talk.told.following import near
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing import Ear

_COUNTED = ("thin-leaves", "defoliate", "remove")
_BARE = 0.85  # practice: what leaves less than about a seventh is stripping, not thinning
_TREND_DAYS = 90  # less than a season's quarter between two readings shows no growth
Known = Mapping[str, Any]
Growth = Callable[[Spot], float | None]


def bite_checks(
    advice: Advice, reading: Reading, known: Callable[[], Known], tables: Mapping[str, Any], growth: Growth
) -> Advice:
    """The advice, its first look at wire that goes on moved to the day that the bite date gives.

    Only where the gap under the coils was said or the branch's growth was measured; else the rule's days stand. known:
    what a figure may know of the tree. growth: mm a year of the branch at a place, or None.
    """
    options = tuple(_checked(option, reading, known, tables, growth) for option in advice.options)
    return advice if options == advice.options else replace(advice, options=options)


def _checked(
    option: Option, reading: Reading, known: Callable[[], Known], tables: Mapping[str, Any], growth: Growth
) -> Option:
    if option.work != "wire" or not any(_looks_at_wire(follow) for follow in option.follow):
        return option
    said = [work for work in reading.work if work.work == "wire" and near(option.spot, work.spot)]
    gaps = [work.measures["gap_mm"] for work in said if "gap_mm" in work.measures]
    rate = growth(option.spot)
    if not gaps and rate is None:
        return option
    more = ({"gap_mm": min(gaps)} if gaps else {}) | ({} if rate is None else {"yearly_mm": rate})
    first, bites = _first_check({**known(), **more, "wired_on": None}, tables)
    if first is None:
        return option
    says = "Look whether the wire bites" + (f": by the branch's growth it may from {bites}." if bites else ".")
    follow = tuple(replace(one, on=first, says=says) if _looks_at_wire(one) else one for one in option.follow)
    return replace(option, follow=follow)


def _looks_at_wire(follow: Follow) -> bool:
    return follow.work == "check" and follow.part == "wire"


def _first_check(known: Known, tables: Mapping[str, Any]) -> tuple[str | None, str | None]:
    """(first check, earliest bite) as ISO dates, None where it cannot be told. Raises UserError for what cannot be."""
    from benchmate.fault import UserError
    from benchmate.reckoning import FIGURES, FigureError, bind

    bound = bind(FIGURES["bite-date"], known, tables)
    if bound.lacks:
        return None, None
    try:
        figure = FIGURES["bite-date"].work_out(**bound.values)
    except FigureError as error:
        raise UserError(str(error)) from error
    first = next((str(one.value) for one in figure.beside if one.name == "first check"), None)
    return first, None if figure.low is None else str(figure.low)


def yearly_growth_mm(readings: Sequence[tuple[dt.date, float]]) -> float | None:
    """Growth in mm a year between the first and the last reading; None where they are too near or show none."""
    if len(readings) < 2 or (readings[-1][0] - readings[0][0]).days < _TREND_DAYS:
        return None
    from benchmate.reckoning.forecast import yearly_gain_mm

    gain = yearly_gain_mm(readings[0], readings[-1])
    return gain if gain > 0 else None


def branch_growth(entries: Sequence[Entry], on: dt.date, places: Mapping[str, Any]) -> Growth:
    """What gives the growth in mm a year of the branch at a place; None where no one branch is meant."""

    def growth(spot: Spot) -> float | None:
        if not (spot.side or spot.level or spot.ordinal):
            return None
        from benchmate.planning.readings import branch_readings

        return yearly_growth_mm(branch_readings(entries, on, spot, places))

    return growth


def counted_leaves(reading: Reading, ear: Ear) -> Reading:
    """Leaves that were counted ("took 12 of 48 leaves off") as the share of the crown that they are, so that they count
    against the season's dose."""
    works = [work for work in reading.work if work.work in _COUNTED and "share" not in work.measures]
    if len(works) != 1 or not any(name == "leaves" for name, _ in reading.series) or len(reading.series) < 2:
        return reading
    from benchmate.hearing.amounts.dates import DateWords
    from benchmate.hearing.figures.choice import figure_words

    any_day = DateWords(ear.lexicon.dates, ear.spotter.values, dt.date(2000, 1, 1), False)  # counts have no date
    heard, _ = figure_words(ear.spotter).of_figure("leaf-share", ear.words(reading.said), any_day)
    counts = {role.name: role.value for role in heard.roles.roles}
    cut, total = counts.get("leaves_cut"), counts.get("leaves_total")
    if not cut or not total or cut > total:
        return reading
    share = round(cut / total, 4)
    return replace(reading, work=tuple(_shared(work, share) if work is works[0] else work for work in reading.work))


def _shared(work: Work, share: float) -> Work:
    name = "defoliate" if share >= _BARE else "thin-leaves"
    return replace(work, work=name, measures={**work.measures, "share": share})
