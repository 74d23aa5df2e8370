"""What is told of the past and stands in the record already is not put down a second time."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading, Work
from benchmate.talk.dates import span_of
from benchmate.talk.told.following import near
from benchmate.telling.dates import day_words
from benchmate.telling.story import entry_words, matching, spot_of
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_LONG_PAST = 30  # days behind which work that is told beside something else is told of the past
_AGAIN = 60  # days within which no tree takes the same heavy work twice
_SLACK, _MOST_SLACK = 5, 10  # a day long past is told with an error of a fifth of the time since, ten days at most
_PIECES = re.compile(r"[,.;:?!]")

Span = tuple[dt.date, dt.date]


def on_record(turn: Turn) -> bool:
    """ "It was repotted last spring", where the record tells of it: answered by what it holds. True where all that the
    statement tells is there."""
    _events_once(turn)
    reading = turn.reading
    if reading.told_beside:
        _beside_question(turn)
        return False
    works = [work for work in reading.work if work.work]
    told = "decide" in reading.acts and works and all(work.done == "done" for work in works)
    if not told or turn.tree is None or not reading.when or reading.reason or reading.several or reading.kept:
        return False
    span = span_of(reading.when, turn.southern)
    if span is None or span[0] >= turn.on or turn.gone:
        return False
    seen = any(fact.kind != "species" for fact in reading.facts) or bool(reading.measures)
    more = seen or reading.acts != ("decide",)
    asks = "ask" in reading.acts  # "repotted it in February, what now": what is asked stands apart
    if (more or reading.missed) and not asks and (turn.on - span[1]).days < _LONG_PAST:
        return False
    found = [_entry_of(turn, work, span) for work in works]
    if not all(found):
        return False
    if more:  # "collected it a year ago, it's now pushing buds": what is so today stands
        acts = tuple(act for act in reading.acts if act != "decide")
        turn.reading = replace(reading, acts=acts, work=(), when=None)
        turn.aside += [f"on record already: {day_words(one.day, turn.on)}" for one in found[:1] if one]
        return not acts
    units = turn.house.place.units
    for entry in dict.fromkeys(entry.id for entry in found if entry):
        one = next(other for other in found if other and other.id == entry)
        turn.says.append(f"On record already: {day_words(one.day)}: {entry_words(one, one.day, units)}")
    return True


def _events_once(turn: Turn) -> None:
    """ "It was repotted in February, may I feed it": work of the past that is named with a question is not put down
    where the record tells of it; the question is weighed by that."""
    reading = turn.reading
    if turn.tree is None or turn.gone or "ask" not in reading.acts or "observe" not in reading.acts:
        return
    known = []
    for fact in reading.facts:
        span = span_of(fact.when, turn.southern) if fact.kind == "event" and fact.when and not fact.denied else None
        if span and span[0] < turn.on and _entry_of(turn, Work(str(fact.value), fact.spot, fact.measures), span):
            known.append(fact)
    if not known:
        return
    facts = tuple(fact for fact in reading.facts if fact not in known)
    left = any(fact.kind != "species" for fact in facts) or reading.measures or reading.candidates
    acts = reading.acts if left else tuple(act for act in reading.acts if act != "observe")
    turn.reading = replace(reading, facts=facts, acts=acts)


def _beside_question(turn: Turn) -> None:
    """ "Repotted it in February, may I feed it", where the record tells of the repot: only the question is left, and
    the record is what it is weighed by."""
    reading = turn.reading
    if turn.tree is None or turn.gone or "decide" not in reading.acts:
        return
    when = when_told(turn, reading)
    span = span_of(when, turn.southern) if when else None
    if when and (span is None or span[0] >= turn.on):
        return
    found = [(work, entry) for work in reading.told_beside if (entry := _entry_of(turn, work, span))]
    if not found:
        return
    works = tuple(work for work in reading.work if not any(work is one for one, _ in found))
    rest = replace(reading, work=works)
    decides = any(work.done is not None for work in works)
    acts = tuple(act for act in reading.acts if act != "decide" or decides)
    turn.reading = replace(rest, acts=acts, when=reading.when if decides or reading.when != when else None)
    for entry in {entry.id: entry for _, entry in found}.values():
        words = entry_words(entry, entry.day, turn.house.place.units)
        turn.aside.append(f"on record already: {day_words(entry.day, turn.on)}: {words}")


def when_told(turn: Turn, reading: Reading) -> str | None:
    """When the work that is told beside a question was done: where the question names a day of its own, the day in the
    words of that work."""
    told = reading.told_beside
    if not told or not reading.when:
        return reading.when
    own: set[str] = set()
    others: set[str] = set()
    for piece, at in _pieces(reading.said):
        heard = turn.house.hear(piece, turn.on) if piece.strip() else None
        if heard is not None and heard.when:
            tells = any(at <= work.span[0] < at + len(piece) for work in told)
            asks = any(at <= work.span[0] < at + len(piece) for work in reading.work if work.done is None)
            (others if asks and not tells else own).add(heard.when)
    return next(iter(own)) if len(own) == 1 else None if others and not own else reading.when


def _pieces(said: str) -> list[tuple[str, int]]:
    """The words between stops and commas, each with where it begins."""
    ends = [match.start() for match in _PIECES.finditer(said)]
    begins = [0, *(end + 1 for end in ends)]
    return [(said[first:last], first) for first, last in zip(begins, [*ends, len(said)], strict=True)]


def _entry_of(turn: Turn, work: Work, span: Span | None) -> Entry | None:
    """The newest entry that tells of the work in these days. Without a day that is one of the last weeks, where the
    work is so heavy that no tree takes it twice in them."""
    cell = turn.house.book.works.get(str(work.work), {})
    heavy = cell.get("heavy") or set(cell.get("heavy_when", ())) & set(work.manner)
    if span is None:
        if not heavy:
            return None
        span = (turn.on - dt.timedelta(days=_AGAIN), turn.on)
    elif heavy and span[0] == span[1]:
        slack = dt.timedelta(days=min(_MOST_SLACK, (turn.on - span[1]).days // _SLACK))
        span = (span[0] - slack, span[1] + slack)
    entries = matching(turn.house.entries(turn.tree), kinds=("done",), end=turn.on)
    return next((entry for entry in reversed(entries) if _meets(entry, span, turn) and _holds(entry, work)), None)


def _meets(entry: Entry, span: Span, turn: Turn) -> bool:
    """Whether the entry is of these days: where it was told of a month or a season, any day of that."""
    told = span_of(entry.when, turn.southern) if entry.when else None
    first, last = told if told and told[0] <= entry.day else (entry.day, entry.day)
    return first <= span[1] and span[0] <= last


def _holds(entry: Entry, work: Work) -> bool:
    """Whether the entry tells of this very work, with nothing that the statement adds."""
    return any(
        table.get("work") == work.work
        and near(spot_of(table), work.spot)
        and all(table.get(name) == value for name, value in work.measures.items())
        and set(work.manner) <= set(table.get("manner", ()))
        and all(spot_of(table).as_json().get(key) == value for key, value in work.spot.as_json().items())
        for table in entry.work
    )
