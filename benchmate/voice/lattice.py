"""The ways through a lattice of words, best first: what fits the sound and what is said at this bench, together.

The recogniser writes down which words may have been said from when to when and how well each fits. Its own list of ways
drops the silences and takes words for them; here a silence stays one.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

LANGUAGE = 11.0  # how much a word's probability counts beside its sound, whose frames lean on one another
WORD = math.log(0.5)  # for each word, against many short ones
SILENCE, NOISE = math.log(0.005), math.log(1e-8)
NEVER = -1e12
EDGE_BEAM, WAY_BEAM = 70.0, 60.0  # nats below the best
_SLACK = 40.0  # an edge's price leaves out what stands before the word, so less may be cut by it
KEPT = 14  # ways kept at a word
_LOG_BASE = math.log(1.0001)  # of the scores in the recogniser's lattice
QUIET = frozenset({"<s>", "</s>", "<sil>"})
SENTENCE = ("<s>", "</s>")

Language = Callable[[str, str, str], float]  # natural logarithm of a word's probability behind two others


@dataclass(frozen=True, slots=True)
class Lattice:
    """words, starts: each node's word (without the number of its pronunciation) and first frame. after: (node, how well
    the first node's word fits, natural logarithm) of each edge that leaves a node."""

    words: tuple[str, ...]
    starts: tuple[int, ...]
    after: tuple[tuple[tuple[int, float], ...], ...]
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Way:
    """score: natural logarithm; the best way has the highest. pauses: the silence before each word, in frames.
    quiet_from: the frame at which a silence began that no word has ended yet, or -1."""

    score: float
    words: tuple[str, ...]
    pauses: tuple[int, ...] = ()
    quiet_from: int = -1

    @property
    def text(self) -> str:
        return " ".join(self.words)


def read_lattice(text: str) -> Lattice:
    """The recogniser's lattice file. Raises ValueError for what is none."""
    nodes, _, rest = text.partition("\nNodes ")[2].partition("\nInitial ")
    ends, _, edges = rest.partition("\nEdges ")
    words, starts = [], []
    for line in nodes.splitlines()[1:]:
        if line[:1].isdigit():
            _, word, start, *_ = line.split()
            words.append(word.partition("(")[0])
            starts.append(int(start))
    numbers = [int(word) for word in ends.replace("Final", " ").split() if word.isdigit()]
    if len(numbers) < 2 or not words:
        raise ValueError("no lattice")
    after: list[list[tuple[int, float]]] = [[] for _ in words]
    for line in edges.splitlines()[1:]:
        if line[:1].isdigit():
            one, other, score = line.split()
            after[int(one)].append((int(other), int(score) * _LOG_BASE))
    return Lattice(tuple(words), tuple(starts), tuple(map(tuple, after)), numbers[0], numbers[1])


def best_ways(lattice: Lattice, language: Language, most: int = KEPT, weight: float = LANGUAGE) -> list[Way]:
    """The ways through the lattice, best first, each run of words once."""
    price = _prices(lattice, language, weight)
    order = sorted(range(len(lattice.words)), key=lambda node: lattice.starts[node])
    behind = _behind(lattice, price, order)
    edges = _pruned(lattice, price, order, behind)
    return _search(lattice, edges, behind, order, language, weight, most)


def _prices(lattice: Lattice, language: Language, weight: float) -> list[float]:
    """What each node's word costs whatever stands before it."""
    out = []
    for word in lattice.words:
        if word in QUIET:
            out.append(SILENCE if word == "<sil>" else 0.0)
        elif word[0] in "[+":
            out.append(NOISE)
        else:
            out.append(weight * language(word, "", "") + WORD)
    return out


def _behind(lattice: Lattice, price: Sequence[float], order: Sequence[int]) -> list[float]:
    """The best score from each node to the end."""
    behind = [NEVER] * len(lattice.words)
    behind[lattice.last] = 0.0
    for node in reversed(order):
        for other, sound in lattice.after[node]:
            score = sound + price[other] + behind[other]
            if score > behind[node]:
                behind[node] = score
    return behind


def _pruned(
    lattice: Lattice, price: Sequence[float], order: Sequence[int], behind: Sequence[float]
) -> list[list[tuple[int, float]]]:
    """The edges that lie on a way near the best."""
    before = [NEVER] * len(lattice.words)
    before[lattice.first] = 0.0
    floor = behind[lattice.first] - EDGE_BEAM - _SLACK
    edges: list[list[tuple[int, float]]] = [[] for _ in lattice.words]
    for node in order:
        if before[node] + behind[node] < floor:
            continue
        for other, sound in lattice.after[node]:
            score = before[node] + sound + price[other]
            if score + behind[other] >= floor:
                edges[node].append((other, sound))
                before[other] = max(before[other], score)
    return edges


def _search(
    lattice: Lattice,
    edges: Sequence[Sequence[tuple[int, float]]],
    ahead: Sequence[float],
    order: Sequence[int],
    language: Language,
    weight: float,
    most: int,
) -> list[Way]:
    held: list[dict[tuple[str, ...], Way]] = [{} for _ in lattice.words]
    held[lattice.first][()] = Way(0.0, ())
    for node in order:
        if node == lattice.last or not held[node]:
            continue
        here = sorted(held[node].values(), key=lambda way: -way.score)[:most]
        held[node] = {}
        floor = here[0].score - WAY_BEAM
        here = [way for way in here if way.score >= floor]
        for other, sound in edges[node]:
            word, ways = lattice.words[other], held[other]
            if word in QUIET or word[0] in "[+":
                added = sound + (SILENCE if word == "<sil>" else NOISE if word[0] in "[+" else 0.0)
                for way in here:
                    score = way.score + added
                    if word == "</s>":
                        score += weight * language(word, *behind(way.words))
                    known = ways.get(way.words)
                    if known is None or known.score < score:
                        since = lattice.starts[other] if way.quiet_from < 0 else way.quiet_from
                        ways[way.words] = Way(score, way.words, way.pauses, since)
                continue
            start = lattice.starts[other]
            for way in here:
                score = way.score + sound + weight * language(word, *behind(way.words)) + WORD
                words = (*way.words, word)
                known = ways.get(words)
                if known is None or known.score < score:
                    pause = start - way.quiet_from if way.quiet_from >= 0 else 0
                    ways[words] = Way(score, words, (*way.pauses, pause))
    return sorted(held[lattice.last].values(), key=lambda way: -way.score)[: 4 * most]


def behind(words: tuple[str, ...]) -> tuple[str, str]:
    """(the word before, the one before that); "" where nothing stands."""
    if len(words) > 1:
        return words[-1], words[-2]
    return (words[0], "<s>") if words else ("<s>", "")
