"""A kind in the plural means all trees of it here: "should I move the maples into shade"; and so does "all of them"."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.lexicon import Lexicon
from benchmate.hearing.reading import Reading, Several
from benchmate.talk.which_tree import is_of, species_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.house import House

_ACTS = frozenset({"decide", "ask"})
_TOPICS = frozenset({None, "may", "when"})
_ENDINGS = (("ies", "y"), ("ches", "ch"), ("xes", "x"), ("s", ""))


def all_of_kind(reading: Reading, house: House, on: dt.date) -> Reading:
    """The reading said of all trees of a kind that is named in the plural, where several of it stand here."""
    if not (reading.several or any(fact.kind == "species" for fact in reading.facts)):
        return reading
    trees, lexicon = house.trees(), house.lexicon

    def hear(words: str) -> Reading:
        return house.hear(words, on)

    if reading.several and not (reading.several.each or reading.several.every):
        return _each_kind(reading, reading.several, trees, hear)
    kinds = [fact for fact in reading.facts if fact.kind == "species" and not fact.denied]
    told = _ACTS & set(reading.acts) and reading.topic in _TOPICS and any(work.work for work in reading.work)
    if len(kinds) != 1 or not told or reading.several or reading.tree or "new" in reading.acts:
        return reading
    found = [tree for tree in trees if is_of(tree, str(kinds[0].value))]
    start, end = kinds[0].span
    before = " ".join(lexicon.split(reading.said[:start]))
    some = any(before.endswith(words) for words in lexicon.sense["all_of"]["some"])
    if len(found) < 2 or some or not _plural(reading.said[start:end], str(kinds[0].value), hear):
        return reading
    return _said_of(reading, found)


def _each_kind(reading: Reading, several: Several, trees: Sequence[Tree], hear: Callable[[str], Reading]) -> Reading:
    """ "The pines and the maples": all of each kind that is named in the plural among several."""
    plurals = [word for word in reading.said.casefold().split() if word.rstrip(".,;:!?").endswith("s")]
    named: list[str] = []
    for name in several.named:
        found = [tree.name for tree in trees if is_of(tree, name)]
        many = len(found) > 1 and any(_plural(word.rstrip(".,;:!?"), name, hear) for word in plurals)
        named += found if many else [name]
    return replace(reading, several=replace(several, named=tuple(dict.fromkeys(named))))


def of_all_asked(words: str, reading: Reading, trees: Sequence[Tree], lexicon: Lexicon) -> Reading | None:
    """What waited for a tree's name, said of all that were asked about: "all of them". None for other words."""
    if " ".join(text for text in lexicon.split(words) if text[0].isalnum()) not in lexicon.sense["all_of"]["them"]:
        return None
    kind = species_said(reading)
    found = [tree for tree in trees if kind is None or is_of(tree, kind)]
    return _said_of(reading, found) if found else None


def _said_of(reading: Reading, trees: Sequence[Tree]) -> Reading:
    facts = tuple(fact for fact in reading.facts if fact.kind != "species")
    works = tuple(replace(work, manner=tuple(way for way in work.manner if way != "all")) for work in reading.work)
    return replace(reading, several=Several(named=tuple(tree.name for tree in trees)), facts=facts, work=works)


def _plural(said: str, taxon: str, hear: Callable[[str], Reading]) -> bool:
    """Whether the words are a plural: without its ending they name the same kind."""
    small = said.casefold().strip()
    for ending, instead in _ENDINGS:
        if not small.endswith(ending):
            continue
        one = hear(small[: -len(ending)] + instead)
        if not one.guessed and any(fact.kind == "species" and str(fact.value) == taxon for fact in one.facts):
            return True
    return False
