"""Words that were not taken in and may name a tree: one that is here, with a slip in its name, or one that is not."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import NOWHERE, Guess, Missed, Reading, Work
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.trees.which_tree import names_of, species_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing import Lexicon
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.talk.house import House

_EXACT, _ONE_SLIP = 4, 7  # letters up to which no slip is thought of, and up to which only one


def with_near_name(reading: Reading, house: House) -> Reading:
    """The reading with a missed word taken for the one tree whose name it nearly is: a guess that is put to the grower
    before anything is logged."""
    if not reading.missed or reading.tree or reading.several or species_said(reading) or not reading.acts:
        return reading
    for one in reading.missed:
        name = _near(one.words, house.trees()) if one.words.casefold() not in house.lexicon.plain else None
        if name is not None:
            guess = Guess(one.words, name, 1 - 1 / len(name), one.span, grave=True)
            missed = tuple(other for other in reading.missed if other != one)
            return replace(reading, tree=name, missed=missed, guessed=(*reading.guessed, guess))
    return reading


def _near(words: str, trees: Sequence[Tree]) -> str | None:
    """The name that these words are nearest to, where they are near to one alone."""
    said = words.casefold().rpartition(" ")[2] if words.count(" ") == 1 else words.casefold()  # "on Elmre"
    if len(said) <= _EXACT:
        return None
    from rapidfuzz.distance import OSA

    allowed = 1 if len(said) <= _ONE_SLIP else 2
    slips = sorted((OSA.distance(said, name.casefold()), name) for name in names_of(trees))
    fit = [(count, name) for count, name in slips if count <= allowed]
    return fit[0][1] if fit and (len(fit) == 1 or fit[0][0] < fit[1][0]) else None


def may_be_another(reading: Reading, words: Sequence[Word], lexicon: Lexicon) -> Missed | None:
    """The words that were not taken in and stand where a tree's name would: what is seen is said of them ("Bob has
    scale"), or work was done to them ("repotted Bob"). None where there are none, or the tree is named."""
    if reading.tree or reading.several or species_said(reading) or reading.refers:
        return None
    heard = [one for one in reading.missed if reading.said[slice(*one.span)] == one.words and _new(one, lexicon)]
    for one in heard:
        before = [word.text for word in words if word.end <= one.span[0]]
        if "observe" in reading.acts and _leads(before, lexicon) and _tells_of(one, reading):
            return one
        works = [work for work in reading.work if work.work and work.work not in LEFT_WORKS and work.spot == NOWHERE]
        if "decide" in reading.acts and any(_done_to(one, work, words, lexicon) for work in works):
            return one
    return None


def _new(one: Missed, lexicon: Lexicon) -> bool:
    """Whether the words are no words of every day: such a name is known by its capital alone ("Rusty has scale")."""

    def everyday(word: str) -> bool:
        return word.casefold() in lexicon.known or word.casefold() in lexicon.plain

    return all(word[0].isupper() or not everyday(word) for word in one.words.split())


def _tells_of(one: Missed, reading: Reading) -> bool:
    """Whether something is seen behind the words, and on no part that could be what they speak of."""
    facts = [fact for fact in reading.facts if fact.kind in ("finding", "health", "flush", "stage")]
    return bool(facts) and all(one.span[1] <= fact.span[0] and fact.spot.part is None for fact in facts)


def _done_to(one: Missed, work: Work, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether the words are what the work was done to: a name or a thing right behind its verb."""
    verb = [word.text for word in words if work.span[0] <= word.start and word.end <= work.span[1]]
    between = [word.text for word in words if work.span[1] <= word.start and word.end <= one.span[0]]
    if not verb or phrase_places(verb[-1:], "PRON", lexicon) or one.span[0] < work.span[1]:
        return False
    return bool(between or one.words[0].isupper()) and _leads(between, lexicon)


def _leads(before: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether these words lead to a thing: none, or an article."""
    return not before or (len(before) == 1 and bool(phrase_places(before, "DET", lexicon)))
