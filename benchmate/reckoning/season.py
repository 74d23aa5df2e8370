"""The year's thickening: how much of a season's radial growth is done by a day, and on what day a share is done."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from .bounds import day, month_day, positive
from .figure import FigureError

_LATE = -math.log(-math.log(0.95))  # ordinate of the Gompertz curve at 95 % done, 2.970
_EARLY = -math.log(-math.log(0.05))  # at 5 % done, -1.097


@dataclass(frozen=True, slots=True)
class Season:
    """One growing season: 5 % of the year's thickening is done on `start`, 95 % on `end`."""

    start: dt.date
    end: dt.date

    @property
    def days(self) -> int:
        return (self.end - self.start).days


def share_grown(days_in: float, season_days: float) -> float:
    """Share, 0 to 1, of the year's thickening done `days_in` days after the day on which 5 % was done.

    Gompertz curve through 5 % on day 0 and 95 % on day `season_days`: quick early, slow late, as stems have been
    found to thicken (Rossi et al. 2003, from memory). Raises FigureError for a season of no days.

    >>> round(share_grown(0, 120), 3), round(share_grown(120, 120), 3), round(share_grown(43.2, 120), 2)
    (0.05, 0.95, 0.5)
    """
    length = positive("a growing season", season_days)
    ordinate = _EARLY + (_LATE - _EARLY) * days_in / length
    return math.exp(-math.exp(min(700.0, -ordinate)))


def day_of_share(share: float, season_days: float) -> float:
    """Days after the 5 % day on which a share (above 0, below 1) is done: the inverse of `share_grown`.

    >>> round(day_of_share(0.5, 120), 1)
    43.2
    """
    if not 0 < share < 1:
        raise FigureError(f"a share of {share:g} is never reached in a season; above 0 and below 1 would do")
    ordinate = -math.log(-math.log(share))
    return (ordinate - _EARLY) / (_LATE - _EARLY) * positive("a growing season", season_days)


def growing_season(on: dt.date, start: tuple[int, int], end: tuple[int, int]) -> Season:
    """The season, between two (month, day) dates, whose middle lies nearest to a day. It may cross the new year.

    >>> growing_season(dt.date(2026, 1, 10), (10, 20), (2, 20)).start.isoformat()
    '2025-10-20'
    """
    today = day("a day", on)
    best: Season | None = None
    for year in (today.year - 1, today.year, today.year + 1):
        first = month_day("a season's start", start, year)
        last = month_day("a season's end", end, year)
        if last <= first:
            last = month_day("a season's end", end, year + 1)
        season = Season(first, last)
        if best is None or _from_middle(season, today) < _from_middle(best, today):
            best = season
    assert best is not None
    return best


def _from_middle(season: Season, today: dt.date) -> float:
    return abs((season.start - today).days + season.days / 2)


def shifted(when: tuple[int, int], days: int) -> tuple[int, int]:
    """A (month, day) moved by days round the year, for the other hemisphere or a margin.

    >>> shifted((4, 20), 183)
    (10, 20)
    """
    moved = month_day("a date", when, 2025) + dt.timedelta(days=days)
    return moved.month, moved.day
