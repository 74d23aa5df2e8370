"""What is known of a tree at one moment, each fact with where it came from. Unknown stays unknown."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from benchmate.hearing.reading import NOWHERE, Spot, Work
from benchmate.value import dataclass, field, replace

SAID, RECORD, SEASON, DEFAULT, FIGURE = "said", "record", "season", "default", "figure"
NO_MEASURES: Mapping[str, float] = {}


@dataclass(frozen=True, slots=True)
class Known:
    """One fact. origin: said, record, season, default or figure. on: ISO date it was seen or said, where known.

    words: as it is told back ("weak", "first flush").
    """

    kind: str
    value: str | int
    spot: Spot = NOWHERE
    denied: bool = False
    origin: str = SAID
    on: str | None = None
    measures: Mapping[str, float] = field(default_factory=lambda: NO_MEASURES)

    @property
    def words(self) -> str:
        value = f"flush {self.value}" if self.kind == "flush" else str(self.value).replace("-", " ")
        if self.kind == "trait":
            value = value.replace(":", " ")
        return f"not {value}" if self.denied else value

    @property
    def told(self) -> str:
        """The fact and where it comes from: "weak (record, 2026-04-02)"."""
        where = {
            SAID: "said",
            RECORD: "from the record",
            SEASON: "taken from the date",
            DEFAULT: "taken as usual",
            FIGURE: "worked out",
        }[self.origin]
        return f"{self.words} ({where}{', ' + self.on if self.on and self.origin == RECORD else ''})"

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"kind": self.kind, "value": self.value, **self.spot.as_json(), **self.measures}
        if self.denied:
            out["not"] = True
        return out | {"origin": self.origin} | ({"on": self.on} if self.on else {})


@dataclass(frozen=True, slots=True)
class Done:
    """Work that was done, some time between `first` and `last` (equal where the day is known).

    denied: said not to have been done in that time. now: done in this very statement, which its own option overlooks.
    by: the work that was done, where it only counts as this one. beside: what was done with it in the same visit, which
    overlooks it too.
    """

    work: str
    first: dt.date
    last: dt.date
    spot: Spot = NOWHERE
    share: float | None = None
    manner: tuple[str, ...] = ()
    denied: bool = False
    origin: str = RECORD
    now: bool = False
    by: str | None = None
    beside: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        day = self.first.isoformat() if self.first == self.last else f"{self.first} to {self.last}"
        day = "at some time" if self.first == dt.date.min else day
        return f"{'no ' if self.denied else ''}{(self.by or self.work).replace('-', ' ')} {day}"


@dataclass(frozen=True, slots=True)
class Facts:
    """All facts about one tree on one day, the strongest origin first within each kind.

    known: kind -> facts. done: work from record and statement, latest first. measures: what was said or recorded of the
    whole tree or of what is asked about. tree: its name in the garden, or None for a bare species; with a tree the
    record is closed: work that it does not hold was not done. season_start: first day of the growing season `on` is in.
    loose: those of the measures that this very statement says. measured: parts of which the record holds a measure.
    meant: work that this very statement asks about or means to do. compared: works between which it asks for a choice.
    own_spring: by how many days the springs of the record came later than is usual at the place. pot_l: litres of its
    pot, None where not known. stage_assumed: what was taken from the date, in words. stage_turns: it is about to turn,
    or has just done so.
    """

    on: dt.date
    known: Mapping[str, tuple[Known, ...]]
    done: tuple[Done, ...] = ()
    measures: Mapping[str, float] = field(default_factory=lambda: NO_MEASURES)
    taxon: str | None = None
    entry: Mapping[str, Any] = field(default_factory=dict)
    tree: str | None = None
    since: dt.date | None = None
    season_start: dt.date | None = None
    stage_assumed: str | None = None
    stage_turns: bool = False
    meant: tuple[Work, ...] = ()
    loose: Mapping[str, float] = field(default_factory=lambda: NO_MEASURES)
    measured: tuple[Known, ...] = ()
    compared: tuple[str, ...] = ()
    own_spring: int = 0
    pot_l: float | None = None

    def first(self, kind: str) -> Known | None:
        """The strongest fact of a kind that is not a denial, or None."""
        denied: set[str | int] = set()
        for known in self.known.get(kind, ()):
            if known.denied:
                denied.add(known.value)
            elif known.value not in denied:
                return known
        return None

    def denials(self, kind: str) -> set[str | int]:
        """What is said not to be so, unless a stronger fact says that it is."""
        held: set[str | int] = set()
        out: set[str | int] = set()
        for known in self.known.get(kind, ()):
            if not known.denied:
                held.add(known.value)
            elif known.value not in held:
                out.add(known.value)
        return out

    def of(self, kind: str) -> tuple[Known, ...]:
        return self.known.get(kind, ())

    def without_now(self, work: str) -> Facts:
        """The same facts without that work where it was done in this very statement, and without what was done in the
        same visit: neither must stand against it."""
        done = tuple(one for one in self.done if not (one.now and (one.work == work or work in one.beside)))
        return replace(self, done=done)

    @property
    def all(self) -> tuple[Known, ...]:
        return tuple(known for group in self.known.values() for known in group)

    def trait(self, name: str) -> Any:
        """The value of a taxon's trait, or None where it is not known. What the grower says of the tree goes before."""
        for known in self.known.get("trait", ()):
            said, _, value = str(known.value).partition(":")
            if said == name and not known.denied:
                return value
        cell = self.entry.get("traits", {}).get(name)
        return cell.get("is") if cell else None
