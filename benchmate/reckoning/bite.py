"""When wire begins to bite: the gap under it against the branch's growth, over the season's curve."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from .bounds import day, month_day, positive, within
from .figure import Band, Beside, Figure, FigureError, exactly, plain, weakest
from .season import Season, day_of_share, growing_season, share_grown, shifted

_YEARS_AHEAD = 6
_FIRM_BEFORE_FROST = 60  # days before the first frost by which thickening is taken as 95 % done
_SHORTEST = 40  # days: no place's season is taken as shorter
MonthDay = tuple[int, int]


def bite_date(
    on: dt.date,
    yearly_mm: Band,
    tolerated_mm: Band,
    season_start: Band,
    season_end: Band,
    gap_mm: float | None = None,
    wired_on: dt.date | None = None,
    last_frost: MonthDay | None = None,
    first_frost: MonthDay | None = None,
    latitude_deg: float | None = None,
    stage_share: Band | None = None,
    species: str | None = None,
    tender: Sequence[str] = (),
    pace: Band | None = None,
    check_fast_days: float = 7,
    check_slow_days: float = 21,
    daily_mm: float | None = None,
) -> Figure:
    """The day on which a wire begins to bite, as an ISO date; its value is None where it will not in six years.

    on: the day asked. wired_on: when the wire went on, else `on`. gap_mm: clearance under the coil (0 to 20), else
    taken as snug. yearly_mm: growth of the branch's diameter in a year. tolerated_mm: how deep it may press before
    it marks. season_start, season_end: days of the year, northern, of 5 and 95 % of the year's thickening, used where
    the place's frost dates (month, day) are not known; a southern latitude turns them by half a year. stage_share:
    share of the year's thickening already done, where the growth stage was told. tender: genera kept from frost, whose
    season the place's frost does not bound. pace: how the kind grows beside the common run; not used where yearly_mm
    was measured on the tree. daily_mm: growth of the diameter in a day of the season, where that is told instead.
    Raises FigureError.
    """
    today = day("a day", on)
    since = today if wired_on is None else day("a day of wiring", wired_on)
    if since > today + dt.timedelta(days=366) or (today - since).days > 366 * _YEARS_AHEAD:
        raise FigureError(
            f"a wiring on {since} is too far from {today}; a day in the last {_YEARS_AHEAD} years would do"
        )
    gap = within("gap_mm", 0.0 if gap_mm is None else gap_mm)
    room = gap + tolerated_mm.value
    if species and species.split(" ")[0] in tender:
        last_frost = first_frost = None
    start, end = _bounds(season_start, season_end, last_frost, first_frost, latitude_deg)
    season = growing_season(today, start, end)
    if daily_mm is not None:
        yearly_mm = exactly(positive("a growth", daily_mm) * season.days, "mm a year")
    quick = 1.0 if pace is None or yearly_mm.said else pace.value
    grows = [quick * within("yearly_mm", rate) for rate in (yearly_mm.value, yearly_mm.high, yearly_mm.low)]
    offset = 0 if stage_share is None or since != today else _stage_offset(today, start, end, stage_share.value)
    value, low, high = (_day_when(room, rate, since, start, end, offset) for rate in grows)
    in_growth = season.start <= today + dt.timedelta(days=offset) <= season.end
    near = low is not None and (low - today).days <= 60
    rhythm = check_fast_days if in_growth and near else check_slow_days
    half = _day_when(room / 2, grows[1], since, start, end, offset)
    first = today + dt.timedelta(days=rhythm) if in_growth else season_next(today, start, end)
    if half is not None:
        first = max(today, min(first, half))
    notes = [
        f"Check first on {first.isoformat()}, then every {plain(rhythm if in_growth else check_fast_days)} days "
        "while it grows, weekly in the strongest flush; cut wire that bites off at each turn, do not unwind it"
    ]
    if value is not None and value <= today:
        notes.insert(0, "By this it may be biting already: look today")
    if gap_mm is None:
        notes.append("The coil is taken to lie snug, with no gap")
    beside = (
        Beside("first check", first.isoformat(), "date"),
        Beside("check every", float(rhythm), "days"),
        Beside("room to grow", 2 * room, "mm of diameter"),
        Beside("share of the year's growth", 2 * room / grows[0], ""),
    )
    told = "not within six years" if value is None else value.isoformat()
    return Figure(
        "bite-date",
        None if value is None else value.isoformat(),
        "date",
        None if low is None else low.isoformat(),
        None if high is None else high.isoformat(),
        f"{plain(gap)} mm of gap and {plain(tolerated_mm.value)} mm that the bark stands are used up by "
        f"{plain(2 * room)} mm of thickening; at {plain(grows[0])} mm a year, mostly between "
        f"{season.start.isoformat()} and {season.end.isoformat()}, that is {told}",
        "Gompertz curve of the season's thickening (Rossi et al. 2003, from memory); growth a year: "
        + yearly_mm.source,
        weakest("memory", yearly_mm.mark),
        "A first guess for when to look, never a date to wait for: shoots near the top and fed trees bite far sooner.",
        tuple(notes),
        beside,
    )


def _bounds(
    season_start: Band,
    season_end: Band,
    last_frost: MonthDay | None,
    first_frost: MonthDay | None,
    latitude_deg: float | None,
) -> tuple[MonthDay, MonthDay]:
    """First and last day of the season: from the frosts of the place, else from the table."""
    if last_frost is not None and first_frost is not None:
        first = month_day("a first frost", first_frost, 2025)
        free = (first - month_day("a last frost", last_frost, 2025)).days % 365
        return shifted(last_frost, 0), shifted(last_frost, max(_SHORTEST, free - _FIRM_BEFORE_FROST))
    turn = 183 if latitude_deg is not None and within("latitude_deg", latitude_deg) < 0 else 0
    return (shifted((1, 1), round(season_start.value) - 1 + turn), shifted((1, 1), round(season_end.value) - 1 + turn))


def _stage_offset(on: dt.date, start: MonthDay, end: MonthDay, share: float) -> int:
    """Days by which the tree is ahead of the calendar, from the share of growth that its stage tells."""
    season = growing_season(on, start, end)
    meant = day_of_share(min(0.98, max(0.001, share)), season.days)
    return round(meant - (on - season.start).days)


def _day_when(
    room_mm: float, yearly_mm: float, since: dt.date, start: MonthDay, end: MonthDay, offset: int
) -> dt.date | None:
    """The day when growth since a day has used up the room (radial), or None within the years looked at."""
    season = growing_season(since + dt.timedelta(days=offset), start, end)
    days_in = (since - season.start).days + offset
    wanted = 2 * room_mm / yearly_mm + share_grown(days_in, season.days)
    for year in range(_YEARS_AHEAD + 1):
        if wanted < 0.999:
            in_days = day_of_share(max(wanted, 1e-9), season.days) - (offset if year == 0 else 0)
            return season.start + dt.timedelta(days=round(in_days))
        wanted -= 1.0
        season = _following(season)
    return None


def _following(season: Season) -> Season:
    """The same season a year on."""
    return Season(_next_year(season.start), _next_year(season.end))


def _next_year(when: dt.date) -> dt.date:
    return when.replace(year=when.year + 1) if (when.month, when.day) != (2, 29) else dt.date(when.year + 1, 2, 28)


def season_next(on: dt.date, start: MonthDay, end: MonthDay) -> dt.date:
    """The first day of growth on or after a day: today in season, else the next start.

    >>> season_next(dt.date(2026, 11, 1), (4, 20), (8, 18)).isoformat()
    '2027-04-20'
    """
    season = growing_season(on, start, end)
    if on <= season.start:
        return season.start
    return on if on <= season.end else _next_year(season.start)
