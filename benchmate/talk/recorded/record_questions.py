"""Questions to the record and the garden by their topic: what was done, what is due, plans, words, which trees."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.talk.asked.asked_how import asks_for_all, asks_for_written, points_at_one, with_days
from benchmate.talk.dates import last_day, span_asked
from benchmate.talk.decide import entries_of
from benchmate.talk.recorded.as_recorded import RECORDED, tell
from benchmate.talk.recorded.own_words import own_words, planned_words
from benchmate.talk.recorded.states_asked import NOTHING_SEEN, states_asked, told_states
from benchmate.talk.trees.which_tree import is_of, species_said
from benchmate.telling.dates import day_words
from benchmate.telling.story import entry_words, matching
from benchmate.telling.wording import list_words, small
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.house import House
    from benchmate.talk.turns import Turn

DUE_DAYS = 14
SHORT_DAYS = 14  # what was done in so few days is asked of all trees where none is named


def answer(turn: Turn) -> None:
    """The answer by the question's topic; none for a topic that is not of the record."""
    topics = {
        "recall": _recall,
        "due": _due,
        "meaning": _meaning,
        "list": _list,
        "plan": _plan,
        "kind": _kind,
        RECORDED: _recorded,
    }
    if handler := topics.get(turn.reading.topic or ""):
        handler(turn)


def _recall(turn: Turn) -> None:
    from benchmate.talk.recorded.recall import recall
    from benchmate.talk.recorded.recall_many import MANY, newest_of
    from benchmate.talk.recorded.why_done import about_part, part_asked

    house, lexicon = turn.house, turn.house.lexicon
    reading = with_days(turn.reading, turn.on, lexicon)
    works = [work.work for work in reading.work if work.work]
    trees = list(house.trees()) if _of_all_trees(turn, reading) else _trees_asked(turn)
    everywhere = tuple(trees)
    if not trees:
        turn.says.append("No tree of this garden is meant, and the record holds nothing else")
        return
    if (asked := states_asked(reading)) and (len(trees) == 1 or turn.among):
        for tree in trees:
            told = told_states(asked, house.entries(tree), turn.on, house.place.units)
            turn.says += [f"{tree.name}: {small(words)}" for words in told] if turn.among else told
            if not turn.among and turn.before.facts and told and all(one.startswith(NOTHING_SEEN) for one in told):
                _as_it_stands(turn)
        turn.asks.clear()
        return
    counts: Mapping[str, int] = {}
    if house.garden and len(trees) > MANY:
        journals, counts = newest_of(reading, house.garden, trees, turn.on, turn.southern)
    else:
        if len(trees) > 1:
            trees = house.with_work(trees, works) or trees[:1]
        journals = {tree.name: house.entries(tree) for tree in trees}
    whole = asks_for_all(reading.said, lexicon)
    about = part_asked(reading, lexicon) if whole and not counts else None
    if about:
        journals = {name: about_part(entries, about, house) for name, entries in journals.items()}
    units, many = house.place.units, len(trees) > 1
    if not many:
        reading = _any_such(reading, house, journals[trees[0].name], turn.on)
    told = list(
        recall(
            reading, journals, turn.on, southern=turn.southern, units=units, counts=counts, several=many, about=about
        )
    )
    own = own_words(house, trees[0], works, turn.on) if len(trees) == 1 else []
    # asked what was decided, that is the answer; asked when it was last done, what is planned stands beside
    said = [one.words for one in own if whole or one.stands]
    turn.says += [*said, *told] if whole else [*told, *said]
    turn.says += _written_of_before(turn, reading, everywhere) if asks_for_written(reading.said, lexicon) else []
    turn.asks.clear()


def _recorded(turn: Turn) -> None:
    tell(turn, _trees_asked(turn))


def _as_it_stands(turn: Turn) -> None:
    """What is best by what was told in this talk, where the record holds nothing of the state that is asked about."""
    from benchmate.talk.asked.questions import advise

    asked = turn.reading
    turn.reading = replace(asked, topic="advice", facts=tuple(f for f in asked.facts if f.kind == "species"), when=None)
    advise(turn)
    turn.reading = asked


def _written_of_before(turn: Turn, reading: Reading, trees: Sequence[Tree]) -> list[str]:
    """What this talk put down today of days outside the time that is asked about: a line each."""
    span = span_asked(reading, turn.on, turn.southern)
    if span is None or not span[0] <= turn.on <= span[1]:
        return []
    units = turn.house.place.units
    return [
        f"Put down today, {tree.name}, of {day_words(entry.day)}: {entry_words(entry, entry.day, units)}"
        for tree in trees
        for entry in (turn.house.lately_standing(tree) if turn.bench.written else ())
        if entry.id in turn.bench.written and not span[0] <= entry.day <= span[1]
    ]


def _any_such(reading: Reading, house: House, entries: Sequence[Entry], on: dt.date) -> Reading:
    """ "What did I take off it": work that is always on one thing, said of none, asks for every work of its group."""
    book = house.book
    if len(reading.work) != 1 or reading.work[0].spot != NOWHERE:
        return reading
    work = reading.work[0].work or ""
    if work not in book.places.get("needs_object", ()):
        return reading
    start, end = span_asked(reading, on, house.place.southern) or (None, on)
    found = matching(entries, kinds=("done",), start=start, end=end)
    group = book.group(str(book.works.get(work, {}).get("group")))
    done = list(dict.fromkeys(str(table.get("work")) for entry in found for table in entry.work))
    works = [name for name in done if name in group]
    return replace(reading, work=tuple(Work(name) for name in works)) if works else reading


def _of_all_trees(turn: Turn, reading: Reading) -> bool:
    """Whether what was done on a day or in a week is asked of the whole bench, and of no tree."""
    span = span_asked(reading, turn.on, turn.southern)
    short = span is not None and not reading.onward and (span[1] - span[0]).days <= SHORT_DAYS
    named = turn.among or reading.tree or species_said(reading) or reading.work
    return short and not named and not points_at_one(reading.said, turn.house.lexicon)


def _trees_asked(turn: Turn) -> list[Tree]:
    """The tree that is meant, or the several, else those of the species named, else all."""
    if turn.tree or turn.among:
        return [turn.tree] if turn.tree else list(turn.among)
    taxon = species_said(turn.reading)
    trees = list(turn.house.trees())
    return [tree for tree in trees if is_of(tree, taxon)] if taxon else trees


def _due(turn: Turn) -> None:
    from benchmate.telling.due import due_words, without_long_past

    if turn.house.garden is None:
        turn.says.append("Nothing can be due: no garden is open")
        return
    from benchmate.garden import due

    asked_to = last_day(turn.reading.ahead, turn.house.place.southern) if turn.reading.ahead else None
    days = max((asked_to - turn.on).days, 0) if asked_to else DUE_DAYS
    groups = due(turn.house.garden, turn.on, days)
    of_one = turn.tree is not None and points_at_one(turn.reading.said, turn.house.lexicon)  # "left to do on it"
    if turn.among or turn.reading.tree or species_said(turn.reading) or of_one:
        asked = {tree.folder for tree in _trees_asked(turn)}
        groups = tuple(group for group in groups if group.tree.folder in asked)
    turn.says += due_words(groups, turn.on, days)
    turn.found += [group.as_json() for group in groups]
    told = ((group.tree.name, item.follow) for group in without_long_past(groups)[0] for item in group.items)
    turn.due = tuple((name, Work(one.work, Spot(one.part, one.side, one.level))) for name, one in told)


def _meaning(turn: Turn) -> None:
    from benchmate.talk.asked.meaning import meaning_of

    turn.says += meaning_of(turn.reading.term or turn.reading.said, turn.house)


def _kind(turn: Turn) -> None:
    from benchmate.talk.asked.kinds_told import tell_kind

    tell_kind(turn)


def _list(turn: Turn) -> None:
    from benchmate.talk.recorded.listing import trees_where
    from benchmate.talk.recorded.whose_turn import meant_ahead, time_asked, whose_turn

    names = [tree.name for tree in turn.house.trees()]
    if not names:
        turn.says.append("There are no trees in this garden yet" if turn.house.garden else "No garden is open")
        return
    turn.reading = meant_ahead(turn.reading, turn)
    if span := time_asked(turn.reading, turn):
        turn.says += whose_turn(turn, turn.reading, turn.among or _of_kind(turn), span)
        turn.asks.clear()
        return
    found = trees_where(with_days(turn.reading, turn.on, turn.house.lexicon), turn.house, turn.on, turn.among)
    turn.says += [*found.says, *_due_beside(turn)]
    turn.found += found.rows
    turn.asks.clear()


def _of_kind(turn: Turn) -> list[Tree]:
    """The trees of the kind that the question names, else all."""
    kind = species_said(turn.reading)
    return [tree for tree in turn.house.trees() if kind is None or is_of(tree, kind)]


def _due_beside(turn: Turn) -> list[str]:
    """On which trees the works that were named are due: "which need feeding" wants these, not where it was done."""
    works = {work.work for work in turn.reading.work if work.work and not work.denied}
    if not works or turn.reading.when or turn.house.garden is None:
        return []
    from benchmate.garden import due
    from benchmate.telling.due import without_long_past

    groups, _ = without_long_past(due(turn.house.garden, turn.on, DUE_DAYS))
    names = [group.tree.name for group in groups if any(item.follow.work in works for item in group.items)]
    return [f"Due on {list_words(names)}"] if names else []


def _plan(turn: Turn) -> None:
    """What the grower said would be done, and works laid out over the coming seasons."""
    from benchmate.talk.asked.meant import meant_by_grower, meant_lines
    from benchmate.talk.asked.plans import plan_for, years_asked
    from benchmate.telling.plan import plan_words

    if turn.tree is None:
        turn.says += _planned_on_all(turn)
        if not turn.asks and turn.meant.ask:
            turn.asks.append(turn.meant.ask)
        if not turn.asks:
            turn.says.append("A plan is laid for a tree of the garden; name one, as in: plan Gatepost")
        return
    told: tuple[Entry, ...] = ()
    if "observe" in turn.acts:  # "plan Copper, it is grown for structure": what is told beside the question counts
        seen = replace(turn.reading, acts=("observe",), topic=None, work=())
        told = entries_of(seen, None, turn.on, southern=turn.southern)
    plan = plan_for(turn.house, turn.tree, turn.on, years_asked(turn.reading, turn.house, turn.on), told).plan
    # what the grower planned himself is the answer, and stands once more, in his own words, below what is laid out
    turn.says += [*planned_words(turn.house, turn.tree, turn.on)[:1], *plan_words(plan, units=turn.house.place.units)]
    turn.lines += meant_lines(
        meant_by_grower(turn.house, turn.tree, turn.on), turn.on, {item.work for item in plan.items}
    )
    turn.found.append(plan.as_json())


def _planned_on_all(turn: Turn) -> list[str]:
    """What the grower said would be done, on every tree, where none is at hand to lay a plan for."""
    trees = turn.house.trees() if not species_said(turn.reading) and not turn.reading.tree else ()
    told = [f"{tree.name}: {small(words)}" for tree in trees for words in planned_words(turn.house, tree, turn.on)]
    return [f"You planned {'1 thing' if len(told) == 1 else f'{len(told)} things'}", *told] if told else []
