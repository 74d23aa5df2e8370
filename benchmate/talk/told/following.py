"""What to come back for after work: the options' follow-ups, placed where the work was and closed by its undoing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Spot, Work
from benchmate.practice.advice import Follow, Option
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.practice.book import RuleBook

Endings = Mapping[str, Sequence[str]]


def endings_of(places: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """Work that leaves something on the tree -> the works that take it off again ("wire" -> "unwire").

    places: the table of rules/practice/places.toml.
    """
    left, ends = places.get("leaves_behind", {}), places.get("ends", {})
    return {work: tuple(end for end, ended in ends.items() if finding in ended) for work, finding in left.items()}


def follow_tables(
    works: Sequence[Work], options: Sequence[Option], endings: Endings, shift: int = 0
) -> tuple[dict[str, Any], ...]:
    """The follow-ups of the options for these works, as the journal keeps them, none twice.

    shift: days by which the work lies before today; its follow-ups move with it.
    """
    seen: dict[tuple[Any, ...], dict[str, Any]] = {}
    for work in works:
        for option in options:
            if option.work == work.work and near(option.spot, work.spot):
                for follow in option.follow:
                    table = placed_table(follow, work.work, work.spot, endings, shift)
                    seen.setdefault(tuple(table.get(key) for key in ("work", "part", "side", "level")), table)
    return tuple(seen.values())


def in_its_days(options: Sequence[Option], entries: Sequence[Entry], on: dt.date) -> tuple[Option, ...]:
    """The options with what follows on the days that the entries keep, where these tell of work before today (on)."""
    past = [entry for entry in entries if entry.kind == "done" and entry.day < on]
    out = []
    for option in options:
        entry = next((e for e in past if any(work.get("work") == option.work for work in e.work)), None)
        if entry is not None:
            kept = {(table.get("work"), table.get("says")): str(table.get("on")) for table in entry.follow}
            follow = [replace(one, on=kept[key]) for one in option.follow if (key := (one.work, one.says)) in kept]
            option = replace(option, follow=tuple(follow))
        out.append(option)
    return tuple(out)


def placed_table(follow: Follow, work: str, spot: Spot, endings: Endings, shift: int = 0) -> dict[str, Any]:
    """One follow-up as the journal keeps it, at the place of the work that it comes from."""
    table = follow.as_json() | {"on": (dt.date.fromisoformat(follow.on) + dt.timedelta(days=shift)).isoformat()}
    undone = endings.get(work, ())
    if follow.work in undone:
        table |= {"part": spot.part, "side": spot.side, "level": spot.level}
    elif follow.part:
        table |= {"side": spot.side, "level": spot.level}
    if undone:
        table["closed_by"] = list(undone)
    return {key: value for key, value in table.items() if value is not None}


def same_deed(done: str, spot: Spot, asked: Work, book: RuleBook) -> bool:
    """Whether work in the record is the one spoken of. A work that says no more than its group ("cut" nothing, "why did
    I cut") is any of that group, where no place is named."""
    if not near(spot, asked.spot):
        return False
    if done == asked.work:
        return True
    if asked.work not in book.places.get("needs_object", ()) or asked.spot != NOWHERE:
        return False
    groups = [book.works.get(str(name), {}).get("group") for name in (done, asked.work)]
    return groups[0] is not None and groups[0] == groups[1]


def near(option: Spot, work: Spot) -> bool:
    """Whether an option about one place speaks of the place worked on: nothing that both name differs."""
    return all(
        a is None or b is None or a == b
        for a, b in ((option.part, work.part), (option.side, work.side), (option.level, work.level))
    )
