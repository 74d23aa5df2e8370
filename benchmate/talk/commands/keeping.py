"""`due`, `record`, `rename`, `check`, `calendar`: commands about the garden's files."""

from __future__ import annotations

import datetime as dt
from argparse import Namespace
from typing import TYPE_CHECKING

from benchmate.fault import UserError
from benchmate.talk.commands.settings import house_of, print_json, print_lines, tell_unread, wants_json, write_out
from benchmate.talk.commands.waiting import Waiting
from benchmate.talk.dates import span_of, today_of
from benchmate.talk.house import House
from benchmate.telling.lines import ANSWER, Line

if TYPE_CHECKING:
    from benchmate.garden import Garden


def garden_of(house: House) -> Garden:
    """The garden that the command is about. Raises UserError where there is none."""
    if house.garden is None:
        raise UserError("no garden here; name one with --garden DIR, or look at the demo with --demo")
    return house.garden


def due_command(args: Namespace) -> int:
    """What is due, by tree."""
    from benchmate.garden import due
    from benchmate.telling.due import due_lines

    on = today_of(getattr(args, "on", None))
    if args.days < 0:
        raise UserError(f"--days {args.days} lies in the past; give 0 or more")
    garden = garden_of(house_of(args))
    with Waiting("journals read for the first time", plain=bool(getattr(args, "plain", False))) as progress:
        groups = due(garden, on, args.days, progress)
    if wants_json(args):
        print_json({"on": on.isoformat(), "days": args.days, "trees": [group.as_json() for group in groups]})
    else:
        print_lines(due_lines(groups, on, args.days, whole=args.all), args)
    tell_unread(args)
    return 0


def record_command(args: Namespace) -> int:
    """The tree's history by season, newest first unless asked."""
    from benchmate.garden.potted import as_potted
    from benchmate.telling.answer import entry_json
    from benchmate.telling.story import matching, story_lines

    house = house_of(args)
    garden = garden_of(house)
    on = today_of(getattr(args, "on", None))
    tree = garden.find(args.tree)
    entries = garden.entries(tree)
    start, end = _bound(args.start, 0), _bound(args.end, 1)
    if args.work or args.kind or start or end:
        kinds = (args.kind,) if args.kind else ()
        entries = tuple(matching(entries, work=args.work, kinds=kinds, start=start, end=end))
    if wants_json(args):
        pot = as_potted(tree, garden.entries(tree), on).pot
        row: dict[str, object] = {
            "name": tree.name,
            "folder": tree.folder,
            "species": tree.species,
            "origin": tree.origin,
            "was": list(tree.was) or None,
        }
        row |= {"phase": tree.phase, "health": tree.health, "since": tree.since.isoformat() if tree.since else None}
        row |= {"pot": dict(pot) or None, "size": dict(tree.size) or None}
        told = {key: value for key, value in row.items() if value is not None}
        print_json({"tree": told, "entries": [entry_json(entry) for entry in entries]})
        tell_unread(args)
        return 0
    place = house.place
    print_lines(
        story_lines(tree, entries, on, southern=place.southern, newest_first=not args.oldest, units=place.units), args
    )
    tell_unread(args)
    return 0


def rename_command(args: Namespace) -> int:
    """A tree's new name, added to its record."""
    from benchmate.garden import Entry, rename_tree

    house = house_of(args)
    garden, on = garden_of(house), today_of(getattr(args, "on", None))
    old = garden.find(args.tree)
    tree = rename_tree(garden, old, args.name, on)
    entry = garden.append(tree, Entry("", on, "note", f"rename {old.name} to {tree.name}", named=tree.name))
    if wants_json(args):
        print_json({"tree": tree.name, "was": list(tree.was), "folder": tree.folder, "logged": [entry.id]})
    else:
        print_lines([Line(f"{old.name} is called {tree.name} from now on; {old.name} still finds it.", ANSWER)], args)
    return 0


def _bound(words: str | None, end: int) -> dt.date | None:
    if words is None:
        return None
    span = span_of(words)
    if span is None:
        raise UserError(f"{words!r} is no day, month or year; write it as 2026-06-14, 2026-06 or 2026")
    return span[end]


def check_command(args: Namespace) -> int:
    """The garden's files: silence where all is well."""
    from benchmate.garden import check_garden

    house = house_of(args)
    faults = sorted(check_garden(garden_of(house).path))
    if wants_json(args):
        print_json({"faults": [fault.as_json() for fault in faults]})
    else:
        for fault in faults:
            print(fault)
    return 1 if faults else 0


def calendar_command(args: Namespace) -> int:
    """What is due as iCalendar."""
    from benchmate.telling.calendar import calendar_text

    house = house_of(args)
    garden = garden_of(house)
    on = today_of(getattr(args, "on", None))
    rows = [(tree, garden.follow_ups(tree)) for tree in garden.trees()]
    write_out(calendar_text(rows, on), args.out)
    if args.out:
        count = sum(follow.on is not None for _, found in rows for follow in found)
        print_lines([Line(f"{count} events are written to {args.out}.", ANSWER)], args)
    tell_unread(args)
    return 0
