"""What the seasons cost, as lines: words first, then a bar each for leaf and roots."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.telling import lines as role
from benchmate.telling.lines import Line
from benchmate.telling.page.growth import nice_step
from benchmate.telling.page.sheet import SeasonSpent
from benchmate.telling.page.spent import HOW, last_seasons, percent, season_runs, spent_words, top_of
from benchmate.telling.wording import sentence

_WIDTH, _BAR_MOST, _LEAD = 80, 40, 17


def spent_lines(seasons: Sequence[SeasonSpent], *, width: int | None = None, plain: bool = False) -> list[Line]:
    """A line in words a season, and bars of what it took. width: columns or None. plain: no bars."""
    kept, before = last_seasons(seasons)
    if not kept:
        return [Line("Nothing is in its record yet.", role.REASON, indent=2)]
    room = max(5, min(_BAR_MOST, (width or _WIDTH) - _LEAD))
    step = nice_step(top_of(kept) * 100, room) / 100
    lines: list[Line] = []
    for label, season in season_runs(kept):
        lines.append(Line(sentence(spent_words(season)), role.REASON, f"{label}: ", 2))
        lines += [] if plain else _bars(season, step, room)
    if before:
        lines.append(Line(f"{before} earlier seasons are not shown.", role.ASIDE, indent=2))
    if not plain and any(season.foliage or season.roots for season in kept):
        lines.append(Line(f"Each # is {step * 100:g} %.", role.ASIDE, indent=2))
    return [*lines, Line(HOW, role.ASIDE, indent=2)]


def _bars(season: SeasonSpent, step: float, room: int) -> list[Line]:
    rows = (("leaf ", season.foliage), ("roots", season.roots))
    return [
        Line("#" * min(room, max(1, round(share / step))), role.REASON, f"{name}  {percent(share):>5}  ", 4)
        for name, share in rows
        if share > 0
    ]
