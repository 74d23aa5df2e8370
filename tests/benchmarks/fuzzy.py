"""The fuzzy part: words that the lexicon does not know, by rapidfuzz and by difflib: python tests/benchmarks/fuzzy.py

Slips are made from the lexicon's own words: a letter lost, doubled, swapped or mistaken. Each looks for the nearest of
the same words; told are the time of each, as a ratio, and how often the word meant comes first.
"""

from __future__ import annotations

import difflib
import random
import statistics
import time
from collections.abc import Callable

from rapidfuzz import process
from rapidfuzz.distance import OSA

from benchmate.hearing.lattice.spotting import Spotter
from benchmate.talk.house import House

SLIPS = 300


def slip(word: str, chance: random.Random) -> str:
    at = chance.randrange(1, len(word) - 1)
    return chance.choice(
        [
            word[:at] + word[at + 1 :],
            word[:at] + word[at] + word[at:],
            word[:at] + word[at + 1] + word[at] + word[at + 2 :],
            word[:at] + chance.choice("aeiorstn") + word[at + 1 :],
        ]
    )


def measured(find: Callable[[str], str | None], slips: list[tuple[str, str]]) -> tuple[float, float]:
    """Median seconds a word, share of words found first."""
    taken, right = [], 0
    for word, meant in slips:
        start = time.perf_counter()
        found = find(word)
        taken.append(time.perf_counter() - start)
        right += found == meant
    return statistics.median(taken), right / len(slips)


def main() -> None:
    chance = random.Random(11)
    lexicon = House(None).lexicon
    words = lexicon.fuzzy_words
    long = [word for word in words if len(word) >= 6]
    pairs = ((slip(word, chance), word) for word in chance.choices(long, k=SLIPS * 2))
    slips = [(word, meant) for word, meant in pairs if word not in lexicon.known and word not in lexicon.plain][:SLIPS]

    def by_rapidfuzz(word: str) -> str | None:
        found = process.extractOne(word, words, scorer=OSA.distance, score_cutoff=2)
        return found[0] if found else None

    def by_difflib(word: str) -> str | None:
        return next(iter(difflib.get_close_matches(word, words, 1)), None)

    def by_benchmate(word: str) -> str | None:
        return next((meant for meant, _ in spotter.slips(word)), None)

    spotter = Spotter(lexicon)
    base, right = measured(by_rapidfuzz, slips)
    print(f"{len(words):,} words, {len(slips)} slips")
    print(f"{'rapidfuzz, OSA distance':<34} {base * 1000:7.3f} ms    1.00 x   {right:6.1%} right first")
    for name, find in (("benchmate (ranked, first letter kept)", by_benchmate), ("difflib", by_difflib)):
        taken, right = measured(find, slips)
        print(f"{name:<34} {taken * 1000:7.3f} ms {taken / base:7.2f} x   {right:6.1%} right first")


if __name__ == "__main__":
    main()
