"""Spans of days made into chances: alike ones joined, long ones cut, so many kept of each season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from benchmate.planning.candidate import Candidate, dated
from benchmate.planning.tuning import Tuning
from benchmate.planning.turning import season_turns
from benchmate.planning.world import World

_DAY = dt.timedelta(days=1)


def pieces_of(found: Sequence[Candidate], world: World, tuning: Tuning) -> list[Candidate]:
    """The candidates of one wish: parts that touch and are alike joined, long ones cut, some a season kept."""
    joined: list[Candidate] = []
    for one in found:
        last = joined[-1] if joined else None
        if last and last.closes + _DAY == one.opens and _alike(last, one):
            joined[-1] = dated(last, last.opens, one.closes, world, tuning)
        else:
            joined.append(one)
    bounds = world.planning.bounds
    longest, least = int(bounds["piece_days"]), int(bounds["least_open_days"])
    cut = []
    for one in joined:
        opens = one.opens
        while opens <= one.closes:
            closes = min(one.closes, opens + dt.timedelta(days=longest - 1))
            if (closes - opens).days + 1 >= least:
                cut.append(dated(one, opens, closes, world, tuning))
            opens = closes + _DAY
    by_season: dict[dt.date, list[Candidate]] = {}
    for one in cut:
        by_season.setdefault(one.season, []).append(one)
    most = int(bounds["pieces_per_season" if season_turns(world) else "pieces_without_season"])
    return [one for rows in by_season.values() for one in _spread(rows, most)]


def _spread(rows: list[Candidate], most: int) -> list[Candidate]:
    """So many of a season's parts: those that the rules speak best of, and of equals the first and others evenly on."""
    if len(rows) <= most:
        return rows
    best = sorted(rows, key=lambda one: -one.weight)
    least = best[most - 1].weight
    kept = [one for one in rows if one.weight > least]
    rest = [one for one in rows if one.weight == least]
    wanted = most - len(kept)
    kept += [rest[number * len(rest) // wanted] for number in range(wanted)]
    return sorted(kept, key=lambda one: one.opens)


def _alike(one: Candidate, other: Candidate) -> bool:
    return (one.weight, one.season, one.taken, one.hoped) == (other.weight, other.season, other.taken, other.hoped)


def parted(rows: Sequence[Candidate], days: Sequence[dt.date], world: World, tuning: Tuning) -> list[Candidate]:
    """The candidates with those parted in which one of the days falls, if both parts stay open for long enough.

    days: on which the rest after another work may end. What would begin too early as a whole can begin there.
    """
    least = int(world.planning.bounds["least_open_days"])
    out = []
    for one in rows:
        rest = one
        for day in sorted(set(days)):
            if (day - rest.opens).days >= least and (rest.closes - day).days + 1 >= least:
                out.append(dated(rest, rest.opens, day - _DAY, world, tuning))
                rest = dated(rest, day, rest.closes, world, tuning)
        out.append(rest)
    return out
