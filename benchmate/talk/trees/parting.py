"""A tree that died, was sold or given away: its record is closed, after a yes, and nothing is due on it any more."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import ENDS, Entry
from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.context import spots_of
from benchmate.talk.dates import last_day
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_GAP = 4
_STATES = ("species", "finding", "health")  # what a statement that a tree is dead may tell of it


def parts_with(turn: Turn) -> bool:
    """Close the record of a tree that is told to have left the garden; True where the statement tells that."""
    if _of_young(turn, turn.reading):
        own = tuple(fact for fact in turn.reading.facts if fact.kind == "species")
        turn.reading = replace(turn.reading, acts=("note",), facts=own, measures={}, missed=(), kept=())
        turn.aside.append("kept as a note: young plants are none of the tree's branches")
        return False
    how = _how(turn, turn.reading)
    if how is None or turn.house.garden is None:
        return False
    reading = turn.reading
    species = tuple(fact for fact in reading.facts if fact.kind == "species")
    turn.reading = replace(reading, acts=("note",), facts=species, missed=())
    if turn.tree is None:
        turn.says += [turn.meant.aside] if turn.meant.aside else []
        turn.asks += [turn.meant.ask] if turn.meant.ask else []
    elif not turn.confirmed:
        turn.confirm = f"Close the record of {turn.tree.name} ({how}), and drop what is due on it? Say yes or no."
    else:
        day = last_day(reading.when, turn.southern) if reading.when else None
        entry = Entry("", min(day or turn.on, turn.on), "note", reading.said, ends=how)
        turn.to_log.append((turn.tree, (entry,)))
        turn.says.append(f"The record of {turn.tree.name} is closed: nothing is due on it any more")
    return True


def _of_young(turn: Turn, reading: Reading) -> bool:
    """ "Two of the cuttings died": what became of young plants is no state of the tree that they were taken from."""
    words = turn.house.lexicon.sense.get("parting", {})
    if set(reading.acts) - {"observe", "note"} or reading.note or reading.topic or reading.work:
        return False
    texts = turn.house.lexicon.split(reading.said)
    young = any(_said(one, texts, ()) for one in words.get("young", ()))
    return young and any(_said(one, texts, ()) for one in words.get("young_lost", ()))


def _how(turn: Turn, reading: Reading) -> str | None:
    """How the tree left, where the whole tree is meant and nothing beside it is told; else None."""
    lexicon, words = turn.house.lexicon, turn.house.lexicon.sense.get("parting", {})
    if set(reading.acts) - {"observe", "note"} or reading.note or reading.topic or reading.work or reading.measures:
        return None
    if any(fact.denied or fact.kind not in _STATES or fact.spot != NOWHERE for fact in reading.facts):
        return None
    if "it" in reading.refers and not reading.tree and spots_of(turn.before.reading):
        return None  # "it" is the branch that was spoken of
    texts = lexicon.split(reading.said)
    found = [
        (how, says) for how in ENDS for says in words.get(how, ()) if _said(says, texts, words.get("part_behind", ()))
    ]
    lost = _lost(turn, reading, texts, words.get("lost", ()))
    if lost and not found:
        found = [(ENDS[0], "lost")]
    if not found or (phrase_places(texts, "PART", lexicon) and not lost):
        return None
    people = words.get("people", ())
    if any(one in people and behind == "'s" for one, behind in itertools.pairwise(texts)):
        return None  # "a friend's elm died"
    how, says = found[0]
    known = {*says.split(), *people, *words.get("beside", ())}
    if any(word not in known for missed in reading.missed for word in lexicon.split(missed.words)):
        return None
    return how


def _lost(turn: Turn, reading: Reading, texts: Sequence[str], phrases: Collection[str]) -> bool:
    """ "Lost the juniper to frost": whether what was lost is the tree itself."""
    lexicon = turn.house.lexicon
    small = {*lexicon.sense["pointers"], *lexicon.sense["owners"], "poor", "old"}
    names = {tuple(lexicon.split(reading.tree))} if reading.tree else set()
    names |= {tuple(texts[start:end]) for start, end, _ in phrase_places(texts, "SPECIES", lexicon)}
    for phrase in phrases:
        parts = phrase.split()
        for at in (n + len(parts) for n in range(len(texts)) if list(texts[n : n + len(parts)]) == parts):
            begin = next((n for n in range(at, len(texts)) if texts[n] not in small), len(texts))
            if any(tuple(texts[begin : begin + len(name)]) == name for name in names):
                return True
    return False


def _said(says: str, texts: Sequence[str], behind: Collection[str]) -> bool:
    """Whether the words stand there ("~" for up to four others), and none behind them that tells of a part ("died
    back")."""
    opening, _, close = says.partition(" ~ ")
    parts, rest = opening.split(), close.split()
    ends = [at + len(parts) for at in range(len(texts)) if list(texts[at : at + len(parts)]) == parts]
    if rest:
        ends = [
            at + len(rest)
            for end in ends
            for at in range(end + 1, end + 1 + _GAP)
            if list(texts[at : at + len(rest)]) == rest
        ]
    return any(end == len(texts) or texts[end] not in behind for end in ends)
