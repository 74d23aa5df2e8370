"""Chosen candidates as items: ids, reasons, needs, what moves when one is skipped, and the works that follow."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate import seasons
from benchmate.planning.candidate import Candidate, Later
from benchmate.planning.constraints import leads
from benchmate.planning.moves import moves_of
from benchmate.planning.plan import Item
from benchmate.planning.turning import turning_days
from benchmate.planning.verdicts import verdict_on
from benchmate.planning.world import World
from benchmate.practice.advice import Ask, Caution, Option, Reason
from benchmate.practice.almanac import Almanac
from benchmate.practice.asks import choose_asks
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.practice.warnings import cautions_for
from benchmate.practice.weigh import weigh
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.planning.lay import Layout

_DAY = dt.timedelta(days=1)
_MOST_REASONS = 1
# words of no more letters than this say little; sentences that share this much of the rest say the same
_LITTLE, _SHARED = 4, 0.4


def items_of(layout: Layout) -> tuple[Item, ...]:
    """The items of a plan, soonest first, those that follow of themselves among them."""
    names = _names(layout.chosen)
    out: list[Item] = []
    for one in layout.chosen:
        others = [other for other in layout.chosen if other is not one]
        option, cautions, asks = _weighed(one, layout.world)
        out.append(
            Item(
                id=names[one],
                wish=one.wish.id,
                work=one.wish.work,
                opens=one.opens.isoformat(),
                closes=one.closes.isoformat(),
                stage=one.stage,
                aim=one.wish.aim,
                spot=one.spot,
                why=(wish_reason(one), season_reason(one, layout.world), *_spoken(option, one.wish.says)),
                not_sooner=not_before(one, layout),
                needs=tuple(names[need] for need in _needs(one, others, layout)),
                moves=moves_of(one, layout, names),
                heavy=one.wish.heavy,
                weight=one.wish.worth,
                share=one.wish.share,
                manner=one.wish.manner,
                taken=one.taken,
                cautions=cautions,
                asks=asks,
            )
        )
        out += [item for item in (later_item(one, then, names[one], layout.world) for then in one.later) if item]
    return tuple(sorted(out, key=lambda item: (item.opens, item.closes, item.id)))


def _names(chosen: Sequence[Candidate]) -> dict[Candidate, str]:
    """An id for each: its wish and the month that it begins in, numbered where that is not enough."""
    out: dict[Candidate, str] = {}
    used: dict[str, int] = {}
    for one in chosen:
        name = f"{one.wish.id}-{one.opens:%Y-%m}"
        used[name] = used.get(name, 0) + 1
        out[one] = name if used[name] == 1 else f"{name}-{used[name]}"
    return out


def wish_reason(one: Candidate) -> Reason:
    """The wish's own sentence."""
    wish = one.wish
    return Reason(wish.id, wish.says, wish.source, wish.mark, wish.worth, wish.yours, wish.where)


def season_reason(one: Candidate, world: World) -> Reason:
    """Why these days: the stage or time that they are known by, and from what that is taken."""
    name = one.stage.replace("-", " ")
    if one.stage == "any":
        return Reason("season", "It is bound to no season.", None, "practice")
    guess = seasons.guess_stage(world.traits, world.place, one.opens, world.book.seasons)
    if guess is not None and world.almanac(one.opens).implied(guess.stage, one.stage):
        since = f", usual from {guess.since.day} {guess.since:%B}" if guess.since else ""
        return Reason("season", f"Its time: {name}{since}.", None, "practice")
    return Reason("season", f"Its time: {name}, by this place's dates.", None, "practice")


def _weighed(one: Candidate, world: World) -> tuple[Option, tuple[Caution, ...], tuple[Ask, ...]]:
    """What advice would say of the work on its first day: reasons, cautions, and what it would ask."""
    almanac: Almanac = world.almanac(one.opens)
    matcher = Matcher(world.book, world.facts(one.opens), almanac)
    weighed = weigh(one.target, matcher)
    cautions = cautions_for([weighed], matcher.facts, world.book, matcher.almanac)
    return weighed.option, cautions, choose_asks([weighed], world.book)


def _spoken(option: Option, said: str) -> tuple[Reason, ...]:
    """The weightiest that the rule base says for it, and that the wish has not said in other words."""
    told = sorted((reason for reason in option.because if reason.weight > 0), key=lambda reason: -reason.weight)
    told = [reason for reason in told if not _alike(reason.says, said)]
    return tuple(replace(reason, rests_on=()) for reason in told[:_MOST_REASONS])


def _alike(one: str, other: str) -> bool:
    """Whether most words that say something in the shorter of two sentences stand in the other as well."""
    words = [{word.strip(".,:;") for word in text.lower().split()} for text in (one, other)]
    few, many = sorted(({word for word in row if len(word) > _LITTLE} for row in words), key=len)
    return bool(few) and len(few & many) >= _SHARED * len(few)


def not_before(one: Candidate, layout: Layout) -> tuple[Reason, ...]:
    """Why it does not stand sooner: what stands against the last chance before it."""
    others = [other for other in layout.chosen if other is not one]
    sooner = [c for c in layout.candidates if c.key == one.key and c.closes < one.opens and c not in others]
    for chance in reversed(sooner):
        found = next(layout.judge.breaks(chance, [o for o in others if o.opens <= chance.closes]), None)
        if found is not None:
            # that it was done in the season before is no news, but for serious work
            usual = found.kind in ("per-season", "spacing") and not one.wish.heavy
            return () if usual else (layout.judge.told(found),)
    row = next(row for row in layout.every if (row.wish.id, row.spot) == one.key)
    shut = [closed for closed in row.closed if closed.closes < one.opens and closed.against]
    return shut[-1].against[:1] if shut else ()


def _needs(one: Candidate, others: Sequence[Candidate], layout: Layout) -> list[Candidate]:
    """What must be done before it: the last work that leads to it as it wants, the look that it waits for."""
    before = [other for other in others if other.closes < one.opens]
    out: list[Candidate] = []
    for after in one.wish.after:
        found = leads(after, one, before, layout.judge)
        if isinstance(found, list) and found:
            out.append(found[-1])
    if one.hoped and not one.wish.gentle:
        out += [other for other in before if other.wish.looks][-1:]
    return list(dict.fromkeys(out))


def later_item(one: Candidate, then: Later, parent: str, world: World) -> Item | None:
    """A work that follows, on the first of its days on which no rule stands against it."""
    days = [then.opens, *(day for day in turning_days(then.work, world) if then.opens < day <= then.closes)]
    target = Target(then.work, then.spot)
    open_days: tuple[dt.date, dt.date] | None = None
    for first, after in zip(days, [*days[1:], then.closes + _DAY], strict=True):
        if verdict_on(target, first, world).open:
            open_days = (open_days[0] if open_days else first, after - _DAY)
        elif open_days:
            break
    if open_days is None:
        return None
    wish = one.wish
    return Item(
        id=f"{parent}-{then.work}",
        wish=wish.id,
        work=then.work,
        opens=open_days[0].isoformat(),
        closes=open_days[1].isoformat(),
        stage="",
        aim=f"what follows: {wish.aim}",
        spot=then.spot,
        why=(Reason(wish.id, then.says, wish.source, wish.mark, 0, wish.yours),),
        needs=(parent,),
        weight=max(1, wish.worth // 3),
        taken=world.step(then.opens).taken,
    )
