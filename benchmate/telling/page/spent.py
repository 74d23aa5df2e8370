"""What each season took from the tree, in words, and the scale that all seasons share."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence

from benchmate.telling.dates import day_words
from benchmate.telling.page.sheet import SeasonSpent

MOST_SEASONS = 10
_STEP = 0.25
HOW = (
    "Leaf and root taken off, added up over each growing season; blades that grow again within weeks stand apart. "
    "Where no share was said, what such work usually takes is counted, and told as about."
)


def last_seasons(seasons: Sequence[SeasonSpent], most: int = MOST_SEASONS) -> tuple[Sequence[SeasonSpent], int]:
    """The latest seasons, oldest first, and how many stand before them."""
    return seasons[-most:], max(0, len(seasons) - most)


def season_runs(seasons: Sequence[SeasonSpent]) -> list[tuple[str, SeasonSpent]]:
    """Each season with its label; seasons in which nothing was written down are told as one."""
    runs: list[tuple[str, SeasonSpent]] = []
    first = ""
    for season in seasons:
        if season.silent and not season.now and runs and runs[-1][1].silent:
            runs[-1] = (f"{first} to {season.label}", season)
            continue
        first = season.label
        runs.append((f"{season.label} so far" if season.now else season.label, season))
    return runs


def percent(share: float, about: bool = False) -> str:
    """ "about 20 %"."""
    return f"{'about ' if about else ''}{share * 100:.0f} %"


def spent_words(season: SeasonSpent) -> str:
    """One season: "about 20 % of the leaf, of at most 25 %; 33 % of the roots; serious: repotted it on 16 March"."""
    said = []
    if season.foliage > 0:
        said.append(f"{percent(season.foliage, season.about_foliage)} of the leaf" + _bound(season))
    elif season.now and season.most is not None:
        said.append(f"no leaf taken yet{_bound(season)}")
    if season.roots > 0:
        said.append(f"{percent(season.roots, season.about_roots)} of the roots")
    if season.serious:
        said.append(f"serious work: {_dated(season.serious)}")
    if season.apart:
        said.append(f"leaf blades apart from that: {_dated(season.apart)}")
    return "; ".join(said) or ("nothing in the record" if season.silent else "nothing taken")


def _dated(works: Iterable[tuple[str, dt.date]]) -> str:
    return ", ".join(f"{work} ({day_words(day)})" for work, day in works)


def _bound(season: SeasonSpent) -> str:
    if season.most is None:
        return ""
    beyond = season.foliage > season.most + 1e-6
    words = f", beyond the {percent(season.most)} that it bears" if beyond else f", of at most {percent(season.most)}"
    return words + (" (its health then was not told)" if season.most_assumed else "")


def top_of(seasons: Iterable[SeasonSpent]) -> float:
    """Where the scale ends: the next quarter above all that is shown, from 0.5 to 1. Beyond that bars stop short, and
    words tell how much it was."""
    most = max((max(one.foliage, one.roots, one.most or 0.0) for one in seasons), default=0.0)
    return min(1.0, max(0.5, math.ceil(most / _STEP - 1e-9) * _STEP))
