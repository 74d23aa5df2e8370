"""What shifts when one item is skipped: the rest of the plan is searched anew from the day its window has closed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Spot
from benchmate.planning.candidate import Candidate
from benchmate.planning.plan import Move

if TYPE_CHECKING:
    from benchmate.planning.lay import Layout

# how far ahead a skipped work is followed, and how many ways are carried on it
_AHEAD = dt.timedelta(days=3 * 365)
_WAYS = 250
Names = Mapping[Candidate, str]


def moves_of(one: Candidate, layout: Layout, names: Names) -> tuple[Move, ...]:
    """The items of the next three years whose place changes, `one` itself first. What stands before stays as it is."""
    every = layout.candidates
    start = next((n for n, other in enumerate(every) if other.opens > one.closes), len(every))
    last = one.closes + _AHEAD
    stop = next((n for n, other in enumerate(every) if other.opens > last), len(every))
    kept = tuple(n for n in layout.best.chosen if n < start and every[n] is not one)
    anew = layout.search.best(start, kept, stop, _WAYS).chosen
    old = [one, *(every[n] for n in layout.best.chosen if start <= n < stop)]
    new = [every[n] for n in anew if n >= start]
    out: list[Move] = []
    keys: list[tuple[str, Spot]] = [one.key, *(other.key for other in (*old, *new))]
    for key in dict.fromkeys(keys):
        out += _changed([o for o in old if o.key == key], [n for n in new if n.key == key], names)
    return tuple(out)


def _changed(old: list[Candidate], new: list[Candidate], names: Names) -> list[Move]:
    """The changes of one wish: those that stand in both are left aside, the others are paired in their order."""
    gone = [other for other in old if other not in new]
    come = [other for other in new if other not in old]
    out = []
    for number, was in enumerate(gone):
        now = come[number] if number < len(come) else None
        if now is None:
            out.append(Move(names[was], was.wish.work, None, None, "it falls out of the plan"))
        else:
            says = "it moves on" if now.opens > was.opens else "it comes forward"
            out.append(Move(names[was], was.wish.work, now.opens.isoformat(), now.closes.isoformat(), says))
    for now in come[len(gone) :]:
        name = f"{now.wish.id}-{now.opens:%Y-%m}"
        out.append(Move(name, now.wish.work, now.opens.isoformat(), now.closes.isoformat(), "it comes in"))
    return out
