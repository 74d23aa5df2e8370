"""The lexicon: every word the bench knows, as plain data ready to look up."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from .words import split_words

Trie = dict[str, Any]
END = ""  # the key under which a trie node holds its terms
CHOICE = "["  # what the key of a step into a set of choices begins with


class Lexicon:
    """Compiled words. `data` is plain (JSON), made by `lexicon_data` and cached by the rule base. figure_words: gives
    the words of figure questions (`compile_figures`), called when one may be asked."""

    def __init__(self, data: Mapping[str, Any], figure_words: Callable[[], Mapping[str, Any]]) -> None:
        self.data = data
        self.figure_words = figure_words
        self.trie: Trie = data["trie"]
        self.choices: Mapping[str, Trie] = data["choices"]
        self.known: frozenset[str] = frozenset(data["known"])
        self.plain: frozenset[str] = frozenset(data["plain"])
        self.filler: Trie = data["filler"]
        self.little: frozenset[str] = frozenset(data["little"])
        self.heard: Mapping[str, list[str]] = data["heard"]
        self.short: Mapping[str, str] = data["short"]
        self.bare: Mapping[str, str] = data["bare"]
        self.states: Mapping[str, Any] = data["states"]
        self.names: Mapping[str, list[str]] = data["names"]
        self.counted: Mapping[str, str] = data["counted"]
        self.amount: Mapping[str, str] = data["amount"]
        self.works: Mapping[str, Any] = data["works"]
        self.patterns: Mapping[str, str] = data["patterns"]
        self.numbers: Mapping[str, Any] = data["numbers"]
        self.dates: Mapping[str, Any] = data["dates"]
        self.figures: Mapping[str, Any] = data["figures"]
        self.asking: Mapping[str, frozenset[str]] = {key: frozenset(words) for key, words in data["asking"].items()}
        self.seen: Mapping[str, str] = data["seen"]
        self.told_by: Mapping[str, str] = data["told_by"]
        self.kind_of: Mapping[str, Mapping[str, str]] = data["kind_of"]
        self.harm: Mapping[str, str] = data["harm"]
        self.harmless: Mapping[str, list[str]] = data["harmless"]
        self.nowhere: Mapping[str, list[str]] = data["nowhere"]
        self.harmed: Mapping[str, str] = data["harmed"]
        self.circumstances: frozenset[str] = frozenset(data["circumstances"])
        self.measured: Mapping[str, str] = data["measured"]
        self.pronoun: Mapping[str, str] = data["pronoun"]
        self.off_each: Mapping[str, str] = data["off_each"]
        self.length_off: Mapping[str, str] = data["length_off"]
        self.spoken_many: Mapping[str, str] = data["spoken_many"]
        self.manner: Mapping[str, str] = data["manner"]
        self.way: Mapping[str, str] = data["way"]
        self.pair: Mapping[str, str] = data["pair"]
        self.rare: Mapping[str, float] = data["rare"]
        self.sense: Mapping[str, Any] = data["sense"]
        self.several: Mapping[str, list[str]] = data["several"]
        self.kinds: Mapping[str, Any] = data["kinds"]
        self.opening: frozenset[str] = frozenset(self.sense.get("opening", ()))
        self.inside: frozenset[str] = frozenset(self.sense.get("inside", ()))
        self.glossary: frozenset[str] = frozenset(data["glossary"])
        self._fuzzy: list[str] | None = None

    @property
    def fuzzy_words(self) -> list[str]:
        """Words that a slip may be taken for: five letters or more, and no little word."""
        if self._fuzzy is None:
            self._fuzzy = sorted(w for w in self.known if len(w) >= 4 and w.isalpha() and w not in self.little)
        return self._fuzzy

    def split(self, phrase: str) -> list[str]:
        return [word.text for word in split_words(phrase, self.short, self.bare)]

    def phrases(self, *types: str) -> list[tuple[str, str, Any]]:
        """(phrase, type, value) of every term of the given types, for completion and help."""
        return [(" ".join(words), kind, value) for words, kind, value in walk(self.trie, ()) if kind in types]


def walk(node: Trie, words: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str, Any]]:
    for key, inner in node.items():
        if key == END:
            for kind, value in inner:
                yield words, kind, value
        else:
            yield from walk(inner, (*words, key))
