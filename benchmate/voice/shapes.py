"""Shapes of statements: what kinds of term follow one another, learnt from statements that the ear itself has read.

The statements are those of rules/words/spoken.toml and the examples of the rules. Each is read with the lexicon and the
grammar that read what is typed; its tokens, in order, are its shape. What is said aloud most stands in
rules/words/sounds.toml, as sets to draw from.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchmate.hearing import Ear

from .said import PAUSES, spoken_words

SPOKEN = "words/spoken.toml"
ANY_DAY = dt.date(2026, 6, 14)  # any day: shapes hold words, not dates
Tables = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True)
class Slot:
    """One place of a shape. kind: the token type, "" for words that no token took. words: as in the statement."""

    kind: str
    words: tuple[str, ...]


Shape = tuple[Slot, ...]


def example_statements(tables: Tables) -> Iterator[str]:
    """Statements that the rules hold: those written down for the voice, then each rule's examples; none twice."""
    seen: dict[str, None] = dict.fromkeys(tables.get(SPOKEN, {}).get("says", ()))
    for table in tables.values():
        for rule in table.get("rule", ()):
            if isinstance(rule, Mapping):
                seen.update((example["say"], None) for example in rule.get("example", ()) if "say" in example)
    yield from seen


def statements_as_said(tables: Tables) -> Iterator[list[str]]:
    """The words of every statement that the rules hold, none twice."""
    said = tables.get("words/sounds.toml", {}).get("said", {})
    seen: set[tuple[str, ...]] = set()
    for statement in (*example_statements(tables), *tables.get(SPOKEN, {}).get("also", ())):
        words = [word for word in spoken_words(statement, said) if word not in PAUSES]
        if words and tuple(words) not in seen:
            seen.add(tuple(words))
            yield words


def learn_shapes(statements: Iterable[str], ear: Ear, said: Mapping[str, str]) -> list[Shape]:
    """The shape of each statement. One that the ear does not take in whole teaches nothing and is left out."""
    shapes = []
    for statement in statements:
        text = " ".join(spoken_words(statement, said))
        words = ear.words(text)
        if words:
            found = ear.find(text, words, ANY_DAY)
            if "missed" not in found.marks:
                shapes.append(tuple(_slots([word.text for word in words], found.tokens)))
    return shapes


def _slots(words: Sequence[str], tokens: Sequence[Any]) -> Iterator[Slot]:
    at = 0
    for token in tokens:
        if token.first > at:
            yield from _plain(words[at : token.first])
        if token.end > token.first:
            taken = tuple(words[token.first : token.end])
            if not PAUSES.issuperset(taken):
                yield Slot(token.kind, taken)
        at = max(at, token.end)
    yield from _plain(words[at:])


def _plain(words: Sequence[str]) -> Iterator[Slot]:
    kept = tuple(word for word in words if word not in PAUSES)
    if kept:
        yield Slot("", kept)
