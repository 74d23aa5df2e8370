"""Why something was done or decided, in the record's own words: "why did I take it off", "what did I decide about the
leader"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.dates import span_asked
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.told.following import near, same_deed
from benchmate.telling.dates import day_words
from benchmate.telling.lines import cut_short
from benchmate.telling.story import entry_words, matching, spot_of
from benchmate.telling.wording import sentence, small, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing import Lexicon
    from benchmate.talk.house import House
    from benchmate.talk.turns import Turn

_IT = "it"
_WHOLE = "tree"  # a part that is no part


def asks_why_done(turn: Turn) -> bool:
    """Whether it is asked why the grower himself did, or did not do, a work."""
    reading = turn.reading
    if reading.topic != "why" or turn.tree is None or not any(work.work for work in reading.work):
        return False
    said = f" {' '.join(turn.house.lexicon.split(reading.said))} "
    return any(f" {words} " in said for words in turn.house.lexicon.sense["after"]["why"])


def why_done(turn: Turn) -> list[str]:
    """The reason that stands in the record for the newest such work, else the words that it was told in."""
    assert turn.tree is not None
    reading, units = turn.reading, turn.house.place.units
    refused = "not" in turn.house.lexicon.split(reading.said)
    work = next(work for work in reading.work if work.work)
    kinds = ("left",) if refused or work.work in LEFT_WORKS else ("done", "plan")
    start, end = span_asked(reading, turn.on, turn.southern) or (None, turn.on)
    entries = turn.house.entries(turn.tree)
    found = [
        entry
        for entry in matching(entries, kinds=kinds, start=start, end=end)
        if any(_is_of(turn.house, str(table.get("work")), spot_of(table), work) for table in entry.work)
    ]
    if not found and _IT in reading.refers:  # "why did I cut it": the verb says no more than the group of the work
        found = [
            entry
            for entry in matching(entries, kinds=kinds, start=start, end=end)
            if any(
                _is_of(turn.house, str(table.get("work")), NOWHERE, replace(work, spot=NOWHERE)) for table in entry.work
            )
            and any(near(spot_of(table), work.spot) for table in entry.work)
        ]
    if not found:
        what = work_words(str(work.work), work.spot, done=not refused)
        return [f"The record holds no day when you {'decided not to ' if refused else ''}{what}"]
    entry = max(found, key=lambda one: one.day)
    day = day_words(entry.day, turn.on)
    told = entry_words(replace(entry, reason=None), entry.day, units)
    if entry.reason:
        return [f"Because {small(cut_short(entry.reason, 200)).rstrip('.')} ({day}: {told})"]
    beside = "" if entry.facts else "; no reason beside it"
    return [f'Your words of {day} were: "{cut_short(entry.said, 200)}"', sentence(f"on record: {told}{beside}")]


def _is_of(house: House, done: str, spot: Spot, asked: Work) -> bool:
    if done in LEFT_WORKS and asked.work in LEFT_WORKS:
        return near(spot, asked.spot)
    return same_deed(done, spot, asked, house.book)


def late_reason(turn: Turn) -> bool:
    """ "Because it was too long", behind what was just put down: the reason goes to that. False where more is said."""
    reading, made = turn.reading, turn.before.made
    texts = turn.house.lexicon.split(reading.said)
    because = any(
        start == 0 and value == "because" for start, _, value in phrase_places(texts, "SEP", turn.house.lexicon)
    )
    telling = bool({"ask", "decide", "correct", "strike", "remind", "note", "new", "turn"} & set(reading.acts))
    if not because or not reading.reason or telling or reading.tree or reading.several or not made:
        return False
    if any(entry.reason or entry.kind not in ("done", "plan", "left") for _, entry in made):
        return False
    from benchmate.talk.trees.which_tree import meant_tree

    aside = turn.aside
    turn.in_its_stead(made)
    turn.aside = aside
    for name, entry in made:
        tree = meant_tree(Reading("", tree=name), turn.house.trees(), None).tree
        if tree is not None:
            said = f"{entry.said}; {reading.said}"
            turn.to_log.append((tree, (replace(entry, id="", said=said, reason=reading.reason),)))
    turn.says.append(f"Put down as the reason: {reading.reason}")
    turn.reading = replace(reading, missed=())
    return True


def part_asked(reading: Reading, lexicon: Lexicon) -> str | None:
    """The part of a tree that a question about the record is about, where it names no work."""
    if reading.work or reading.facts or reading.missed:
        return None
    found = [str(value) for _, _, value in phrase_places(lexicon.split(reading.said), "PART", lexicon)]
    return next((part for part in reversed(found) if part != _WHOLE), None)


def about_part(entries: Sequence[Entry], part: str, house: House) -> list[Entry]:
    """The entries that speak of the part: by name, or through the work or the finding that is always of it. What is
    struck goes along, so that it stays struck."""
    return [entry for entry in entries if entry.kind == "struck" or _speaks_of(entry, part, house)]


def _speaks_of(entry: Entry, part: str, house: House) -> bool:
    places, works = house.book.places, house.book.works
    if any(table.get("part") == part for table in (*entry.work, *entry.facts)):
        return True
    own = [places.get("work_part", {}).get(str(table.get("work"))) for table in entry.work]
    own += [works.get(str(table.get("work")), {}).get("takes") for table in entry.work]
    own += [places.get("finding_part", {}).get(str(fact.get("value"))) for fact in entry.facts]
    words = phrase_places(house.lexicon.split(entry.said), "PART", house.lexicon)
    return part in own or any(value == part for _, _, value in words)
