"""A trigram model of sentences in the ARPA text form that speech recognisers read.

Probabilities by Kneser and Ney's way: from each count a little is taken off and given to what was not seen, by the
shorter context, in which a word counts once for each word that it was seen behind. So a word that follows anything
("branch") is expected behind a new one, and a word that follows one alone ("deodar") is not.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

START, END = "<s>", "</s>"
FEWEST = 2  # a trigram seen less often is left to its bigram
_NEVER = -99.0
_LEAST_OFF, _MOST_OFF = 0.3, (0.95, 1.6, 2.4)  # bounds of what is taken off, where a small sample tells little
_ALONE_OFF = 0.5  # taken off the number of words that a word was seen behind
Gram = tuple[str, ...]


def trigram_arpa(sentences: Iterable[Sequence[str]]) -> str:
    """The ARPA text of the trigram model of the sentences. Logarithms are to base ten."""
    return _arpa(_counted(sentences))


def mixed_arpa(parts: Sequence[tuple[float, Iterable[Sequence[str]]]]) -> str:
    """The ARPA text of models mixed: each of the parts has its share and its sentences.

    Each model leaves as much to what it has not seen as its own counts tell. Were the sentences counted together, those
    that were written down would drown in those that were made up, or be taken for all that can be said.
    """
    models = [(share, _counted(sentences)) for share, sentences in parts]
    tables: list[dict[Gram, float]] = []
    for size in range(3):
        grams = sorted({gram for _, model in models for gram in model.levels[size]})
        tables.append({gram: sum(share * model.probability(gram) for share, model in models) for gram in grams})
    backs = [_backing(table, shorter) for shorter, table in pairwise(tables)]
    return _arpa(_Model((tables[0], tables[1], tables[2]), (backs[0], backs[1])))


@dataclass(frozen=True, slots=True)
class _Model:
    """levels: probability of each gram, of one word, two and three. backs: context -> share of what its shorter form
    gives that holds behind it for words which were not seen there; of one word and of two."""

    levels: tuple[dict[Gram, float], dict[Gram, float], dict[Gram, float]]
    backs: tuple[dict[Gram, float], dict[Gram, float]]

    def probability(self, gram: Gram) -> float:
        """Of the last word behind the others; 0 for a word that this model does not know."""
        share = 1.0
        while gram not in self.levels[len(gram) - 1]:
            if len(gram) == 1:
                return 0.0
            share *= self.backs[len(gram) - 2].get(gram[:-1], 1.0)
            gram = gram[1:]
        return share * self.levels[len(gram) - 1][gram]


def _counted(sentences: Iterable[Sequence[str]]) -> _Model:
    seen: tuple[Counter[Gram], ...] = (Counter(), Counter())
    for sentence in sentences:
        words = (START, *sentence, END)
        for size in (2, 3):
            seen[size - 2].update(words[at : at + size] for at in range(len(words) - size + 1))
    one = _unigrams(Counter(gram[1:] for gram in seen[0]))
    two, back_one = _level(_continued(seen[0], seen[1]), one, 1)
    three, back_two = _level(seen[1], two, FEWEST)
    return _Model((one, two, three), (back_one, back_two))


def _arpa(model: _Model) -> str:
    (one, two, three), (back_one, back_two) = model.levels, model.backs
    lines = ["", "\\data\\"]
    lines += [f"ngram {size}={len(table) + (size == 1)}" for size, table in ((1, one), (2, two), (3, three))]
    lines += ["", "\\1-grams:", _line(_NEVER, (START,), back_one.get((START,), 1.0))]
    lines += [_line(_log(p), gram, back_one.get(gram, 1.0)) for gram, p in sorted(one.items())]
    lines += ["", "\\2-grams:"]
    lines += [_line(_log(p), gram, back_two.get(gram, 1.0)) for gram, p in sorted(two.items())]
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
    """(probabilities of the grams, share that each context leaves to the shorter ones)."""
    off = _taken_off(counts)
    followers: dict[Gram, list[tuple[Gram, int]]] = defaultdict(list)
    for gram, times in counts.items():
        followers[gram[:-1]].append((gram, times))
    table: dict[Gram, float] = {}
    for seen in followers.values():
        whole = sum(times for _, times in seen)
        given = sum(off[min(times, 3) - 1] for _, times in seen) / whole
        for gram, times in seen:
            if times >= fewest:
                table[gram] = (times - off[min(times, 3) - 1]) / whole + given * shorter.get(gram[1:], 0.0)
    return table, _backing(table, shorter)


def _backing(table: dict[Gram, float], shorter: dict[Gram, float]) -> dict[Gram, float]:
    """context -> what the grams leave behind it, as a share of what the shorter ones of the same words leave."""
    given: dict[Gram, list[float]] = {}
    for gram, p in table.items():
        sums = given.setdefault(gram[:-1], [0.0, 0.0])
        sums[0] += p
        sums[1] += shorter.get(gram[1:], 0.0)
    return {
        context: (1.0 - here) / (1.0 - below) if here < 1.0 and below < 1.0 - 1e-9 else 0.0
        for context, (here, below) in given.items()
    }


def _log(p: float) -> float:
    return math.log10(p) if p > 0 else _NEVER


def _line(p: float, gram: Gram, back: float) -> str:
    return f"{p:.4f} {' '.join(gram)} {_log(back):.4f}"
