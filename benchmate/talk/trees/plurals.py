"""A kind in the plural means all trees of it here: "should I move the maples into shade". So do "all of them"
those that were asked about, and "them" those that the statement before was about."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Reading, Several
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.hearing.vocabulary.words import plural
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.trees.which_tree import is_of, named, species_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.house import House

_ACTS = frozenset({"decide", "ask", "observe", "remind"})
_OF_WORK = frozenset({"decide", "ask"})  # what is said of work, and is none of it without
_TOPICS = frozenset({None, "may", "when"})
_THEM = ("them", "both")  # pronouns for more than one
_ALL = ("all", "both")  # what may stand before a plural without an article
_OF_A_PART = ("PART", "SIDE", "LEVEL", "ORDINAL")  # words behind "both" and "these" that make them no pronoun


def said_in_plural(said: str, taxon: str, lexicon: Lexicon) -> bool:
    """Whether the words name the taxon in the plural, as one that the grower has ("the pines", "both my elms")."""
    texts = lexicon.split(said)
    for start, end, value in phrase_places(texts, "SPECIES", lexicon):
        if value == taxon and _is_plural(texts[start:end], lexicon) and _owned(texts[:start], lexicon):
            return True
    return False


def _is_plural(texts: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether the words for a kind are a plural: without its ending they name a kind too."""
    one = _singular(texts)
    return bool(one) and bool(phrase_places(one, "SPECIES", lexicon))


def _singular(texts: Sequence[str]) -> list[str]:
    """The words whose plural these are, or none."""
    last = texts[-1]
    ends = ((last.removesuffix(end) + put) for end, put in (("ies", "y"), ("es", ""), ("s", "")) if last.endswith(end))
    return next(([*texts[:-1], one] for one in ends if plural(one) == last), [])


def _owned(before: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether these words before a kind say that it is the grower's, a number between them or not: "the two" elms."""
    texts = before[:-1] if _number(before, lexicon) else before
    return bool(texts) and texts[-1] in (*lexicon.sense["pointers"], *lexicon.sense["owners"], *_ALL)


def _number(before: Sequence[str], lexicon: Lexicon) -> int | None:
    """How many of a kind, where the word right before it tells."""
    word = before[-1] if before else ""
    value = int(word) if word.isdecimal() else lexicon.numbers["number"].get(word)
    return value if isinstance(value, int) else None


def all_of_kind(reading: Reading, house: House, those: Sequence[str] = ()) -> Reading:
    """The reading said of all trees of a kind that is named in the plural, where several of it stand here; or of those
    that the statement before was about. those: their names."""
    reading = _of_those(reading, those, house)
    if not (reading.several or any(fact.kind == "species" for fact in reading.facts)):
        return reading
    trees, lexicon = house.trees(), house.lexicon
    if reading.several and not (reading.several.each or reading.several.every):
        return _each_kind(reading, reading.several, trees, lexicon)
    kinds = [fact for fact in reading.facts if fact.kind == "species" and not fact.denied]
    of_work = any(work.work for work in reading.work)
    told = reading.topic in _TOPICS and (of_work or not _OF_WORK & set(reading.acts))
    told = bool(_ACTS & set(reading.acts)) and (told or (reading.topic == "advice" and not reading.work))
    if len(kinds) != 1 or not told or reading.several or reading.tree or "new" in reading.acts:
        return reading
    found = [tree for tree in trees if is_of(tree, str(kinds[0].value))]
    start, end = kinds[0].span
    before = lexicon.split(reading.said[:start])
    some = any(" ".join(before).endswith(words) for words in lexicon.sense["all_of"]["some"])
    if len(found) < 2 or some or not _is_plural(lexicon.split(reading.said[start:end]), lexicon):
        return reading
    count = _number(before, lexicon)
    seen = "observe" in reading.acts and not reading.work  # "pines drop needles" is told of no tree
    if (seen and not _owned(before, lexicon)) or count not in (None, len(found)):
        return reading
    return _said_of(reading, found, count)


def _each_kind(reading: Reading, several: Several, trees: Sequence[Tree], lexicon: Lexicon) -> Reading:
    """ "The pines and the maples": all of each kind that is named in the plural among several."""
    texts = lexicon.split(reading.said)
    places = phrase_places(texts, "SPECIES", lexicon)
    plurals = {str(value) for start, end, value in places if _is_plural(texts[start:end], lexicon)}
    named: list[str] = []
    for name in several.named:
        found = [tree.name for tree in trees if is_of(tree, name)]
        named += found if len(found) > 1 and name in plurals else [name]
    return replace(reading, several=replace(several, named=tuple(dict.fromkeys(named))))


def of_all_asked(words: str, reading: Reading, those: Sequence[str], house: House) -> Reading | None:
    """What waited for a tree's name, said of all that were asked about: "all of them". None for other words, and for
    "both" of more than two. those: the names of the trees that the statement before was about."""
    texts = [text for text in house.lexicon.split(words) if text[0].isalnum()]
    if " ".join(texts) not in house.lexicon.sense["all_of"]["them"]:
        return None
    kind, trees = species_said(reading), house.trees()
    among = [tree for tree in trees if tree.name in those] or trees
    found = [tree for tree in among if kind is None or is_of(tree, kind)]
    if not found or ("both" in texts and len(found) != 2):
        return None
    whole = kind is None and len(found) == len(trees) > 2
    return replace(_said_of(reading, found), several=Several(every=True)) if whole else _said_of(reading, found)


def _of_those(reading: Reading, those: Sequence[str], house: House) -> Reading:
    """The reading said of the trees that the statement before was about, where its words mean more than one and name
    none: "they have scale", "wired them", "trimmed both". those: the names of these trees."""
    if len(those) < 2 or not _ACTS & set(reading.acts) or {"new", "strike", "correct"} & set(reading.acts):
        return reading
    of_all = reading.several is not None and reading.several.every
    if reading.tree or species_said(reading) or (reading.several and not of_all):
        return reading
    lexicon, trees = house.lexicon, house.trees()
    if not _means_them(lexicon.split(reading.said), lexicon):
        return reading
    found = [tree for tree in (named(trees, name) for name in those) if tree]
    if len(found) == len(trees):
        return replace(reading, several=Several(every=True))
    each = lexicon.sense["on_each"]
    missed = tuple(one for one in reading.missed if " ".join(lexicon.split(one.words)) not in each)
    return replace(_said_of(reading, found, len(found)), missed=missed)


def _means_them(texts: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether the words mean more than one: "them", "both", "on each"; not "both branches", which are a tree's own."""
    said = f" {' '.join(texts)} "
    phrases = (*lexicon.sense["on_each"], *(one for one in lexicon.sense["all_of"]["them"] if " " in one))
    if any(f" {phrase} " in said for phrase in phrases):
        return True
    parts = {start for kind in _OF_A_PART for start, _, _ in phrase_places(texts, kind, lexicon)}
    found = phrase_places(texts, "PRON", lexicon)
    return any(value in _THEM and end not in parts for _, end, value in found)


def _said_of(reading: Reading, trees: Sequence[Tree], count: int | None = None) -> Reading:
    """The reading said of these trees. count: how many the words said there are, which is no count of what is seen."""
    facts = tuple(fact for fact in reading.facts if fact.kind != "species")
    counted = [fact.spot.count is not None and fact.spot.count == count and not fact.spot.part for fact in facts]
    facts = tuple(
        replace(fact, spot=replace(fact.spot, count=None)) if own else fact
        for fact, own in zip(facts, counted, strict=True)
    )
    works = tuple(replace(work, manner=tuple(way for way in work.manner if way != "all")) for work in reading.work)
    return replace(reading, several=Several(named=tuple(tree.name for tree in trees)), facts=facts, work=works)
