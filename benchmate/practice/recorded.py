"""What the record still says: seen facts that have not aged away or been ended, and work that was done."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Spot
from benchmate.practice.facts import DEFAULT, RECORD, Done, Known
from benchmate.practice.places import spots_meet
from benchmate.practice.when import span_of

# no forecast that a grower goes by reaches farther
_FORECAST = dt.timedelta(days=14)
_SPOT = ("part", "side", "level", "ordinal", "count")
_FACT_KEYS = {"kind", "value", "not", "when", "span", *_SPOT}


def standing(entries: Sequence[Entry], on: dt.date) -> list[Entry]:
    """Entries up to `on` that were not struck, latest first."""
    struck = {entry.strikes for entry in entries if entry.strikes}
    kept = [entry for entry in entries if entry.kind != "struck" and entry.id not in struck and day_of(entry.at) <= on]
    # entries of one day stand in the order they were written, so the later one goes first here
    return sorted(reversed(kept), key=lambda entry: day_of(entry.at), reverse=True)


def day_of(at: dt.date) -> dt.date:
    return at.date() if isinstance(at, dt.datetime) else at


def spot_from(table: Mapping[str, Any]) -> Spot:
    return Spot(*(table.get(key) for key in _SPOT))


def done_in(entries: Iterable[Entry], on: dt.date, southern: bool) -> list[Done]:
    """Work done, latest first: what was logged as done, and what was told of the past."""
    out: list[Done] = []
    for entry in entries:
        day = day_of(entry.at)
        if entry.kind == "done":
            for work in entry.work:
                if work.get("work") and work.get("done") in (None, "done", "now"):
                    manner = work.get("manner", ())
                    manner = (manner,) if isinstance(manner, str) else tuple(manner)
                    out.append(Done(work["work"], day, day, spot_from(work), work.get("share"), manner))
        for fact in entry.facts:
            if fact.get("kind") == "event":
                first, last = span_of(fact.get("when"), day, southern)
                out.append(Done(str(fact["value"]), first, last, spot_from(fact), denied=bool(fact.get("not"))))
    return sorted(out, key=lambda done: done.last, reverse=True)


def seen_in(entries: Sequence[Entry], done: Sequence[Done], on: dt.date, places: Mapping[str, Any]) -> list[Known]:
    """Seen facts that still count, latest first. How long each kind counts stands in the `ageing` table."""
    ageing, ends = places.get("ageing", {}), places.get("ends", {})
    out: list[Known] = []
    for entry in entries:
        day = day_of(entry.at)
        for fact in entry.facts:
            kind, value = str(fact.get("kind")), fact.get("value")
            if kind in ("event", "species") or value is None:
                continue
            known = Known(
                kind,
                value,
                spot_from(fact),
                bool(fact.get("not")),
                RECORD,
                day.isoformat(),
                {key: float(n) for key, n in fact.items() if key not in _FACT_KEYS and isinstance(n, int | float)},
            )
            told = told_until(entry) if kind == "weather" else day
            if (on - told).days <= ageing.get(str(value), ageing.get(kind, 0)) and not _ended(
                known, day, done, ends, places
            ):
                out.append(known)
    return out


def measure_age(name: str, places: Mapping[str, Any]) -> int:
    """For how many days a measure that the record holds still counts."""
    ageing = places.get("ageing", {})
    return int(ageing.get(name, ageing.get("measure", 0)))


def told_until(entry: Entry) -> dt.date:
    """The day up to which an entry speaks: a forecast speaks of the day that it names."""
    day = day_of(entry.at)
    return max(day, span_of(entry.when, day + _FORECAST)[1]) if entry.kind == "note" and entry.when else day


def measured_in(entries: Iterable[Entry], on: dt.date, places: Mapping[str, Any]) -> Iterator[Known]:
    """Parts that the record measured, latest first: what was seen of them, and what work was done on them."""
    names, limit = set(places.get("measured", {})), places.get("ageing", {}).get("measure", 0)
    for entry in entries:
        day = day_of(entry.at)
        for table in (*entry.facts, *entry.work) if (on - day).days <= limit else ():
            measures = {name: float(table[name]) for name in names & set(table)}
            if measures and table.get("part"):
                yield Known("candidate", table["part"], spot_from(table), False, RECORD, day.isoformat(), measures)


def left_behind(done: Sequence[Done], on: dt.date, places: Mapping[str, Any]) -> list[Known]:
    """Findings that work leaves: wire that went on is on until it comes off."""
    out: list[Known] = []
    ends, ageing = places.get("ends", {}), places.get("ageing", {})
    for work in done:
        finding = places.get("leaves_behind", {}).get(work.work)
        if not finding or work.denied or (on - work.last).days > ageing.get(finding, 0):
            continue
        known = Known("finding", finding, work.spot, False, RECORD, work.last.isoformat())
        if not _ended(known, work.last, done, ends, places):
            out.append(known)
    return out


def _ended(
    known: Known, day: dt.date, done: Sequence[Done], ends: Mapping[str, Any], places: Mapping[str, Any]
) -> bool:
    """Whether work done since then, at that place or with no place named, has ended the finding."""
    return known.kind == "finding" and any(
        work.last >= day
        and not work.denied
        and known.value in ends.get(work.work, ())
        and spots_meet(work.spot, known.spot, places)
        and (work.last > day or work.work != "wire")
        for work in done
    )


def from_tree(tree: Tree) -> list[Known]:
    """What tree.toml says: it has no day of its own, and what was seen since then goes before it."""
    pairs = (("species", tree.species), ("health", tree.health), ("phase", tree.phase))
    return [Known(kind, value, origin=RECORD) for kind, value in pairs if value]


def came_by(tree: Tree, done: Iterable[Done], on: dt.date, places: Mapping[str, Any]) -> list[Done]:
    """The work that a tree's origin tells of: one that was dug up was collected on the day it came, and where that day
    is not known, on some day up to `on`: that much is taken, not told.

    done: what the journal holds; work that it tells of itself was done once, on the day it names.
    """
    if not tree.origin:
        return []
    origin, told = tree.origin.lower(), {one.work for one in done if not one.denied}
    first, last, told_by = (tree.since, tree.since, RECORD) if tree.since else (dt.date.min, on, DEFAULT)
    return [
        Done(work, first, last, origin=told_by)
        for work, words in places.get("origin", {}).items()
        if work not in told and any(word in origin for word in words)
    ]
