"""Questions that are weighed or reckoned: advice on a work, why, what if, figures."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Fact, Reading
from benchmate.practice import advise as weigh_options
from benchmate.practice import gather
from benchmate.practice.advice import Advice, Ask, FigureTold
from benchmate.practice.facts import Facts
from benchmate.talk.asked.known_answers import KNOWN, known_lines
from benchmate.talk.asked.now_or_later import at_its_time
from benchmate.talk.dates import first_day
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.heard import fact_words
from benchmate.telling.wording import list_words, sentence
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_BEFORE_DAYS = 365  # work this long before may be behind a weakness
_STATE = ("health", "stage", "flush", "finding")  # what a tree's state is told by


def facts_of(turn: Turn, reading: Reading, tree: Tree | None, on: dt.date | None = None) -> Facts:
    """What is known of the tree meant: from the statement, the talk, the record, the season."""
    house = turn.house
    # what this statement takes back does not count, though it is not on the disk yet
    struck = [entry for of, entries in turn.to_log for entry in entries if tree and of.folder == tree.folder]
    entries = (*house.entries(tree), *struck)
    if turn.reading.topic != "what-if":  # "what if it were a pine" is of another tree than the one at hand
        reading = _of_its_species(reading, tree)
    return gather(reading, tree, entries, house.place, on or turn.on, house.book, turn.facts)


def _of_its_species(reading: Reading, tree: Tree | None) -> Reading:
    """The reading with the tree's own species where its genus is said ("the pine" of a Scots pine)."""
    own = str(tree.species) if tree and tree.species else ""
    facts = tuple(
        replace(fact, value=own) if fact.kind == "species" and own.startswith(f"{fact.value} ") else fact
        for fact in reading.facts
    )
    return replace(reading, facts=facts)


def day_meant(turn: Turn) -> dt.date:
    """The day on which the work would be done: a later one where it is meant or asked about for a day that was said."""
    reading = turn.reading
    works = [work for work in reading.work if work.work]
    asked = reading.topic == "may" and "ask" in reading.acts
    if season := season_asked(turn):
        return season
    if not works or not reading.when or not (asked or all(work.done == "later" for work in works)):
        return turn.on
    if any(fact.kind in ("stage", "flush", "weather") for fact in reading.facts):
        return turn.on
    return max(turn.on, first_day(reading.when, turn.southern) or turn.on)


def season_asked(turn: Turn) -> dt.date | None:
    """The first day of the time to come for which it is asked what is to be done ("what should I do in winter")."""
    reading = turn.reading
    if reading.topic != "advice" or "ask" not in reading.acts or reading.work or not reading.when:
        return None
    day = first_day(reading.when, turn.southern)
    return day if day and day > turn.on else None


def advise(turn: Turn) -> None:
    """Advice on what was seen, done or asked, beside what the grower planned or decided of it."""
    from benchmate.talk.corrected.when_undone import look_ahead
    from benchmate.talk.recorded import own_words as own
    from benchmate.talk.told.told_beside import beside

    reading = turn.reading
    if reading.topic == "why" and _own_reason(turn):
        return
    if reading.topic == "why" and turn.tree and not reading.work and _why_so(turn, turn.tree):
        return
    if reading.topic == "what-if":
        _what_if(turn)
        return
    if reading.topic == "why" and not reading.work and not reading.facts:
        _why(turn)
        return
    works = [work.work for work in reading.work if work.work]
    if turn.tree and reading.topic in ("may", "when"):
        if reading.topic == "when" and set(works) == {"check"}:
            turn.says += own.next_checks(turn.house, turn.tree, reading.work[0].spot.part, turn.on, look_ahead(turn))
            return
        turn.own = [one.words for one in own.own_words(turn.house, turn.tree, works, turn.on) if one.stands]
        if reading.topic == "when" and not turn.own:
            turn.aside += own.asked_again(turn.house, turn.tree, works, turn.on)
    turn.advice = beside(turn, bite_checked(turn, _with_figure(turn, weighed(turn, reading))))
    if turn.tree and asks_how_it_is(turn):
        turn.says += state_words(turn, turn.tree)
    if season := season_asked(turn):
        turn.aside.append(f"answered for {day_words(season, turn.on)}, by what is known of the tree today")


def _own_reason(turn: Turn) -> bool:
    """Answer why the grower did something himself; False where that is not what is asked."""
    from benchmate.talk.recorded.why_done import asks_why_done, why_done

    if not asks_why_done(turn):
        return False
    turn.says += why_done(turn)
    return True


def _why_so(turn: Turn, tree: Tree) -> bool:
    """ "Why is Sprint weak": when that was seen, and the work of the year before, which may be behind it. False where
    the record holds nothing of the state that is asked about."""
    from benchmate.talk.recorded.states_asked import states_asked
    from benchmate.telling.story import entry_words, matching

    asked = [fact for fact in states_asked(turn.reading) if fact.kind == "health"]
    entries = turn.house.entries(tree)
    seen = [
        entry
        for entry in matching(entries, kinds=("seen", "done"), end=turn.on)
        if any(table.get("value") == fact.value and not table.get("not") for fact in asked for table in entry.facts)
    ]
    if not asked:
        return False
    units = turn.house.place.units
    day = max((entry.day for entry in seen), default=None)
    turn.says += [f"Seen on {day_words(day, turn.on)}" if day else "The record does not tell when that was first seen"]
    start = (day or turn.on) - dt.timedelta(days=_BEFORE_DAYS)
    heavy = [work for work, cell in turn.house.book.works.items() if cell.get("takes") in ("root", "foliage")]
    before = [
        entry
        for entry in matching(entries, kinds=("done",), start=start, end=day or turn.on)
        if any(table.get("work") in heavy for table in entry.work)
    ]
    told = [f"{day_words(entry.day, turn.on)}: {entry_words(entry, entry.day, units)}" for entry in before[-3:]]
    turn.says += ["What was taken from it in the year before:", *told] if told else ["No heavy work stands before it"]
    turn.advice = weighed(turn, replace(turn.reading, topic="advice"))
    return True


def asks_how_it_is(turn: Turn) -> bool:
    """ "How is the hornbeam": its state is asked for first, and what is best now only beside."""
    reading, lexicon = turn.reading, turn.house.lexicon
    plain = not reading.work and not reading.missed and all(fact.kind == "species" for fact in reading.facts)
    asked = reading.topic == "advice" and "ask" in reading.acts and not reading.when
    return plain and asked and " ".join(lexicon.split(reading.said)[:2]) in lexicon.sense["after"]["state"]


def state_words(turn: Turn, tree: Tree) -> list[str]:
    """What is known of the tree's state today, with the day on which it was seen, and what is due on it."""
    facts = facts_of(turn, turn.reading, tree)
    told: dict[str, str] = {}
    for one in (known for kind in _STATE for known in facts.of(kind) if not known.denied):
        words = fact_words(Fact(one.kind, one.value, one.spot), turn.on)
        seen = day_of(one.on) if one.on else None
        told.setdefault(words, f"{words} (seen on {day_words(seen, turn.on)})" if seen else words)
    state = list_words(list(told.values())) or "the record tells nothing of its state"
    return [f"{tree.name}: {state}", *turn.house.due_on(tree, turn.on)]


def answer(turn: Turn) -> None:
    """An answer that is no advice."""
    from benchmate.talk.recorded import record_questions

    if turn.reading.topic == "figure":
        _figure(turn)
    elif turn.reading.topic == KNOWN:
        turn.says += known_lines(turn.house, turn.reading, turn.tree, turn.on)
    else:
        record_questions.answer(turn)


def _figure(turn: Turn) -> None:
    facts = facts_of(turn, turn.reading, turn.tree)
    told, asks = _possible(turn, turn.reading, facts)
    turn.asks += asks
    advice = weigh_options(replace(turn.reading, work=()), facts, turn.house.book, turn.house.place, turn.on)
    cautions = tuple(caution for caution in advice.cautions if caution.kind == "person")
    left = advice.dose_left if turn.reading.figure == "leaf-share" else None
    on, figures = turn.on.isoformat(), (told,) if told else ()
    turn.advice = Advice(turn.reading, facts.tree, on, cautions=cautions, figures=figures, dose_left=left)


def _possible(turn: Turn, reading: Reading, facts: Facts) -> tuple[FigureTold | None, tuple[Ask, ...]]:
    """The same, where measures that cannot be are told and what else was said stands. A lone question is refused whole:
    raises CannotBe."""
    from benchmate.talk.sums.asked import CannotBe

    try:
        return _reckoned(turn, reading, facts)
    except CannotBe as error:
        if not turn.bench.talking and set(turn.acts) == {"ask"} and "ask" in reading.acts:
            raise
        turn.says.append(sentence(str(error)))
        return None, ()


def _reckoned(turn: Turn, reading: Reading, facts: Facts) -> tuple[FigureTold | None, tuple[Ask, ...]]:
    """The figure of a reading, or what must be known first."""
    from benchmate.practice.budget import foliage_taken
    from benchmate.talk.sums.asked import figure_told
    from benchmate.talk.sums.record import leaf_left

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
    from benchmate.talk.sums.words import sized_work

    if turn.reading.topic not in ("may", "when") or not (asked := sized_work(turn.reading, turn.house.ear, turn.on)):
        return advice
    told, _ = _possible(turn, asked, facts_of(turn, turn.reading, turn.tree))
    return replace(advice, figures=(*advice.figures, told)) if told else advice


def bite_checked(turn: Turn, advice: Advice) -> Advice:
    """Advice whose first look at the wire comes when it may bite, where the tree's own growth or gap tells that."""
    if not any(option.work == "wire" for option in advice.options):
        return advice
    from benchmate.talk.sums.asked import known_values
    from benchmate.talk.sums.follow import bite_checks, branch_growth

    house, reading = turn.house, turn.reading
    entries = house.entries(turn.tree)

    def known() -> dict[str, Any]:
        plain = replace(reading, said="", measures={}, figure="bite-date")
        facts = facts_of(turn, reading, turn.tree)
        return known_values(plain, house.figure_tables, facts, house.place, turn.on, ear=house.ear, tree=turn.tree)

    growth = branch_growth(entries, turn.on, house.book.places)
    return bite_checks(advice, reading, known, house.figure_tables, growth)


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
    if turn.reading.work and not _supposes(turn):
        turn.advice = weighed(turn, now)
        return
    was = weighed(turn, replace(asked, work=now.work))
    changed = what_if(was, weighed(turn, now))
    turn.advice = changed.advice
    told = {one.id: {"short": one.short or one.says} for one in (*was.cautions, *changed.advice.cautions)}
    missed = [one.words for one in turn.reading.missed]
    turn.says += change_words(changed, turn.on, {**told, **house.book.cautions}, missed)


def _supposes(turn: Turn) -> bool:
    """Whether facts are supposed: the tree's own kind, named beside the work, is none ("if I wire the juniper")."""
    own = str(turn.tree.species) if turn.tree and turn.tree.species else ""
    kinds = [fact for fact in turn.reading.facts if fact.kind == "species" and not fact.denied]
    return any(fact not in kinds or not own.startswith(str(fact.value)) for fact in turn.reading.facts)


def weighed(turn: Turn, reading: Reading) -> Advice:
    """The advice on a reading, for the day on which its work would be done."""
    house, on, reading = turn.house, day_meant(turn), at_its_time(reading, turn.house.lexicon)
    return weigh_options(reading, facts_of(turn, reading, turn.tree, on), house.book, house.place, on)
