"""The calendar as one tree at one place meets it: frost, growth stages, seasons, months turned for the south."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from typing import Any

from benchmate import seasons
from benchmate.garden.record import Place


class Almanac:
    """Dates for one tree at one place, as of `on`. What costs a while is worked out once.

    traits: trait -> value, by which stages fall earlier or later. tables: the season tables by file name. lag_days: by
    how much this tree is behind the usual dates of its stages this year, negative where it is ahead.
    """

    __slots__ = ("_guess", "_season_start", "lag_days", "on", "place", "southern", "tables", "traits")

    def __init__(
        self,
        on: dt.date,
        place: Place,
        traits: Mapping[str, Any] | None = None,
        tables: Mapping[str, Any] | None = None,
        lag_days: int = 0,
    ) -> None:
        self.on = on
        self.lag_days = lag_days
        self.place = place
        self.traits: Mapping[str, Any] = traits or {}
        self.tables: Mapping[str, Any] = tables or {}
        self.southern = seasons.is_southern(place)
        self._season_start: dt.date | None = None
        self._guess: tuple[seasons.StageGuess | None] | None = None

    def between(self, first: str, last: str, on: dt.date | None = None) -> bool:
        """Whether the day lies from one month-day to another, both counted, given for the north and turned for the
        south. A span may run over the new year."""
        day = on or self.on
        start, end = self._turned(first), self._turned(last)
        here = (day.month, day.day)
        return start <= here <= end if start <= end else here >= start or here <= end

    def _turned(self, month_day: str) -> tuple[int, int]:
        return seasons.turned(seasons.month_day(month_day), self.southern)

    def next_date(self, month_day: str, after: dt.date) -> dt.date:
        """The next such day, on or after `after`, turned for the south."""
        month, day = self._turned(month_day)
        here = after.replace(month=month, day=min(day, 28) if month == 2 else day)
        return here if here >= after else here.replace(year=after.year + 1)

    def frost_days(self) -> float:
        """Days to the mean first autumn frost, infinite at a place that has none; negative for some weeks after it."""
        days = seasons.frost_days(self.on, self.place, self.tables)
        return math.inf if days is None else float(days)

    def spring_frost_days(self) -> float:
        """Days to the mean last spring frost; negative while no frost is due, and without end where there is none."""
        days = seasons.spring_frost_days(self.on, self.place, self.tables)
        return -math.inf if days is None else float(days)

    def frost_season_days(self) -> float:
        """Days from the mean first frost to the mean last one; 0 at a place that has none."""
        return float(seasons.frost_season_days(self.place, self.tables) or 0)

    def before_frost(self, days: int, after: dt.date) -> dt.date | None:
        """The day so many days before the first frost that comes next."""
        return seasons.before_first_frost(days, after, self.place, self.tables)

    @property
    def season_start(self) -> dt.date:
        """First day of the growing season that today belongs to; work on a bare tree belongs to the one that
        follows. The last weeks belong to it always: what was done in them is not yet mended."""
        if self._season_start is None:
            start = seasons.season_start(self.on, self.place, self.tables)
            self._season_start = work_counts_from(self.on, start, self.tables)
        return self._season_start

    def next_season(self, after: dt.date) -> dt.date:
        """When the next growing season begins."""
        return seasons.next_growth(after, self.place, self.tables)

    @property
    def guess(self) -> seasons.StageGuess | None:
        """The stage that the date suggests."""
        if self._guess is None:
            day = self.on - dt.timedelta(days=self.lag_days)
            self._guess = (seasons.guess_stage(self.traits, self.place, day, self.tables),)
        return self._guess[0]

    def guess_before(self, guess: seasons.StageGuess) -> seasons.StageGuess | None:
        """The stage that comes before a suggested one, None where that lasts all year."""
        if guess.since is None:
            return None
        return seasons.guess_stage(self.traits, self.place, guess.since - dt.timedelta(days=1), self.tables)

    def implied(self, known: str, asked: str) -> bool | None:
        """What one known stage says of another."""
        return seasons.stage_truth(known, asked, self.tables, self.traits.get("leaf"))

    @property
    def stages(self) -> tuple[str, ...]:
        return tuple(self.tables.get("stages", {}).get("stage", ()))

    def next_stage(self, stage: str, after: dt.date) -> dt.date | None:
        """When the tree next reaches a stage, `after` itself while it holds; None where the season cannot tell."""
        return seasons.next_stage(stage, after, self.traits, self.place, self.tables)

    def window(self, names: object, after: dt.date) -> seasons.Window | None:
        """A taxon's own window (stages, or names such as "warm-season") that holds or next opens."""
        wanted = [names] if isinstance(names, str) else list(names) if isinstance(names, list | tuple) else []
        return seasons.first_window(wanted, after, self.traits, self.place, self.tables) if wanted else None

    def day_length_h(self) -> float | None:
        """Hours of day at the place, None where the latitude is not known."""
        if self.place.latitude is None:
            return None
        from benchmate.reckoning.sun import day_length

        return float(day_length(self.place.latitude, self.on.timetuple().tm_yday))


def work_counts_from(on: dt.date, season_start: dt.date, tables: Mapping[str, Any]) -> dt.date:
    """First day whose work counts as done this season: the season's own first day, or so many days back as what was
    done then is not yet mended."""
    return min(season_start, on - dt.timedelta(days=tables["frost"]["season"]["recent_days"]))


def almanac_for(
    on: dt.date,
    place: Place,
    entry: Mapping[str, Any],
    tables: Mapping[str, Any],
    said: Mapping[str, Any] | None = None,
    lag_days: int = 0,
) -> Almanac:
    """The almanac for a taxon's entry. said: traits that the grower gave, which go before its cells."""
    traits = {name: cell["is"] for name, cell in entry.get("traits", {}).items()}
    return Almanac(on, place, {**traits, **(said or {})}, tables, lag_days)
