"""What is said aloud: sets of choices to draw from, with verbs in any form and phrases of rules/words in between."""

from __future__ import annotations

import random
import re
from bisect import bisect
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import accumulate
from typing import Any

from benchmate.hearing import Lexicon
from benchmate.hearing.vocabulary.words import verb_forms

_PIECE = re.compile(r"<[^>]+>|\{[^}]+\}|[^\s<{]+")
_CHOICE = re.compile(r"\[([^\[\]]*)\]")
DEEPEST = 24  # sets within sets; a set that draws itself mostly must not go on for ever


class Core:
    """The sets of `[core]` in rules/words/sounds.toml, to draw from.

    {name} inside a choice stands for that set, {name.ed} for it with its verbs in the past, {name.en} as participles,
    {name.ing} with -ing. <cut> is a verb. {KIND} in capitals is any phrase of that kind in the rules' tables.
    """

    def __init__(self, sets: Mapping[str, Sequence[str]], tables: Mapping[str, Mapping[str, Any]], lexicon: Lexicon):
        self._sets = {name: [_PIECE.findall(choice) for choice in choices] for name, choices in sets.items()}
        self._irregular = tables.get("words/verbs.toml", {}).get("forms", {})
        self._usual = {kind: _Usual(_phrases(tables, kind), lexicon) for kind in sorted(_kinds(self._sets))}

    def draw(self, name: str, rng: random.Random, form: str = "", depth: int = 0) -> list[str]:
        """The words of one choice of the set, the sets in it drawn in turn. Raises KeyError for an unknown set."""
        out: list[str] = []
        for piece in rng.choice(self._sets[name]):
            if piece[0] == "<":
                out += self._verb(piece[1:-1], form)
            elif piece[0] != "{":
                out.append(piece)
            elif piece[1:-1] in self._usual:
                out += self._usual[piece[1:-1]].draw(rng)
            elif depth < DEEPEST:
                inner, _, asked = piece[1:-1].partition(".")
                out += self.draw(inner, rng, asked or form, depth + 1)
        return out

    def _verb(self, phrase: str, form: str) -> list[str]:
        """The verb in its form: of two words the last is inflected, but "stop feeding" by its first."""
        if not form:
            return phrase.split()
        first, _, rest = phrase.partition(" ")
        if rest and not phrase.startswith(("stop", "start")):
            return [first, *self._verb(rest, form)]
        past, ing = verb_forms(first, self._irregular)
        return [ing if form == "ing" else past[-1] if form == "en" else past[0], *rest.split()]


class _Usual:
    """Phrases of one kind: of each list the first is the most usual, the others less by their place."""

    def __init__(self, lists: Iterable[Sequence[str]], lexicon: Lexicon) -> None:
        self._phrases: list[str] = []
        self._lexicon = lexicon
        weights = []
        for phrases in lists:
            for place, phrase in enumerate(phrases):
                self._phrases.append(phrase)
                weights.append(1.0 / (1 + place))
        self._sums = list(accumulate(weights))

    def draw(self, rng: random.Random) -> list[str]:
        if not self._phrases:
            return []
        phrase = self._phrases[min(bisect(self._sums, rng.random() * self._sums[-1]), len(self._phrases) - 1)]
        while "[" in phrase:
            phrase = _CHOICE.sub(lambda found: rng.choice(found[1].split("/")), phrase)
        return [word for word in self._lexicon.split(phrase.lower()) if word[0].isalpha()]


def _kinds(sets: Mapping[str, Sequence[Sequence[str]]]) -> Iterator[str]:
    for choices in sets.values():
        for pieces in choices:
            yield from (piece[1:-1] for piece in pieces if piece[0] == "{" and piece[1:-1].isupper())


def _phrases(tables: Mapping[str, Mapping[str, Any]], kind: str) -> Iterator[Sequence[str]]:
    """The lists of phrases of a kind: of the tables of words, of the states, or of the species' names."""
    for path, table in tables.items():
        if kind == "SPECIES" and path.startswith("species/"):
            yield [name for name in table.get("names", ()) if name.replace(" ", "").isascii()]
        elif kind == "STATE" and path == "words/states.toml":
            yield from (state.get("says", ()) for state in table.get("state", {}).values())
        elif path.startswith("words/") and isinstance(table.get(kind), Mapping):
            for phrases in table[kind].values():
                if isinstance(phrases, Sequence) and not isinstance(phrases, str):
                    yield phrases
