"""Which number a statement asks for where its opening alone does not tell, and which words go with its numbers."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import replace

from .lexicon import END, Lexicon
from .reading import Fact, Reading
from .values import ValueWords
from .words import Word

_ASKING = frozenset({"how", "what", "which", "when", "where"})
_INVERTED = frozenset({"is", "are", "does", "do", "will", "would", "can"})
_SUBJECTS = frozenset({"i", "we", "the", "it", "that", "this", "a", "an", "my", "its"})
_PARTED = frozenset({",", ".", ";", "and", "?"})
_STATES = {"observe", "decide"}
NOTHING: frozenset[int] = frozenset()


def with_figure(
    reading: Reading, words: Sequence[Word], missed: bool, values: ValueWords, lexicon: Lexicon
) -> tuple[Reading, frozenset[int]]:
    """The reading with the figure that its words ask for, and the places of words that this took in.

    missed: whether words were passed over, in which a question may lie.
    """
    if not reading.figure and not _may_hold(reading, words, missed, lexicon.glossary):
        return reading, NOTHING
    figures = lexicon.figures
    from .roles import figure_by_cues, figure_meant, figure_roles, said_numbers

    numbers = said_numbers(words, values)
    cued = NOTHING
    if reading.figure:
        figure: str | None = figure_meant(reading.figure, words, numbers, figures)
        if not reading.work:  # "compare the leaders, 13 and 15 mm, what ratio"
            reading = replace(reading, topic="figure")
        elif reading.topic == "may" and not _PARTED & {word.text for word in words}:
            reading = replace(_supposed(reading), topic="figure")  # "what gauge should I wrap round it"
        reading = replace(reading, figure=figure)
    else:
        figure, cued = figure_by_cues(words, numbers, figures)
        told = reading.facts or reading.work or reading.candidates
        if figure is None or not (not reading.acts or _asks(words) or 0 in cued or not told):
            return reading, NOTHING
        if not any(fact.kind == "species" for fact in reading.facts):
            species = next(_species(words, lexicon.trie), None)
            reading = replace(reading, facts=(*reading.facts, *((species,) if species else ())))
        if "ask" in reading.acts:  # what the question was taken for belongs to it
            reading = replace(_supposed(reading), term=None)
        acts = tuple(dict.fromkeys((*reading.acts, "ask")))
        figure = figure_meant(figure, words, numbers, figures)
        reading = replace(reading, acts=acts, topic="figure", figure=figure)
    roles = figure_roles(reading, words, numbers, figures.get(reading.figure or "", {}))
    return reading, cued | {place for role in roles for place in role.words}


def _supposed(reading: Reading) -> Reading:
    """The reading with its work as what the question supposes."""
    return replace(reading, supposes=(*reading.supposes, *reading.work), work=())


def _species(words: Sequence[Word], trie: Mapping[str, Any]) -> Iterator[Fact]:
    """Species named in so many words, in their order."""
    for first in range(len(words)):
        node, named = trie, None
        for place in range(first, len(words)):
            if words[place].text not in node:
                break
            node = node[words[place].text]
            named = next(((value, place) for kind, value in node.get(END, ()) if kind == "SPECIES"), named)
        if named and not str(named[0]).startswith("group:"):
            yield Fact("species", named[0], span=(words[first].start, words[named[1]].end))


def _may_hold(reading: Reading, words: Sequence[Word], missed: bool, terms: Collection[str]) -> bool:
    """Whether a question for a number may lie in what was understood: nothing else was asked, or not all of it."""
    if reading.topic == "meaning":
        return (reading.term or "") not in terms
    if reading.topic in ("may", "when", "compare"):
        return missed
    return not set(reading.acts) - _STATES and (missed or _asks(words))


def _asks(words: Sequence[Word]) -> bool:
    """Whether a question word stands in the statement, or a clause of it begins as questions do."""
    texts = [word.text for word in words]
    openings = [at for at in range(len(texts) - 1) if at == 0 or texts[at - 1] in (",", ".", ";", "and")]
    asked = bool(set(texts) & _ASKING) or texts[-1:] == ["?"]
    pairs = [(texts[at], texts[at + 1]) for at in openings]
    return asked or any(verb in _INVERTED and (of in _SUBJECTS or of.isdigit()) for verb, of in pairs)
