"""Questions by their topic: advice, the record, what is due, figures, words, the trees of the garden."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Reading
from benchmate.practice import advise as weigh_options
from benchmate.practice import gather
from benchmate.practice.advice import Advice
from benchmate.practice.facts import Facts
from benchmate.talk.which_tree import is_of, species_said
from benchmate.telling.wording import list_words

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

DUE_DAYS = 14


def facts_of(turn: Turn, reading: Reading, tree: Tree | None) -> Facts:
    """What is known of the tree meant: from the statement, the talk, the record, the season."""
    house = turn.house
    talk_facts = turn.facts
    return gather(reading, tree, house.entries(tree), house.place, turn.on, house.book, talk_facts)


def advise(turn: Turn) -> None:
    """Advice on what was seen, done or asked."""
    reading, house = turn.reading, turn.house
    if reading.topic == "what-if":
        _what_if(turn)
        return
    if reading.topic == "why" and not reading.work and not reading.facts:
        _why(turn)
        return
    turn.advice = weigh_options(reading, facts_of(turn, reading, turn.tree), house.book, house.place, turn.on)


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

    trees = _trees_asked(turn)
    if not trees:
        turn.says.append("No tree of this garden is meant, and the record holds nothing else")
        return
    journals = {tree.name: turn.house.entries(tree) for tree in trees}
    turn.says += recall(turn.reading, journals, turn.on, southern=turn.southern, units=turn.house.place.units)
    turn.asks.clear()


def _trees_asked(turn: Turn) -> list[Tree]:
    """The tree that is meant, else those of the species named, else all."""
    if turn.tree:
        return [turn.tree]
    taxon = species_said(turn.reading)
    trees = list(turn.house.trees())
    return [tree for tree in trees if is_of(tree, taxon)] if taxon else trees


def _due(turn: Turn) -> None:
    from benchmate.telling.due import due_words

    if turn.house.garden is None:
        turn.says.append("Nothing can be due: no garden is open")
        return
    from benchmate.garden import due

    groups = due(turn.house.garden, turn.on, DUE_DAYS)
    if turn.reading.tree or species_said(turn.reading):
        asked = {tree.folder for tree in _trees_asked(turn)}
        groups = tuple(group for group in groups if group.tree.folder in asked)
    turn.says += due_words(groups, turn.on, DUE_DAYS)
    turn.found += [group.as_json() for group in groups]


def _figure(turn: Turn) -> None:
    from benchmate.practice.budget import foliage_taken
    from benchmate.talk.sums import figure_told

    reading, house, tree = turn.reading, turn.house, turn.tree
    facts = facts_of(turn, reading, tree)
    spent = foliage_taken(facts, house.book) if reading.figure == "leaf-share" else 0.0
    told, asks = figure_told(
        reading,
        house.figure_tables,
        facts,
        house.place,
        turn.on,
        tree=tree,
        entries=house.entries(tree),
        taken=(spent,) if spent else (),
        temperatures=house.temperatures(),
    )
    turn.asks += asks
    advice = weigh_options(replace(reading, work=()), facts, house.book, house.place, turn.on)
    cautions = tuple(caution for caution in advice.cautions if caution.kind == "person")
    turn.advice = Advice(reading, facts.tree, turn.on.isoformat(), cautions=cautions, figures=(told,) if told else ())


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
    try:
        from benchmate.planning import plan_words  # type: ignore[attr-defined]
    except ImportError:
        turn.says.append("No plan can be laid out yet; ask work by work, as in: when can I repot it")
        return
    turn.says += plan_words(turn.tree, turn.house, turn.on)


def _why(turn: Turn) -> None:
    """ "Why?" of what was just advised: every reason of the best option, and what stands against the others."""
    offered = turn.before.advice
    if offered is None or not offered.options:
        turn.says.append("Nothing was advised before in this talk; ask about a work, as in: why not wire it")
        return
    turn.advice = offered
    best = offered.options[0]
    reasons = [reason.says for reason in (*best.because, *best.against)]
    facts = [fact for reason in (*best.because, *best.against) for fact in reason.rests_on]
    turn.says.append(f"Because: {' '.join(reasons[:3])}" if reasons else "No rule speaks for it or against it")
    if facts:
        turn.says.append(f"This rests on: {list_words(list(dict.fromkeys(facts)))}.")


def _what_if(turn: Turn) -> None:
    """The advice as it would be, and what that changes."""
    house, reading, before = turn.house, turn.reading, turn.before
    asked = reading
    if not reading.work and before.advice:
        asked = replace(reading, work=before.advice.reading.work)
    now = replace(asked, facts=())
    was = weigh_options(now, facts_of(turn, now, turn.tree), house.book, house.place, turn.on)
    turn.advice = weigh_options(asked, facts_of(turn, asked, turn.tree), house.book, house.place, turn.on)
    changed = changes(was, turn.advice)
    turn.says += changed or ["Nothing would change"]


def changes(was: Advice, now: Advice) -> list[str]:
    """What differs between two advices, option by option."""
    from benchmate.telling.options import option_words, verdict_words

    def keyed(advice: Advice) -> dict[Any, Any]:
        return {(option.work, option.spot, option.rest): option for option in advice.options}

    old, new = keyed(was), keyed(now)
    said = []
    for key, option in new.items():
        before = old.get(key)
        on = now_day(now)
        words = option_words(option)
        if before is None:
            said.append(f"{words} would come up: {verdict_words(option, on)}")
        elif before.verdict != option.verdict:
            said.append(f"{words} would be {verdict_words(option, on)} instead of {verdict_words(before, on)}")
    said += [f"{option_words(option)} would fall away" for key, option in old.items() if key not in new]
    return said


def now_day(advice: Advice) -> Any:
    """The day of an advice."""
    import datetime as dt

    return dt.date.fromisoformat(advice.on)
