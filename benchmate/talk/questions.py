"""Questions by their topic: advice, the record, what is due, figures, words, the trees of the garden."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Reading
from benchmate.practice import advise as weigh_options
from benchmate.practice import gather
from benchmate.practice.advice import Advice, Ask, FigureTold
from benchmate.practice.facts import Facts
from benchmate.talk.dates import first_day, last_day
from benchmate.talk.which_tree import is_of, species_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

DUE_DAYS = 14


def facts_of(turn: Turn, reading: Reading, tree: Tree | None, on: dt.date | None = None) -> Facts:
    """What is known of the tree meant: from the statement, the talk, the record, the season."""
    house = turn.house
    # what this statement takes back does not count, though it is not on the disk yet
    struck = [entry for of, entries in turn.to_log for entry in entries if tree and of.folder == tree.folder]
    entries = (*house.entries(tree), *struck)
    return gather(reading, tree, entries, house.place, on or turn.on, house.book, turn.facts)


def day_meant(turn: Turn) -> dt.date:
    """The day on which the work would be done: a later one where it is meant or asked about for a day that was said."""
    reading = turn.reading
    works = [work for work in reading.work if work.work]
    asked = reading.topic == "may" and "ask" in reading.acts
    if not works or not reading.when or not (asked or all(work.done == "later" for work in works)):
        return turn.on
    if any(fact.kind in ("stage", "flush", "weather") for fact in reading.facts):
        return turn.on
    return max(turn.on, first_day(reading.when, turn.southern) or turn.on)


def advise(turn: Turn) -> None:
    """Advice on what was seen, done or asked."""
    reading = turn.reading
    if reading.topic == "what-if":
        _what_if(turn)
        return
    if reading.topic == "why" and not reading.work and not reading.facts:
        _why(turn)
        return
    turn.advice = _bite_checks(turn, _with_figure(turn, _weighed(turn, reading)))


def answer(turn: Turn) -> None:
    """An answer that is no advice."""
    topics = {
        "recall": _recall,
        "due": _due,
        "figure": _figure,
        "meaning": _meaning,
        "list": _list,
        "plan": _plan,
    }
    if handler := topics.get(turn.reading.topic or ""):
        handler(turn)


def _recall(turn: Turn) -> None:
    from benchmate.talk.recall import recall
    from benchmate.talk.recall_many import MANY, newest_of

    trees = _trees_asked(turn)
    if not trees:
        turn.says.append("No tree of this garden is meant, and the record holds nothing else")
        return
    counts: Mapping[str, int] = {}
    if turn.house.garden and len(trees) > MANY:
        journals, counts = newest_of(turn.reading, turn.house.garden, trees, turn.on, turn.southern)
    else:
        if len(trees) > 1:
            trees = turn.house.with_work(trees, [work.work for work in turn.reading.work if work.work]) or trees[:1]
        journals = {tree.name: turn.house.entries(tree) for tree in trees}
    units, many = turn.house.place.units, len(trees) > 1
    turn.says += recall(
        turn.reading, journals, turn.on, southern=turn.southern, units=units, counts=counts, several=many
    )
    turn.asks.clear()


def _trees_asked(turn: Turn) -> list[Tree]:
    """The tree that is meant, or the several, else those of the species named, else all."""
    if turn.tree or turn.among:
        return [turn.tree] if turn.tree else list(turn.among)
    taxon = species_said(turn.reading)
    trees = list(turn.house.trees())
    return [tree for tree in trees if is_of(tree, taxon)] if taxon else trees


def _due(turn: Turn) -> None:
    from benchmate.telling.due import due_words

    if turn.house.garden is None:
        turn.says.append("Nothing can be due: no garden is open")
        return
    from benchmate.garden import due

    asked_to = last_day(turn.reading.ahead, turn.house.place.southern) if turn.reading.ahead else None
    days = max((asked_to - turn.on).days, 0) if asked_to else DUE_DAYS
    groups = due(turn.house.garden, turn.on, days)
    if turn.among or turn.reading.tree or species_said(turn.reading):
        asked = {tree.folder for tree in _trees_asked(turn)}
        groups = tuple(group for group in groups if group.tree.folder in asked)
    turn.says += due_words(groups, turn.on, days)
    turn.found += [group.as_json() for group in groups]


def _figure(turn: Turn) -> None:
    facts = facts_of(turn, turn.reading, turn.tree)
    told, asks = _reckoned(turn, turn.reading, facts)
    turn.asks += asks
    advice = weigh_options(replace(turn.reading, work=()), facts, turn.house.book, turn.house.place, turn.on)
    cautions = tuple(caution for caution in advice.cautions if caution.kind == "person")
    figures = (told,) if told else ()
    left = advice.dose_left if turn.reading.figure == "leaf-share" else None
    turn.advice = Advice(
        turn.reading, facts.tree, turn.on.isoformat(), cautions=cautions, figures=figures, dose_left=left
    )


def _reckoned(turn: Turn, reading: Reading, facts: Facts) -> tuple[FigureTold | None, tuple[Ask, ...]]:
    """The figure of a reading, or what must be known first."""
    from benchmate.practice.budget import foliage_taken
    from benchmate.talk.sums import figure_told
    from benchmate.talk.sums_record import leaf_left

    house, spent = turn.house, foliage_taken(facts, turn.house.book)
    return figure_told(
        reading,
        house.figure_tables,
        facts,
        house.place,
        turn.on,
        ear=house.ear,
        tree=turn.tree,
        entries=house.entries(turn.tree),
        taken=(spent,) if spent and reading.figure == "leaf-share" else (),
        leaf_left=leaf_left(facts, spent, house.book, turn.on),
        temperatures=house.temperatures(),
    )


def _with_figure(turn: Turn, advice: Advice) -> Advice:
    """Advice on a question of work whose size was said, with the number that answers it beside."""
    from benchmate.talk.sums_words import sized_work

    if turn.reading.topic not in ("may", "when") or not (asked := sized_work(turn.reading, turn.house.ear, turn.on)):
        return advice
    told, _ = _reckoned(turn, asked, facts_of(turn, turn.reading, turn.tree))
    return replace(advice, figures=(*advice.figures, told)) if told else advice


def _bite_checks(turn: Turn, advice: Advice) -> Advice:
    """Advice whose first look at the wire comes when it may bite, where the tree's own growth or gap tells that."""
    if not any(option.work == "wire" for option in advice.options):
        return advice
    from benchmate.talk.sums import known_values
    from benchmate.talk.sums_follow import bite_checks, branch_growth

    house, reading = turn.house, turn.reading
    entries = house.entries(turn.tree)

    def known() -> dict[str, Any]:
        plain = replace(reading, said="", measures={}, figure="bite-date")
        facts = facts_of(turn, reading, turn.tree)
        return known_values(plain, house.figure_tables, facts, house.place, turn.on, ear=house.ear, tree=turn.tree)

    growth = branch_growth(entries, turn.on, house.book.places)
    return bite_checks(advice, reading, known, house.figure_tables, growth)


def _meaning(turn: Turn) -> None:
    from benchmate.talk.meaning import meaning_of

    turn.says += meaning_of(turn.reading.term or turn.reading.said, turn.house)


def _list(turn: Turn) -> None:
    from benchmate.talk.listing import trees_where

    names = [tree.name for tree in turn.house.trees()]
    if not names:
        turn.says.append("There are no trees in this garden yet" if turn.house.garden else "No garden is open")
        return
    found = trees_where(turn.reading, turn.house, turn.on)
    turn.says += found.says
    turn.found += found.rows
    turn.asks.clear()


def _plan(turn: Turn) -> None:
    """Works over the coming seasons, and what the grower said would be done."""
    from benchmate.talk.meant import meant_by_grower, meant_lines
    from benchmate.talk.plans import plan_for, years_said
    from benchmate.telling.plan import plan_words

    if turn.tree is None:
        if not turn.asks and turn.meant.ask:
            turn.asks.append(turn.meant.ask)
        if not turn.asks:
            turn.says.append("A plan is laid for a tree of the garden; name one, as in: plan Gatepost")
        return
    plan = plan_for(turn.house, turn.tree, turn.on, years_said(turn.reading.series)).plan
    turn.says += plan_words(plan, units=turn.house.place.units)
    turn.lines += meant_lines(meant_by_grower(turn.house, turn.tree), turn.on, {item.work for item in plan.items})
    turn.found.append(plan.as_json())


def _why(turn: Turn) -> None:
    """ "Why?" of what was just advised: the chain from facts and rules to the verdict of the best option."""
    from benchmate.practice.explain import explain
    from benchmate.telling.depth import explanation_lines

    offered = turn.before.weighed
    if offered is None or not offered.options:
        turn.says.append("Nothing was advised before in this talk; ask about a work, as in: why not wire it")
        return
    denied = "not" in turn.reading.said.casefold().split()
    turn.lines += explanation_lines(explain(offered, deny=denied), turn.on, turn.house.book.sources)
    turn.advice = replace(offered, options=(), asks=(), cautions=())


def _what_if(turn: Turn) -> None:
    """The advice as it would be, and what that changes. What is only supposed is not kept as known."""
    from benchmate.practice.what_if import supposed, what_if
    from benchmate.telling.changed import change_words

    house, before = turn.house, turn.before
    asked = before.advice.reading if before.advice else replace(turn.reading, facts=(), topic="may")
    if before.advice is None or (turn.reading.work and before.advice.tree != (turn.tree.name if turn.tree else None)):
        asked = replace(turn.reading, facts=(), topic="may")
    now = supposed(asked, turn.reading)
    if not turn.reading.facts and turn.reading.work:
        turn.advice = _weighed(turn, now)
        return
    was = _weighed(turn, replace(asked, work=now.work))
    changed = what_if(was, _weighed(turn, now))
    turn.advice = changed.advice
    turn.says += change_words(changed, turn.on, house.book.cautions)


def _weighed(turn: Turn, reading: Reading) -> Advice:
    house, on = turn.house, day_meant(turn)
    return weigh_options(reading, facts_of(turn, reading, turn.tree, on), house.book, house.place, on)
