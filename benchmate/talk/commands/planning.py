"""`plan`: works laid out over the coming seasons."""

from __future__ import annotations

from argparse import Namespace

from benchmate.talk.commands.keeping import garden_of
from benchmate.talk.commands.settings import house_of, print_json, print_lines, tell_unread, wants_json
from benchmate.talk.dates import today_of
from benchmate.telling.lines import lay


def plan_command(args: Namespace) -> int:
    """The plan of one tree, with what its journal taught."""
    from benchmate.talk.asked.meant import meant_by_grower, meant_lines
    from benchmate.talk.asked.plans import plan_for
    from benchmate.telling.plan import plan_lines

    house = house_of(args)
    tree = garden_of(house).find(args.tree)
    on = today_of(getattr(args, "on", None))
    planned = plan_for(house, tree, on, args.years)
    meant = meant_by_grower(house, tree, on)
    place = house.place
    lines = plan_lines(
        planned.plan,
        lessons=planned.lessons,
        southern=place.southern,
        units=place.units,
        sources=house.book.sources,
        plain=bool(getattr(args, "plain", False)),
    )
    lines += meant_lines(meant, on, {item.work for item in planned.plan.items})
    if wants_json(args):
        print_json(planned.as_json() | {"meant": [one.as_json() for one in meant], "told": lay(lines)})
    else:
        print_lines(lines, args)
    tell_unread(args)
    return 0
