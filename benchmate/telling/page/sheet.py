"""What a sheet is made of: the tree, its entries, what its seasons cost, what waits, what to mind."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry, Tree
from benchmate.practice.advice import Caution
from benchmate.value import dataclass, field

if TYPE_CHECKING:
    from benchmate.garden import DueTree, FollowUp

_NOTHING: Mapping[str, Any] = {}


@dataclass(frozen=True, slots=True)
class SeasonSpent:
    """What one growing season took from the tree.

    label: "2026", or "2026-27" where it runs over the new year. foliage, roots: shares taken, 0 and up; they can pass 1
    where work was told twice. about_foliage, about_roots: whether some share was not said and is what such work usually
    takes. most: the share of foliage that might have gone, 0 to 1, as the rules stood on the days of the cuts, or None
    where nothing was cut or no bound holds. most_assumed: whether that rests on a health that nobody told. serious:
    works that weigh on the whole season, each with its day. apart: leaf removal that counts as no share, each with its
    day. silent: nothing at all was written down in it. now: the season that is not over yet.
    """

    label: str
    start: dt.date
    foliage: float = 0.0
    roots: float = 0.0
    about_foliage: bool = False
    about_roots: bool = False
    most: float | None = None
    most_assumed: bool = False
    serious: tuple[tuple[str, dt.date], ...] = ()
    apart: tuple[tuple[str, dt.date], ...] = ()
    silent: bool = False
    now: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """One tree as of a day.

    entries: those that stand, none later than `on`, oldest first. common_name: what growers call its taxon. groups:
    work -> "roots", "cutting", "shaping" or "care". seasons: oldest first. due: dated follow-ups, most urgent first.
    undated: follow-ups without a day. cautions: those of its kind, not of its state. lessons: what its record has
    taught, a sentence each. sources: id -> table, to name what a caution rests on.
    """

    tree: Tree
    on: dt.date
    entries: tuple[Entry, ...] = ()
    common_name: str | None = None
    groups: Mapping[str, str] = field(default_factory=lambda: _NOTHING)
    seasons: tuple[SeasonSpent, ...] = ()
    due: DueTree | None = None
    undated: tuple[FollowUp, ...] = ()
    cautions: tuple[Caution, ...] = ()
    lessons: tuple[str, ...] = ()
    sources: Mapping[str, Mapping[str, Any]] = field(default_factory=lambda: _NOTHING)
    units: str = "metric"
