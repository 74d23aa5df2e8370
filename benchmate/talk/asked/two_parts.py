"""Work planned in two parts on days of their own: "half the roots this March and the rest in 2028"."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading, Work
from benchmate.talk.dates import first_day
from benchmate.talk.decide import LEFT_WORKS, work_table
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.house import House
    from benchmate.talk.turns import Turn


def first_part(reading: Reading, house: House, on: dt.date) -> Reading:
    """The reading of the first part alone, where a second with a day of its own stands behind it; else the reading."""
    if "decide" not in reading.acts or "ask" in reading.acts:
        return reading
    if not any(f" {phrase} " in reading.said.casefold() for phrase in house.lexicon.sense["rest_of"]):
        return reading
    found = _rest_of(house, reading.said, on)
    if found is None:
        return reading
    words = [word for word in house.ear.words(reading.said) if word.end <= found[0]]
    small = house.lexicon.sense["leads_to_rest"]
    while words and words[-1].text in small:
        words.pop()
    head = house.hear(reading.said[: words[-1].end], on) if words else reading
    works = [work for work in head.work if work.work]
    if head.acts != ("decide",) or len(works) != 1 or works[0].work in LEFT_WORKS or works[0].done == "not":
        return reading
    return replace(head, said=reading.said)


def with_second_part(turn: Turn, entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """The entries, and behind a plan or work done in part a plan for the rest of it on the day named for that."""
    reading = turn.reading
    works = [work for work in reading.work if work.work and work.work not in LEFT_WORKS and work.done != "not"]
    if not entries or "decide" not in reading.acts or len(works) != 1 or turn.thought:
        return entries
    found = _rest_of(turn.house, reading.said, turn.on)
    if found is None:
        return entries
    when = found[1]
    day = first_day(when, turn.southern)
    own = first_day(reading.when, turn.southern) if reading.when else turn.on
    if day is None or day <= turn.on or (own and day <= own):
        return entries
    rest = Entry("", turn.on, "plan", reading.said, work=(work_table(_rest(works[0])),), when=when)
    return (*entries, rest)


def _rest(work: Work) -> Work:
    """The work as it is for what is left: of the same size where half was meant, else without one."""
    share = work.measures.get("share")
    left = {"share": round(1 - share, 4)} if share and share < 1 else {}
    measures = {name: value for name, value in work.measures.items() if name != "share"}
    return replace(work, measures={**measures, **left})


def _rest_of(house: House, said: str, on: dt.date) -> tuple[int, str] | None:
    """Where the words for the rest begin, and when it is to be done; None where there are none with a day."""
    words = house.ear.words(said)
    texts = [word.text for word in words]
    for phrase in house.lexicon.sense["rest_of"]:
        parts = phrase.split()
        for at in range(1, len(texts) - len(parts)):
            if texts[at : at + len(parts)] != parts:
                continue
            for skipped in (0, 1):  # "the rest in 2028", "the rest for 2028"
                first = at + len(parts) + skipped
                tail = said[words[first].start :].strip(" .!?") if first < len(words) else ""
                heard = house.hear(f"I will feed it {'in ' if skipped else ''}{tail}", on)
                plain = not (heard.facts or heard.missed) and [work.work for work in heard.work] == ["feed"]
                if heard.when and plain:
                    return words[at].start, heard.when
    return None
