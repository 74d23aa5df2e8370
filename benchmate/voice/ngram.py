"""A trigram model of sentences in the ARPA text form that speech recognisers read.

Probabilities by Witten and Bell's way of keeping a share for what was not seen: behind each context, as many parts as
there are kinds of follower. Longer contexts fall back on shorter ones.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

START, END = "<s>", "</s>"
FEWEST = 2  # a trigram seen less often is left to its bigram
_NEVER = -99.0
Gram = tuple[str, ...]


def trigram_arpa(sentences: Iterable[Sequence[str]]) -> str:
    """The ARPA text of the trigram model of the sentences. Logarithms are to base ten."""
    counts: tuple[Counter[Gram], ...] = (Counter(), Counter(), Counter())
    for sentence in sentences:
        words = (START, *sentence, END)
        for size in (1, 2, 3):
            counts[size - 1].update(words[at : at + size] for at in range(len(words) - size + 1))
    counts[0].pop((START,), None)
    for gram in [gram for gram, times in counts[2].items() if times < FEWEST]:
        del counts[2][gram]
    one = _unigrams(counts[0])
    two, back_one = _level(counts[1], one)
    three, back_two = _level(counts[2], two)
    lines = ["", "\\data\\"]
    lines += [f"ngram {size}={len(table) + (size == 1)}" for size, table in ((1, one), (2, two), (3, three))]
    lines += ["", "\\1-grams:", _line(_NEVER, (START,), back_one.get((START,), 0.0))]
    lines += [_line(_log(p), gram, back_one.get(gram, 0.0)) for gram, p in sorted(one.items())]
    lines += ["", "\\2-grams:"]
    lines += [_line(_log(p), gram, back_two.get(gram, 0.0)) for gram, p in sorted(two.items())]
    lines += ["", "\\3-grams:"]
    lines += [f"{_log(p):.4f} {' '.join(gram)}" for gram, p in sorted(three.items())]
    return "\n".join([*lines, "", "\\end\\", ""])


def _unigrams(counts: Counter[Gram]) -> dict[Gram, float]:
    whole = sum(counts.values())
    return {gram: times / whole for gram, times in counts.items()}


def _level(counts: Counter[Gram], shorter: dict[Gram, float]) -> tuple[dict[Gram, float], dict[Gram, float]]:
    """(probabilities of the grams, log of the share that each context leaves to the shorter ones)."""
    followers: dict[Gram, list[tuple[Gram, int]]] = defaultdict(list)
    for gram, times in counts.items():
        followers[gram[:-1]].append((gram, times))
    table: dict[Gram, float] = {}
    back: dict[Gram, float] = {}
    for context, seen in followers.items():
        whole, kinds = sum(times for _, times in seen), len(seen)
        for gram, times in seen:
            table[gram] = times / (whole + kinds) + kinds / (whole + kinds) * shorter.get(gram[1:], 0.0)
        left = 1.0 - sum(table[gram] for gram, _ in seen)
        below = 1.0 - sum(shorter.get(gram[1:], 0.0) for gram, _ in seen)
        back[context] = _log(left / below) if left > 0 and below > 1e-9 else _NEVER
    return table, back


def _log(p: float) -> float:
    return math.log10(p) if p > 0 else _NEVER


def _line(p: float, gram: Gram, back: float) -> str:
    return f"{p:.4f} {' '.join(gram)} {back:.4f}"
