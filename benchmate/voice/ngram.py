"""A trigram model of sentences in the ARPA text form that speech recognisers read.

Probabilities by Kneser and Ney's way: from each count a little is taken off and given to what was not seen, by the
shorter context, in which a word counts once for each word that it was seen behind. So a word that follows anything
("branch") is expected behind a new one, and a word that follows one alone ("deodar") is not.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

START, END = "<s>", "</s>"
FEWEST = 2  # a trigram seen less often is left to its bigram
_NEVER = -99.0
_LEAST_OFF, _MOST_OFF = 0.3, (0.95, 1.6, 2.4)  # bounds of what is taken off, where a small sample tells little
_ALONE_OFF = 0.5  # taken off the number of words that a word was seen behind
Gram = tuple[str, ...]


def trigram_arpa(sentences: Iterable[Sequence[str]]) -> str:
    """The ARPA text of the trigram model of the sentences. Logarithms are to base ten."""
    seen: tuple[Counter[Gram], ...] = (Counter(), Counter())
    for sentence in sentences:
        words = (START, *sentence, END)
        for size in (2, 3):
            seen[size - 2].update(words[at : at + size] for at in range(len(words) - size + 1))
    one = _unigrams(Counter(gram[1:] for gram in seen[0]))
    two, back_one = _level(_continued(seen[0], seen[1]), one, 1)
    three, back_two = _level(seen[1], two, FEWEST)
    lines = ["", "\\data\\"]
    lines += [f"ngram {size}={len(table) + (size == 1)}" for size, table in ((1, one), (2, two), (3, three))]
    lines += ["", "\\1-grams:", _line(_NEVER, (START,), back_one.get((START,), 0.0))]
    lines += [_line(_log(p), gram, back_one.get(gram, 0.0)) for gram, p in sorted(one.items())]
    lines += ["", "\\2-grams:"]
    lines += [_line(_log(p), gram, back_two.get(gram, 0.0)) for gram, p in sorted(two.items())]
    lines += ["", "\\3-grams:"]
    lines += [f"{_log(p):.4f} {' '.join(gram)}" for gram, p in sorted(three.items())]
    return "\n".join([*lines, "", "\\end\\", ""])


def _continued(pairs: Counter[Gram], triples: Counter[Gram]) -> Counter[Gram]:
    """pair -> how many words it was seen behind; at the start of a sentence, where nothing stands before, how often."""
    counts = Counter(gram[1:] for gram in triples)
    counts.update({gram: times for gram, times in pairs.items() if gram[0] == START})
    return counts


def _unigrams(counts: Counter[Gram]) -> dict[Gram, float]:
    whole = sum(times - _ALONE_OFF for times in counts.values())
    return {gram: (times - _ALONE_OFF) / whole for gram, times in counts.items()}


def _taken_off(counts: Counter[Gram]) -> tuple[float, float, float]:
    """What is taken off a count of one, of two and of more (Chen and Goodman's estimate from the counts of counts)."""
    kinds = Counter(min(times, 5) for times in counts.values())
    one, two, three, four = (max(1, kinds[times]) for times in (1, 2, 3, 4))
    share = one / (one + 2 * two)
    found = (1 - 2 * share * two / one, 2 - 3 * share * three / two, 3 - 4 * share * four / three)
    return tuple(min(max(off, _LEAST_OFF), most) for off, most in zip(found, _MOST_OFF, strict=True))  # type: ignore[return-value]


def _level(
    counts: Counter[Gram], shorter: dict[Gram, float], fewest: int
) -> tuple[dict[Gram, float], dict[Gram, float]]:
    """(probabilities of the grams, log of the share that each context leaves to the shorter ones)."""
    off = _taken_off(counts)
    followers: dict[Gram, list[tuple[Gram, int]]] = defaultdict(list)
    for gram, times in counts.items():
        followers[gram[:-1]].append((gram, times))
    table: dict[Gram, float] = {}
    back: dict[Gram, float] = {}
    for context, seen in followers.items():
        whole = sum(times for _, times in seen)
        given = sum(off[min(times, 3) - 1] for _, times in seen) / whole
        kept = [(gram, times) for gram, times in seen if times >= fewest]
        for gram, times in kept:
            table[gram] = (times - off[min(times, 3) - 1]) / whole + given * shorter.get(gram[1:], 0.0)
        left = 1.0 - sum(table[gram] for gram, _ in kept)
        below = 1.0 - sum(shorter.get(gram[1:], 0.0) for gram, _ in kept)
        back[context] = _log(left / below) if left > 0 and below > 1e-9 else _NEVER
    return table, back


def _log(p: float) -> float:
    return math.log10(p) if p > 0 else _NEVER


def _line(p: float, gram: Gram, back: float) -> str:
    return f"{p:.4f} {' '.join(gram)} {back:.4f}"
