"""What the grower planned and decided of a work, as the record holds it: told when that work is asked about."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import NOWHERE, Spot, Work
from benchmate.talk.dates import first_day, last_day
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.told.following import near
from benchmate.telling.dates import day_words, within_words
from benchmate.telling.lines import cut_short
from benchmate.telling.story import spot_of
from benchmate.telling.wording import sentence, small, work_words
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.garden import FollowUp
    from benchmate.talk.house import House

_TOUCHING = ("cutting", "shaping", "roots")  # groups of works that a tree which is left alone is spared
_CHECK = "check"
_UNTIL = frozenset({"before", "until", "till"})


@dataclass(frozen=True, slots=True)
class Own:
    """One plan or decision of the grower's. day: on which it was said. stands: whether it still holds."""

    words: str
    day: dt.date
    stands: bool = True


def own_words(house: House, tree: Tree, works: Collection[str], on: dt.date) -> list[Own]:
    """Plans and reminders that are open, and decisions against the works, the newest first; of what no longer holds
    only what was decided."""
    if house.garden is None or not works:
        return []
    from benchmate.garden.journal import standing

    entries = standing(_up_to(house, tree, on))
    by_id = {entry.id: entry for entry in entries}
    own = [
        _planned(one, by_id.get(one.entry), on) for one in _open(house, tree, on) if one.work in works and not one.rule
    ]
    own += _decided(entries, works, house, on)
    return sorted(own, key=lambda one: (one.stands, one.day), reverse=True)


def decided_against(house: House, tree: Tree, works: Sequence[Work], when: str | None, on: dt.date) -> list[Own]:
    """Decisions not to do such works at such a place before a time, or to leave that place alone until then, which
    still hold on the day on which the works are done or planned; the newest first.

    when: the time that is named for the works, as a reading has it, or None for today.
    """
    from benchmate.garden.journal import standing

    if house.garden is None or not works:
        return []
    day = (first_day(when, house.place.southern) if when else None) or on
    entries = standing(_up_to(house, tree, on))
    found = []
    for work in works:
        name = str(work.work)
        dated = [
            entry
            for entry in entries
            if entry.when
            and _not_before(entry, house, day)
            and any(near(spot_of(one), work.spot) for one in entry.work)
        ]
        if name not in LEFT_WORKS:
            found += [own for own in _decided(dated, [name], house, on) if own.day <= on]
    return sorted(dict.fromkeys(found), key=lambda one: one.day, reverse=True)


def _not_before(entry: Entry, house: House, day: dt.date) -> bool:
    """Whether a decision still holds on that day: up to the time that it names, where it says "before" or "until";
    else in that time."""
    start = first_day(entry.when, house.place.southern) if entry.when else None
    last = last_day(entry.when, house.place.southern) if entry.when else None
    if start is None or last is None:
        return False
    if _UNTIL & set(house.lexicon.split(entry.said)):
        return entry.day <= day < start
    return start <= day <= last


def planned_words(house: House, tree: Tree, on: dt.date) -> list[str]:
    """All that the grower said would be done, the soonest first."""
    by_id = {entry.id: entry for entry in _up_to(house, tree, on)}
    own = sorted((one for one in _open(house, tree, on) if not one.rule), key=lambda one: one.on or dt.date.max)
    return [_planned(one, by_id.get(one.entry), on).words for one in own]


def next_checks(house: House, tree: Tree, part: str | None, on: dt.date, ahead: Sequence[str] = ()) -> list[str]:
    """When the tree is to be looked at next, by its follow-ups and the grower's own plans: the answer first.

    part: that is asked about, or None for any. ahead: what is to be looked at after work that was just asked about.
    """
    from benchmate.garden.agenda import DueTree, due_items
    from benchmate.telling.due import without_long_past

    looks = [one for one in _open(house, tree, on) if one.work == _CHECK and part in (None, one.part)]
    groups, _ = without_long_past([DueTree(tree, due_items(looks, on, (dt.date.max - on).days))])
    told = []
    for item in (item for group in groups for item in group.items):
        follow = item.follow
        what = work_words(follow.work, Spot(follow.part, follow.side, follow.level))
        says = follow.says.rstrip(".") if follow.rule else what
        if item.overdue:
            told.append(f"overdue since {day_words(follow.until or on, on)}, {small(says)}")
        else:
            told.append(f"{day_words(max(follow.on or on, on), on)}, {small(says)}")
    if not told:
        of = f" of the {part.replace('-', ' ')}" if part else ""
        return [*ahead, f"No check{of} is on record for {tree.name}", *([] if ahead else house.due_on(tree, on))]
    return [*ahead, f"Next check: {told[0]}", *(sentence(f"Then: {words}") for words in told[1:3])]


def asked_again(house: House, tree: Tree, works: Collection[str], on: dt.date) -> list[str]:
    """What the rules asked for, after work that was done, of the works that are asked about: a line each."""
    from benchmate.garden.agenda import DueTree, due_items
    from benchmate.telling.due import item_words, without_long_past

    asked = [one for one in _open(house, tree, on) if one.work in works and one.rule]
    groups, _ = without_long_past([DueTree(tree, due_items(asked, on, (dt.date.max - on).days))])
    return [sentence(f"on record: {item_words(item, on)}") for group in groups for item in group.items[:2]]


def _up_to(house: House, tree: Tree, on: dt.date) -> list[Entry]:
    """The record as it stood on that day: what was written of later days is not known yet."""
    return [entry for entry in house.entries(tree) if entry.day <= on]


def _open(house: House, tree: Tree, on: dt.date) -> Sequence[FollowUp]:
    return house.garden.follow_ups(tree, on) if house.garden else ()


def _planned(one: FollowUp, entry: Entry | None, on: dt.date) -> Own:
    when = entry.when if entry and one.kind == "plan" else one.on.isoformat() if one.on else None
    words = f"You planned to {work_words(one.work, Spot(one.part, one.side, one.level))}"
    words += f" {within_words(when, on)}" if when else ", no day was told"
    day = entry.day if entry else on
    return Own(words + _because(entry) + f" (said on {day_words(day, on)})", day)


def _decided(entries: Sequence[Entry], works: Collection[str], house: House, on: dt.date) -> Iterator[Own]:
    for number, entry in enumerate(entries):
        refused = [table for table in entry.work if entry.kind == "left" and _bears_on(table, works, house)]
        if not refused:
            continue
        done_since = any(
            later.kind == "done" and any(table.get("work") in works for table in later.work)
            for later in entries[number + 1 :]
        )
        table = refused[0]
        name = str(table["work"])
        what = work_words(name, spot_of(table))
        words = f"You decided {'to' if name in LEFT_WORKS else 'not to'} {what}{_because(entry)}"
        said = f': "{cut_short(entry.said, 80)}"' if entry.when else ""
        stands = not done_since and _holds_on(entry, house, on)
        yield Own(f"{words} (said on {day_words(entry.day, on)}{said})", entry.day, stands)


def _bears_on(table: dict[str, Any] | Any, works: Collection[str], house: House) -> bool:
    """Whether a decision is about one of the works: by its name; or as leaving the tree alone spares it every work that
    touches it, and as cutting nothing at all spares it every cut."""
    name, book = str(table.get("work")), house.book
    if name in works:
        return True
    if name in LEFT_WORKS:
        return any(work in book.group(group) for group in _TOUCHING for work in works)
    if name in book.places.get("needs_object", ()) and spot_of(table) == NOWHERE:
        group = book.works.get(name, {}).get("group")
        return any(book.works.get(work, {}).get("group") == group for work in works)
    return False


def _holds_on(entry: Entry, house: House, on: dt.date) -> bool:
    """A decision holds to the end of the time it names, else for the growing season in which it was said."""
    if entry.when:
        last = last_day(entry.when, house.place.southern)
        return last is None or last >= on
    from benchmate.seasons import season_start

    return entry.day >= season_start(on, house.place, house.book.seasons)


def _because(entry: Entry | None) -> str:
    return f", because {small(cut_short(entry.reason, 200)).rstrip('.')}" if entry and entry.reason else ""
