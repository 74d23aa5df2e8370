"""Whose turn it is: the trees on which work is planned or called for in a time to come, out of record and kind."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Reading, Work
from benchmate.practice.advice import GO, HOLD, Option
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.dates import first_day, last_day
from benchmate.telling.dates import day_of, day_words, within_words
from benchmate.telling.story import matching
from benchmate.telling.wording import list_words, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

MOST_TREES = 40  # plans laid for one question
_YEAR = 365
_NEED = "need"


def time_asked(reading: Reading, turn: Turn) -> tuple[dt.date, dt.date] | None:
    """The days to come in which it is asked whose turn some work is, or None where the question is of the past."""
    works = [work for work in reading.work if work.work and not work.denied]
    if reading.topic != "list" or not works or reading.onward:
        return None
    needing = _needing(reading, turn)
    if reading.when is None:
        yearly = {work.work for work in works} <= set(turn.house.book.group("roots"))
        return (turn.on, turn.on + dt.timedelta(days=_YEAR)) if needing and yearly else None
    first, last = first_day(reading.when, turn.southern), last_day(reading.when, turn.southern)
    if first is None or last is None or last <= turn.on:
        return None
    return (max(first, turn.on), last) if first > turn.on or needing else None


def meant_ahead(reading: Reading, turn: Turn) -> Reading:
    """ "Which trees should I repot in spring", said in autumn, is of the spring to come: the time that was taken for
    the past one, a year later."""
    last = last_day(reading.when, turn.southern) if reading.when else None
    texts = turn.house.lexicon.split(reading.said)
    past = any(word.isdecimal() or word in turn.house.lexicon.dates["words"]["last"] for word in texts)
    if reading.topic != "list" or last is None or last >= turn.on or past or not _needing(reading, turn):
        return reading
    year, _, rest = str(reading.when).partition("-")
    if not rest or "-" in rest:  # a whole year or a day
        return reading
    return replace(reading, when=f"{int(year) + 1}-{rest}")


def whose_turn(turn: Turn, reading: Reading, trees: Sequence[Tree], span: tuple[dt.date, dt.date]) -> list[str]:
    """The trees whose turn it is within the span, a line each with the days and when it was done last."""
    from benchmate.talk.asked.plans import days_for
    from benchmate.telling.plan import span_words

    works = list(dict.fromkeys(str(work.work) for work in reading.work if work.work and not work.denied))
    what = list_words([work_words(work) for work in works])
    when = f" {within_words(reading.when, turn.on)}" if reading.when else ""
    if len(trees) > MOST_TREES:
        return [f"That is laid out for {MOST_TREES} trees at most at once; name a kind, as in: {what}, the maples"]
    first, last = span
    years = min(max(1, -(-(span[1] - turn.on).days // _YEAR)), 10)
    by_roots = set(works) <= set(turn.house.book.group("roots"))
    found: list[tuple[str, str, str]] = []
    for tree in trees:
        done = _days_done(turn, tree, works)
        days = None
        if done or not by_roots:
            laid = days_for(works, turn.house, tree, turn.on, years)
            days = next((one for one in laid if one[0] <= last and one[1] >= first), None)
            if days is None:
                continue
        # roots may be worked in the weeks that the answer for the one tree names, whatever day a plan puts it on
        window = _window(turn, tree, works, span) if by_roots else None
        if window is None and days is not None:
            window = (days[0].isoformat(), span_words(*days))
        if window is not None:
            found.append((window[0], tree.name, f"{window[1]}; {_last_done(turn, done)}"))
    if by_roots:
        found.sort(key=lambda one: one[0])
    told = [(name, words) for _, name, words in found]
    if not told:
        return [f"No tree here has its turn{when}: {what}"]
    count = "1 tree has its turn" if len(told) == 1 else f"{len(told)} trees have their turn"
    head = f"{count}{when} ({what}): {list_words([name for name, _ in told])}"
    return [head, *(f"{name}: {words}" for name, words in told)]


def _days_done(turn: Turn, tree: Tree, works: Sequence[str]) -> list[dt.date]:
    entries = turn.house.entries(tree)
    return [entry.day for work in works for entry in matching(entries, work=work, kinds=("done",))]


def _last_done(turn: Turn, days: Sequence[dt.date]) -> str:
    return f"last on {day_words(max(days), turn.on)}" if days else "never yet on record"


def _window(turn: Turn, tree: Tree, works: Sequence[str], span: tuple[dt.date, dt.date]) -> tuple[str, str] | None:
    """(first day, told) of the weeks within the span in which the work may be done, by the same weighing as for one
    tree that is asked about; None where it may not."""
    first, last = span
    for on in dict.fromkeys((turn.on, first)):  # as asked of the tree today; of a later year as it will be then
        option = _weighed_on(turn, tree, works, on)
        if option is None:
            continue
        closes = day_of(option.closes)
        opens = on if option.verdict == GO else day_of(option.opens)
        if opens and opens > last:
            return None
        if opens is None or (closes and closes < first):
            continue
        begins = "now" if opens == turn.on else f"from {day_words(opens, turn.on)}"
        until = "until" if opens == turn.on else "to"
        return opens.isoformat(), begins + (f" {until} {day_words(closes, turn.on)}" if closes else "")
    return None


def _weighed_on(turn: Turn, tree: Tree, works: Sequence[str], on: dt.date) -> Option | None:
    """What the weighing of a day says of the works, where they may be done then or later."""
    from benchmate.practice import advise, gather

    house = turn.house
    reading = Reading(turn.reading.said, ("ask",), "when", work=tuple(Work(work) for work in works))
    facts = gather(reading, tree, house.entries(tree), house.place, on, house.book, ())
    weighed = advise(reading, facts, house.book, house.place, on)
    return next((one for one in weighed.options if one.work in works and one.verdict in (GO, HOLD)), None)


def _needing(reading: Reading, turn: Turn) -> bool:
    """Whether it is asked what is needed or due ("which trees need repotting"), not what was done."""
    texts = turn.house.lexicon.split(reading.said)
    asks = set(turn.house.lexicon.sense["needing"])
    needs = any(value == _NEED for _, _, value in phrase_places(texts, "AUX", turn.house.lexicon))
    return needs or bool(asks & set(texts))
