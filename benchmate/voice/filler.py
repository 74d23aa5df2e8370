"""Terms of the lexicon to put into the places of a shape, each kind with how likely its terms are."""

from __future__ import annotations

import random
from bisect import bisect
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import accumulate
from typing import Any

from benchmate.hearing import Ear, Lexicon

from .said import number_words
from .shapes import Shape

SEEN_WEIGHT = 12.0  # a term that the examples use is that much likelier for each use
MOST_OF_A_KIND = 4_000
NAME_WEIGHT = 40.0
OWN = 0.5  # share of the trees spoken of that are of a species of the garden, beside what falls to those anyhow
LONGEST_SHORT = 5  # letters of a short form ("thurs"); a longer word is whole
VALUES = frozenset({"NUM", "MEASURE", "SHARE", "ORD", "DATE"})
_SAMPLE = 7


class Filler:
    """Terms of each kind with their weights, to be drawn from. names, species: of the garden's trees."""

    def __init__(
        self, ear: Ear, shapes: Sequence[Shape], names: Sequence[str] = (), species: Sequence[str] = ()
    ) -> None:
        lexicon = ear.lexicon
        uses = Counter((slot.kind, slot.words) for shape in shapes for slot in shape)
        self._terms: dict[str, tuple[list[tuple[str, ...]], list[float]]] = {}
        for kind in sorted({slot.kind for shape in shapes for slot in shape} | set(_spoken_kinds(ear))):
            if kind in VALUES or kind in ("", "WORDS"):
                found = {words: 0.3 for (used_as, words) in uses if used_as == kind}
            else:
                found = _weighed(lexicon, kind)
            if kind == "NAME":
                found = {tuple(lexicon.split(name)): NAME_WEIGHT for name in names}
            weights = [weight + SEEN_WEIGHT * uses[(kind, words)] * min(1.0, weight) for words, weight in found.items()]
            if kind == "SPECIES":
                weights = _with_own(lexicon, list(found), weights, species)
            if found:
                self._terms[kind] = list(found), list(accumulate(weights))
        self.kinds = Counter(slot.kind for shape in shapes for slot in shape)
        self._families = _families(lexicon)
        self._values = Counter(word for shape in shapes for slot in shape if slot.kind in VALUES for word in slot.words)

    def draw(self, kind: str, rng: random.Random) -> tuple[str, ...]:
        """A term of the kind; () where there is none."""
        if kind not in self._terms:
            return ()
        terms, sums = self._terms[kind]
        return self.vary(terms[min(bisect(sums, rng.random() * sums[-1]), len(terms) - 1)], kind, rng)

    def vary(self, words: tuple[str, ...], kind: str, rng: random.Random) -> tuple[str, ...]:
        """A value with other numbers, months, units and the like; a term of another kind as it is."""
        if kind not in VALUES:
            return words
        out: list[str] = []
        for word in words:
            out += [word] if rng.random() < 0.2 else self.another(word, rng)
        return tuple(out)

    def another(self, word: str, rng: random.Random) -> Sequence[str]:
        """What could stand in the place of a number, a month, a unit or the like; another word as it is."""
        family = self._families.get(word, (word,))
        if family == ("number",):
            return _some_number(rng)
        return rng.choices(family, [1 + self._values[other] for other in family])


def _weighed(lexicon: Lexicon, kind: str) -> dict[tuple[str, ...], float]:
    """Terms of a kind and how likely each is before any example is seen: plurals by rule and botanical names less."""
    terms: dict[tuple[str, ...], float] = {}
    phrases = lexicon.phrases(kind)
    if len(phrases) > MOST_OF_A_KIND:
        phrases = random.Random(_SAMPLE).sample(phrases, MOST_OF_A_KIND)
    said = {phrase for phrase, _, _ in phrases}
    for phrase, _, value in phrases:
        if not all(part.replace("'", "").isalpha() for part in phrase.split()):
            continue
        if phrase.endswith("ses") and phrase[:-3] in said:
            continue  # a plural made of a plural ("topses"), which nobody says
        weight = 1.0
        if phrase.endswith("s") and (phrase[:-1] in said or phrase[:-2] in said):
            weight = 0.1 if kind in ("SPECIES", "EVENT", "MEANS") else 0.7
        if kind == "SPECIES" and str(value).lower().startswith(phrase.split()[0]):
            weight *= 0.3
        terms[tuple(phrase.split())] = max(weight, terms.get(tuple(phrase.split()), 0.0))
    return terms


def _with_own(
    lexicon: Lexicon, terms: Sequence[tuple[str, ...]], weights: Sequence[float], species: Sequence[str]
) -> list[float]:
    """The weights of the species' names where OWN of all that is said of trees is said of those of the garden."""
    taxa = {taxon for name in species for taxon in (name, name.split()[0])}  # "maple" is said of any of the genus
    values: dict[tuple[str, ...], set[str]] = {}
    for phrase, _, value in lexicon.phrases("SPECIES"):
        values.setdefault(tuple(phrase.split()), set()).add(str(value))
    own = [not taxa.isdisjoint(values.get(term, ())) for term in terms]
    of_own = sum(weight for weight, mine in zip(weights, own, strict=True) if mine)
    if not of_own:
        return list(weights)
    times = 1 + OWN / (1 - OWN) * sum(weights) / of_own
    return [weight * times if mine else weight for weight, mine in zip(weights, own, strict=True)]


def _families(lexicon: Lexicon) -> dict[str, tuple[str, ...]]:
    """word -> words that could stand in its place in a value."""
    families: dict[str, tuple[str, ...]] = {}
    groups = [_said_whole(lexicon.dates.get(key, {})) for key in ("month", "weekday", "season")]
    groups.append([word for word in lexicon.numbers.get("ordinal", {}) if word.isalpha()][:8])
    groups += [["millimetres", "centimetres", "inches"], ["millimetre", "centimetre", "inch"]]
    groups += [["days", "weeks", "months"], ["today", "yesterday", "tomorrow"], ["last", "next", "this"]]
    for group in groups:
        kept = tuple(word for word in group if len(word) > 2 and word.isalpha())
        families.update((word, kept) for word in kept)
    numbers = {word for figure in range(2, 100) for word in number_words(figure)}
    families.update((word, ("number",)) for word in numbers)
    return families


def _said_whole(words: Mapping[str, Any]) -> list[str]:
    """Without short forms of another word for the same value, and without what is only a longer one: "weds" and "jan"
    are written, not said, and for "springtime" people say "spring"."""

    def another(word: str) -> Iterator[str]:
        return (other for other in words if other != word and words[other] == words[word])

    def is_short(word: str) -> bool:
        short = len(word) <= LONGEST_SHORT
        return short and any(whole[:3] == word[:3] and len(whole) > len(word) for whole in another(word))

    whole = [word for word in words if not is_short(word)]
    return [word for word in whole if not any(word.startswith(other) for other in another(word) if other in whole)]


def _some_number(rng: random.Random) -> list[str]:
    drawn = rng.random()
    if drawn < 0.6:
        return number_words(rng.randint(2, 12))
    return number_words(rng.randint(13, 60) if drawn < 0.85 else 5 * rng.randint(2, 19))


def _spoken_kinds(ear: Ear) -> Iterator[str]:
    yield from sorted(ear.automaton.expected(ear.automaton.start) - {"$END"})
