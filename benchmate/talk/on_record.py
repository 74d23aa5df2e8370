"""What is told of the past and stands in the record already is not put down a second time."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Work
from benchmate.talk.dates import span_of
from benchmate.talk.following import near
from benchmate.telling.dates import day_words
from benchmate.telling.story import entry_words, matching, spot_of
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_LONG_PAST = 30  # days behind which work that is told beside something else is told of the past


def on_record(turn: Turn) -> bool:
    """ "It was repotted last spring", where the record tells of it: answered by what it holds. True where all that the
    statement tells is there."""
    reading = turn.reading
    works = [work for work in reading.work if work.work]
    told = "decide" in reading.acts and works and all(work.done == "done" for work in works)
    if not told or turn.tree is None or not reading.when or reading.reason or reading.several or reading.kept:
        return False
    span = span_of(reading.when, turn.southern)
    if span is None or span[0] >= turn.on or turn.gone:
        return False
    seen = any(fact.kind != "species" for fact in reading.facts) or bool(reading.measures)
    more = seen or reading.acts != ("decide",)
    if (more or reading.missed) and (turn.on - span[1]).days < _LONG_PAST:
        return False
    entries = matching(turn.house.entries(turn.tree), kinds=("done",), start=span[0], end=min(span[1], turn.on))
    found = [next((entry for entry in reversed(entries) if _holds(entry, work)), None) for work in works]
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
