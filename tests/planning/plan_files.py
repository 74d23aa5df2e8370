"""The rules as they ship, trees and places for tests, and plans tried out day by day as a grower would live them."""

from __future__ import annotations

import datetime as dt
import random
from dataclasses import replace
from functools import lru_cache
from typing import Any

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing import hear
from benchmate.hearing.reading import Fact, Reading, Work
from benchmate.planning import Item, PlanBook, compile_plan_book
from benchmate.planning.lay import Layout
from benchmate.practice import advise, gather
from benchmate.practice.book import RuleBook
from benchmate.practice.condition import READ_ON
from benchmate.talk.house import House

NORTH = Place("North", 51.5, -0.5, (4, 25), (10, 20))
SOUTH = Place("South", -35.3, 149.1, (10, 28), (4, 18))
TROPIC = Place("Tropic", 1.35, 103.8)
PLACES = {"north": NORTH, "south": SOUTH, "tropic": TROPIC}


@lru_cache(maxsize=1)
def house() -> House:
    return House(None)


@lru_cache(maxsize=1)
def book() -> RuleBook:
    return house().book


@lru_cache(maxsize=1)
def planning() -> PlanBook:
    lexicon = house().lexicon
    return compile_plan_book(house().tables.tables, lambda words: hear(words, lexicon, READ_ON))


def only(*wishes: str) -> PlanBook:
    """The plan book with these wishes alone."""
    return replace(planning(), wishes=tuple(wish for wish in planning().wishes if wish.id in wishes))


def tree_of(row: dict[str, Any]) -> Tree:
    return Tree(**{"name": "Test tree", "folder": "test-tree", **row})


def entries_of(rows: list[dict[str, Any]]) -> list[Entry]:
    """Journal entries from plain rows; a row without a kind is work done."""
    out = []
    for number, row in enumerate(rows):
        values = {key: tuple(value) if isinstance(value, list) else value for key, value in row.items()}
        out.append(Entry(**{"id": f"{row['at']}-{number}", "kind": "done", **values}))
    return out


def place_of(value: str | dict[str, Any]) -> Place:
    if isinstance(value, str):
        return PLACES[value]
    frost = {key: tuple(map(int, value[key].split("-"))) for key in ("last_frost", "first_frost") if key in value}
    return Place(**{**value, **frost})


def lived(items: tuple[Item, ...], rng: random.Random) -> list[tuple[dt.date, Item]]:
    """The items, each on some day of its window, by day."""
    out = []
    for item in items:
        first, last = dt.date.fromisoformat(item.opens), dt.date.fromisoformat(item.closes)
        out.append((first + dt.timedelta(days=rng.randint(0, (last - first).days)), item))
    return sorted(out, key=lambda pair: (pair[0], pair[1].id))


def entry_for(day: dt.date, item: Item) -> Entry:
    """The item as the journal holds it once it is done."""
    work: dict[str, Any] = {"work": item.work, **item.spot.as_json(), "manner": list(item.manner)}
    if item.share is not None:
        work["share"] = item.share
    return Entry(f"{day}-{item.id}", day, "done", work=(work,))


def verdict_of(item: Item, day: dt.date, tree: Tree, entries: list[Entry], place: Place) -> tuple[str, list[str]]:
    """What the bench would say, asked on that day about that work: the verdict, and the rules against it."""
    measures = {"share": item.share} if item.share is not None else {}
    work = Work(item.work, item.spot, measures, None, item.manner)
    reading = Reading("may I", ("ask",), "may", work=(work,))
    talk = [Fact(kind, value) for kind, value in item.taken]
    facts = gather(reading, tree, entries, place, day, book(), talk)
    options = [one for one in advise(reading, facts, book(), place, day).options if one.work == item.work]
    option = next(one for one in options if one.rest or one.spot == item.spot)
    return option.verdict, [reason.rule for reason in option.against]


def without_memory(layout: Layout) -> Layout:
    """The same layout with a judge that takes everything to bear on everything."""
    layout.judge.touching.bears = lambda one, other: True  # type: ignore[method-assign]
    layout.judge.touching.ruled = lambda one, other: True  # type: ignore[method-assign]
    layout.judge.touching.meets = lambda one, other: True  # type: ignore[method-assign]
    return layout
