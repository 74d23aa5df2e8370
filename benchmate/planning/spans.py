"""The days that a wish asks for by name: growth stages, times such as the warm season, the taxon's own windows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from benchmate import seasons
from benchmate.planning.world import World
from benchmate.value import dataclass

_DAY = dt.timedelta(days=1)
ANY = "any"
TRAIT = "trait:"


@dataclass(frozen=True, slots=True)
class Span:
    """Days from one to another, both counted. name: the stage or time that they are known by."""

    opens: dt.date
    closes: dt.date
    name: str


def spans_of(names: Iterable[str], world: World) -> tuple[Span, ...]:
    """All days of a plan that fall in one of the windows, in order; windows that touch or overlap are one span.

    "trait:NAME" stands for the windows that the taxon's trait names; a taxon without it has none.
    """
    found = sorted((span for name in _spread(names, world) for span in _kept(name, world)), key=lambda span: span.opens)
    out: list[Span] = []
    for span in found:
        if out and span.opens <= out[-1].closes + _DAY:
            out[-1] = Span(out[-1].opens, max(out[-1].closes, span.closes), out[-1].name)
        else:
            out.append(span)
    return tuple(out)


def _spread(names: Iterable[str], world: World) -> Iterator[str]:
    for name in names:
        if not name.startswith(TRAIT):
            yield name
            continue
        held = world.today.trait(name.removeprefix(TRAIT))
        yield from [held] if isinstance(held, str) else list(held or ())


def _kept(name: str, world: World) -> tuple[Span, ...]:
    if name not in world.spans:
        world.spans[name] = tuple(_spans(name, world))
    return world.spans[name]


def _spans(name: str, world: World) -> Iterator[Span]:
    if name == ANY:
        yield Span(world.on, world.until, name)
        return
    day = world.on
    while day <= world.until:
        window = seasons.next_window(name, day, world.traits, world.place, world.book.seasons)
        if window is None or window.opens > world.until:
            return
        closes = world.until if window.closes is None else min(window.closes, world.until)
        yield Span(max(window.opens, world.on), closes, name)
        day = closes + _DAY
