"""The exact search: of all choices that the predicate lets stand, the one of most value, the earliest among equals.

Things are numbered in the order in which they would be done, and decided one after the other. Of two ways that look
alike to everything still to come only the better goes on; one that cannot reach the mark any more is dropped. Neither
loses a best choice: the mark is the value of a choice already found, and the bound is never too low.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

from benchmate.value import dataclass

Chosen = tuple[int, ...]
# how many ways are carried in the first, rough pass, which only sets the mark
_BEAM = 32


def _never(number: int) -> bool:
    return False


@dataclass(frozen=True, slots=True)
class Problem:
    """What is to be chosen from.

    values: of each thing, 1 and up. days: when each would begin, never falling. allowed: whether a thing may join those
    chosen before it. bears: whether a thing, chosen, may change the answer of `allowed` for a later one; never False
    where it may. chains: things that are bounded together. shuts: whether a thing, chosen, forbids a later one whatever
    else is chosen; only looked at within a chain. free: things that, where allowed, are in some best choice whatever
    else is chosen: they bear on later chances of one kind only, none of which is worth more. most_ways: how many ways
    are carried side by side; beyond that the least promising go, and the choice is no longer known to be the best.
    """

    values: Sequence[int]
    days: Sequence[int]
    allowed: Callable[[int, Chosen], bool]
    bears: Callable[[int, int], bool]
    chains: Sequence[Hashable]
    shuts: Callable[[int, int], bool]
    free: Callable[[int], bool] = _never
    most_ways: int = 4000


@dataclass(frozen=True, slots=True)
class Best:
    """chosen: numbers in order. value: their sum. looked: how many ways were carried on. exact: no better one exists;
    False where there were too many ways to carry them all."""

    chosen: Chosen
    value: int
    looked: int
    exact: bool = True


@dataclass(frozen=True, slots=True)
class _Way:
    """A choice so far. rest: the most that things still to come could add. lasts: chain -> its last chosen thing."""

    value: int
    days: int
    chosen: Chosen
    rest: int
    lasts: tuple[int, ...]

    @property
    def rank(self) -> tuple[int, int, Chosen]:
        return self.value, -self.days, tuple(-one for one in self.chosen)


class Search:
    """One problem, and what was worked out about it once: it may be searched from several starts."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        count = len(problem.values)
        self._live = [
            max((later for later in range(one + 1, count) if problem.bears(one, later)), default=one)
            for one in range(count)
        ]
        names = list(dict.fromkeys(problem.chains))
        self._chain = [names.index(name) for name in problem.chains]
        self._members = [[n for n, own in enumerate(self._chain) if own == chain] for chain in range(len(names))]
        self._most: dict[tuple[int, int], int] = {}

    def best(self, start: int = 0, fixed: Chosen = (), stop: int | None = None, most: int | None = None) -> Best:
        """The best choice among the things from `start` on, where `fixed` are chosen and others before are not.

        stop: the number to stop before, or None for the end. most: how many ways are carried, if not the problem's own.
        Of equal values the one with the smaller sum of days wins, then the one whose numbers come first.
        """
        end = len(self.problem.values) if stop is None else stop
        rough = self._run(start, fixed, end, None, _BEAM)
        found = self._run(start, fixed, end, rough.value, self.problem.most_ways if most is None else most)
        return Best(found.chosen, found.value, rough.looked + found.looked, found.exact)

    def _run(self, start: int, fixed: Chosen, end: int, mark: int | None, most: int) -> Best:
        problem = self.problem
        layer = {frozenset(one for one in fixed if self._live[one] >= start): self._first(start, fixed)}
        looked, exact = 0, True
        for number in range(start, end):
            following: dict[frozenset[int], _Way] = {}
            looked += len(layer)
            for way in layer.values():
                ways = [self._without(way, number)]
                if problem.allowed(number, way.chosen):
                    ways = [*([] if problem.free(number) else ways), self._joined(way, number)]
                for one in ways:
                    if mark is not None and one.value + one.rest < mark:
                        continue
                    key = frozenset(n for n in one.chosen if self._live[n] > number)
                    if key not in following or one.rank > following[key].rank:
                        following[key] = one
            layer = following
            if len(layer) > most:
                kept = sorted(layer.items(), key=lambda pair: (pair[1].value + pair[1].rest, pair[1].rank))
                layer, exact = dict(kept[-most:]), False
        best = max(layer.values(), key=lambda one: one.rank)
        return Best(best.chosen, best.value, looked, exact)

    def _first(self, start: int, fixed: Chosen) -> _Way:
        lasts = [-1] * len(self._members)
        for one in fixed:
            lasts[self._chain[one]] = one
        rest = sum(self.most(chain, last, start) for chain, last in enumerate(lasts))
        value = sum(self.problem.values[one] for one in fixed)
        return _Way(value, sum(self.problem.days[one] for one in fixed), fixed, rest, tuple(lasts))

    def _without(self, way: _Way, number: int) -> _Way:
        chain = self._chain[number]
        last = way.lasts[chain]
        rest = way.rest - self.most(chain, last, number) + self.most(chain, last, number + 1)
        return _Way(way.value, way.days, way.chosen, rest, way.lasts)

    def _joined(self, way: _Way, number: int) -> _Way:
        chain = self._chain[number]
        rest = way.rest - self.most(chain, way.lasts[chain], number) + self.most(chain, number, number + 1)
        lasts = (*way.lasts[:chain], number, *way.lasts[chain + 1 :])
        value, day = self.problem.values[number], self.problem.days[number]
        return _Way(way.value + value, way.days + day, (*way.chosen, number), rest, lasts)

    def most(self, chain: int, last: int, number: int) -> int:
        """The most that things of a chain from `number` on could add after `last` (-1: none).

        Never too little: of all that forbids them only what each does to the next is looked at.
        """
        first = next((n for n in self._members[chain] if n >= number), None)
        if first is None:
            return 0
        key = (last if last >= 0 else -1 - chain, first)
        if key not in self._most:
            beyond = self.most(chain, last, first + 1)
            if last < 0 or not self.problem.shuts(last, first):
                beyond = max(beyond, self.problem.values[first] + self.most(chain, first, first + 1))
            self._most[key] = beyond
        return self._most[key]


def best_choice(problem: Problem, start: int = 0, fixed: Chosen = ()) -> Best:
    """The best choice of a problem that is searched once."""
    return Search(problem).best(start, fixed)
