"""Which trees: those of a species, in a state, with a finding, or with work done in a time."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Fact, Reading
from benchmate.practice import gather
from benchmate.talk.dates import span_asked
from benchmate.talk.trees.which_tree import is_of
from benchmate.telling.dates import day_words, when_words, within_words
from benchmate.telling.heard import fact_words
from benchmate.telling.story import matching
from benchmate.telling.wording import list_words, work_words
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.talk.house import House

_NO_READING = Reading("")
_ALWAYS = ("health", "phase")  # of which a tree has one, whether it is on record or not
UNKNOWN = "?"


@dataclass(frozen=True, slots=True)
class Listed:
    """says: the answer in plain lines. rows: the trees found, for JSON."""

    says: tuple[str, ...]
    rows: tuple[dict[str, Any], ...]


def trees_where(reading: Reading, house: House, on: dt.date, among: Sequence[Tree] = ()) -> Listed:
    """The trees on which all that the question names holds, as far as the record knows. among: the trees that are
    asked about, where the question names several; else all."""
    wanted = [fact for fact in reading.facts if fact.kind != "event" and not (among and fact.kind == "species")]
    asked_of = [(work.work, work.denied) for work in reading.work if work.work]
    asked_of += [(str(fact.value), fact.denied) for fact in reading.facts if fact.kind == "event"]
    works = [work for work, denied in asked_of if not denied]
    refused = [work for work, denied in asked_of if denied]
    when = reading.when or next((fact.when for fact in reading.facts if fact.when), None)
    span = span_asked(replace(reading, when=when), on, house.place.southern)
    found: list[tuple[Tree, str]] = []
    unknown: list[str] = []
    trees = house.with_work(among or house.trees(), works) if works else among or house.trees()
    for tree in trees:
        if not all(is_of(tree, str(fact.value)) != fact.denied for fact in wanted if fact.kind == "species"):
            continue
        entries = house.entries(tree)
        told = _told_facts([fact for fact in wanted if fact.kind != "species"], tree, entries, house, on)
        if any(_told_works([work], entries, span, on) for work in refused):
            continue
        done = _told_works(works, entries, span, on)
        if told == UNKNOWN and done is not None:
            unknown.append(tree.name)
        elif told is not None and done is not None:
            found.append((tree, "; ".join(filter(None, [tree.species or "species not told", told, done]))))
    asked = ", ".join([*(fact_words(fact, on) for fact in wanted), *(work_words(work, done=True) for work in works)])
    within = ""
    if when and asked_of:
        within = f" since {when_words(when, on)}" if reading.onward else f" {within_words(when, on)}"
    lacking = f"not done{within}: {list_words([work_words(work, done=True) for work in refused])}" if refused else ""
    asked = "; ".join(filter(None, [f"{asked}{within}" if asked else "", lacking]))
    rows = tuple({"tree": tree.name, "folder": tree.folder, "species": tree.species} for tree, _ in found)
    open_to = (f"Not known of {list_words(unknown)}: nothing is on record",) if unknown else ()
    if not found:
        none = f"No tree here is known for: {asked}" if unknown else f"No tree here: {asked}"
        return Listed((none if asked else "There are no trees here", *open_to), ())
    names = list_words([tree.name for tree, _ in found])
    count = "1 tree" if len(found) == 1 else f"{len(found)} trees"
    head = f"{count}{f' ({asked})' if asked else ''}: {names}"
    return Listed((head, *(f"{tree.name}: {words}." for tree, words in found if words), *open_to), rows)


def _told_facts(wanted: list[Fact], tree: Tree, entries: Any, house: House, on: dt.date) -> str | None:
    """What is known that fits, with its day; None where something does not hold. Unknown does not count as holding, and
    for what a tree always has, as its health, not as denied either: then it is UNKNOWN."""
    if not wanted:
        return ""
    known = gather(replace(_NO_READING), tree, entries, house.place, on, house.book)
    told = []
    for fact in wanted:
        rows = known.of(fact.kind)
        if fact.kind in _ALWAYS:
            first = known.first(fact.kind)
            rows = (first,) if first else ()
        fits = [row for row in rows if row.value == fact.value and not row.denied]
        if bool(fits) == fact.denied:
            return None
        if fact.denied and fact.kind in _ALWAYS and not rows:  # it may be: unknown is not false
            return UNKNOWN
        told += [row.told for row in fits[:1]]
    return ", ".join(told)


def _told_works(works: list[str], entries: Any, span: tuple[dt.date, dt.date] | None, on: dt.date) -> str | None:
    told = []
    for work in works:
        start, end = span or (None, on)
        done: list[Entry] = matching(entries, work=work, kinds=("done",), start=start, end=min(end, on))
        if not done:
            return None
        told.append(f"{work_words(work, done=True)} on {day_words(max(entry.day for entry in done))}")
    return ", ".join(told)
