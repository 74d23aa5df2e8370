"""A tree's record begun: its name asked for, and what was said of it put down."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import Ask
from benchmate.talk.decide import entries_of
from benchmate.talk.trees.which_tree import species_said
from benchmate.telling.story import tree_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_FROM = (
    r"\b(?:(?P<how>dug|lifted|collected|grown|raised|struck|bought|rescued)\s+(?:up\s+|out\s+)?)?(?:from|out of)\s+"
    r"(?:an?\s+|the\s+|my\s+|our\s+|some\s+)?(?P<where>[^\W\d_][^,;.!?]*?)\s*(?=[,;.!?]|$|\band\b|\bcall|\b(?:this|last|today|yesterday)\b)"
)


def name_tree(turn: Turn) -> None:
    """The name of a tree whose record is to begin, or the question for it."""
    if turn.house.garden is None:
        turn.says.append("No garden is open, so no record can be begun; name one with --garden")
        return
    turn.new_name = turn.reading.tree
    turn.tree = None
    if not turn.new_name:
        turn.asks.append(Ask("tree", "What shall it be called? Say: new tree, field maple, call it Gatepost."))


def begin_record(turn: Turn) -> None:
    """Make the new tree, with what was said of it as its first entries: in this statement, and in this talk before."""
    reading = turn.reading
    told = _told_before(turn)
    said = {fact.kind: str(fact.value) for one in (*told, reading) for fact in one.facts if not fact.denied}
    if origin := next(filter(None, (origin_said(one.said) for one in (reading, *told))), None):
        said["origin"] = origin
    if reading.term:  # a record that was offered says itself where its tree comes from
        said["origin"] = reading.term
    if turn.bench.dry:
        turn.says.append(f"Would begin the record of {turn.new_name}")
        return
    tree = turn.house.begin_tree(str(turn.new_name), said, turn.on)
    turn.tree = tree
    of_kind = tree_words(tree, turn.house.place.units).partition(": ")[2]
    turn.says.append(f"The record of {tree.name} is begun: {of_kind}")
    if tree.species is None:
        turn.aside.append(f"its kind is not told yet: say it, as in: {tree.name} is a field maple")
    for one in told:
        _log_told(turn, tree, one)
    entries = entries_of(reading, None, turn.on, southern=turn.southern)
    if not any(entry.measures for entry in entries):  # "an olive, 12 cm at the base": measured now, whatever was done
        seen = replace(reading, acts=("observe",), work=(), facts=(), when=None, note=None)
        entries = (*entries, *entries_of(seen, None, turn.on, southern=turn.southern))
    if entries or not turn.to_log:
        turn.to_log.append((tree, entries or (Entry("", turn.on, "note", reading.said),)))


def _told_before(turn: Turn) -> tuple[Reading, ...]:
    """What was told in this talk of the tree that is named now; nothing where the naming tells another kind, or begins
    what was offered."""
    if turn.reading.term:
        return ()
    kinds = {species_said(one) for one in turn.before.unnamed} - {None}
    said = species_said(turn.reading)
    return () if said and kinds - {said} else turn.before.unnamed


def _log_told(turn: Turn, tree: Tree, told: Reading) -> None:
    """The entries of a statement that was made before the tree had a name."""
    facts = tuple(fact for fact in told.facts if fact.kind != "species")
    acts = tuple("observe" if act == "new" else act for act in told.acts)
    part = type(turn)(turn.bench, replace(told, tree=tree.name, facts=facts, acts=acts), True)
    part.to_log += turn.to_log  # what was told before it counts already
    part.find_tree()
    part.decide()
    turn.to_log += part.to_log[len(turn.to_log) :]


def origin_said(words: str) -> str | None:
    """Where a new tree comes from, in the grower's own words, or None where that was not said.

    >>> origin_said("new tree, field maple from a hedge, call it Gatepost"), origin_said("larch grown from seed")
    ('hedge', 'grown from seed')
    """
    match = re.search(_FROM, words, re.IGNORECASE)
    if match is None:
        return None
    where = " ".join(match["where"].split()).lower()
    if match["how"] is None:
        return where
    return " ".join(match.group().split()).lower()
