"""Statements as growers say them, with other trees, numbers, months and sides: what is said of one is said of any.

No reading is needed: a name that is nothing but a tree's, a number, a month is known by its word alone. So statements
of any shape can be varied, also such as the ear does not take in whole, and thousands in a second.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence

from benchmate.hearing import Lexicon
from benchmate.hearing.vocabulary.lexicon import walk

from .filler import Filler

SPECIES, POSSESSIVE = "SPECIES", "'s"
KEPT = 0.4  # share of places that keep their own words
Words = Sequence[str]


class Variation:
    """Puts other words of the same kind into statements.

    alike: sets of words one of which may stand for another, behind one of certain words. fixed: words that are also
    something else ("may"), so that their place tells nothing.
    """

    def __init__(
        self,
        lexicon: Lexicon,
        filler: Filler,
        alike: Sequence[Words] = (),
        behind: Words = (),
        fixed: Words = (),
    ) -> None:
        self._filler = filler
        self._trees = _names_of_one_tree(lexicon)
        self._longest = max(map(len, self._trees), default=0)
        self._alike: Mapping[str, Words] = {word: group for group in alike for word in group}
        self._behind, self._fixed = frozenset(behind), frozenset(fixed)

    def of(self, statement: Words, rng: random.Random) -> Iterator[str]:
        """The words of the statement, some of them changed."""
        at = 0
        while at < len(statement):
            length, ending = self._tree_at(statement, at)
            kept = rng.random() < KEPT
            if length and not kept:
                *front, last = self._filler.draw(SPECIES, rng) or statement[at : at + length]
                yield from (*front, last.removesuffix(ending) + ending)
            elif kept or length:
                yield from statement[at : at + max(1, length)]
            else:
                yield from self._other_word(statement[at], statement[at - 1] if at else "", rng)
            at += max(1, length)

    def _tree_at(self, statement: Words, at: int) -> tuple[int, str]:
        """(how many words of a tree's name begin here, 0 where none does; what hangs on it: "'s" or nothing)."""
        for size in range(min(self._longest, len(statement) - at), 0, -1):
            *front, last = statement[at : at + size]
            whole = last.removesuffix(POSSESSIVE)
            if (*front, whole) in self._trees:
                return size, last[len(whole) :]
        return 0, ""

    def _other_word(self, word: str, before: str, rng: random.Random) -> Words:
        if word in self._alike:
            return (rng.choice(self._alike[word]),) if before in self._behind else (word,)
        return (word,) if word in self._fixed else self._filler.another(word, rng)


def _names_of_one_tree(lexicon: Lexicon) -> frozenset[tuple[str, ...]]:
    """Names of trees, of one tree and not of many, that mean nothing else."""
    names: set[tuple[str, ...]] = set()
    other: set[tuple[str, ...]] = set()
    for name, kind, _ in walk(lexicon.trie, ()):
        (names if kind == SPECIES else other).add(name)
    many = {name for name in names if name[-1][-1] == "s" and (*name[:-1], name[-1][:-1]) in names}
    return frozenset(names - other - many)
