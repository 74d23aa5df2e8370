"""Completion as words are typed: trees first, then species, works and what the talk itself understands."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from benchmate.value import dataclass

_WORD_STARTS = re.compile(r"(?<!\S)\S")
LONGEST_PHRASE = 4
MOST = 12


@dataclass(frozen=True, slots=True)
class Phrase:
    """words: as they complete. kind: tree, species, work, talk or word: told beside it."""

    words: str
    kind: str


@dataclass(frozen=True, slots=True)
class Completion:
    """What may stand in place of the last `length` characters."""

    words: str
    length: int
    kind: str


class Phrases:
    """Phrases in alphabetical order, found by their beginnings."""

    def __init__(self, phrases: Iterable[Phrase]) -> None:
        ordered = sorted(
            {(phrase.words.casefold(), rank(phrase.kind), phrase.words, phrase.kind) for phrase in phrases}
        )
        self._keys = [key for key, *_ in ordered]
        self._phrases = [Phrase(words, kind) for _, _, words, kind in ordered]

    def starting(self, begun: str) -> Iterator[Phrase]:
        """The phrases that begin so and go on."""
        from bisect import bisect_left

        begun = begun.casefold()
        at = bisect_left(self._keys, begun)
        while at < len(self._keys) and self._keys[at].startswith(begun):
            if len(self._keys[at]) > len(begun):
                yield self._phrases[at]
            at += 1


_KINDS = ("tree", "talk", "species", "work", "word")


def rank(kind: str) -> int:
    """Where a kind stands among completions: the garden's own trees first."""
    return _KINDS.index(kind) if kind in _KINDS else len(_KINDS)


def complete(before: str, phrases: Phrases) -> list[Completion]:
    """What the words before the cursor may become; the longest begun phrase first, two letters at least."""
    starts = [match.start() for match in _WORD_STARTS.finditer(before)][-LONGEST_PHRASE:]
    seen: set[str] = set()
    found: list[Completion] = []
    for start in starts:
        begun = before[start:]
        if len(begun.strip()) < 2 or (begun.endswith(" ") and start == starts[-1]):
            continue
        hits = [phrase for phrase in phrases.starting(begun) if phrase.words.casefold() not in seen]
        hits.sort(key=lambda phrase: (rank(phrase.kind), len(phrase.words)))
        for phrase in hits[: MOST - len(found)]:
            seen.add(phrase.words.casefold())
            found.append(Completion(phrase.words, len(begun), phrase.kind))
    return found


def phrases_of(
    trees: Sequence[str], species: Iterable[str], works: Iterable[str], talk: Iterable[str], words: Iterable[str] = ()
) -> Phrases:
    """All that may be completed."""
    groups = (("tree", trees), ("species", species), ("work", works), ("talk", talk), ("word", words))
    return Phrases(Phrase(words, kind) for kind, group in groups for words in group if len(words) > 2)
