"""The exact search: of all choices that the predicate lets stand, the one of most value, the earliest among equals.

Things are numbered in the order in which they would be done, and decided one after the other. Of two ways that look
alike to everything still to come only the better goes on; one that cannot reach the mark any more is dropped. Neither
loses a best choice: the mark is the value of a choice already found, and the bound is never too low.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import NamedTuple

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
    chosen before it; it is told only of those that bear on it. bears: whether a thing, chosen, may change the answer
    of `allowed` for a later one; never False where it may. chains: things that are bounded together. shuts: whether a
    thing, chosen, forbids a later one whatever else is chosen; only looked at within a chain. free: things that, where
    allowed, are in some best choice whatever else is chosen: they bear on later chances of one kind only, none of which
    is worth more. most_ways: how many ways are carried side by side; beyond that the least promising go, and the choice
    is no longer known to be the best.
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


class _Way(NamedTuple):
    """A choice so far. mask: the chosen as bits. rest: the most that things still to come could add.

    lasts: chain -> its last chosen thing.
    """

    value: int
    days: int
    chosen: Chosen
    mask: int
    rest: int
    lasts: tuple[int, ...]


class Search:
    """One problem, and what was worked out about it once: it may be searched from several starts."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        count = len(problem.values)
        # what bears on each thing, as bits: of all that is chosen, nothing else can change whether it is allowed
        self._bearing = [sum(1 << one for one in range(later) if problem.bears(one, later)) for later in range(count)]
        # what still bears on something after each thing
        self._alive = [0] * count
        for number in range(count - 2, -1, -1):
            self._alive[number] = self._alive[number + 1] | self._bearing[number + 1]
        names = list(dict.fromkeys(problem.chains))
        self._chain = [names.index(name) for name in problem.chains]
        self._members = [[n for n, own in enumerate(self._chain) if own == chain] for chain in range(len(names))]
        self._most: dict[tuple[int, int], int] = {}
        self._passing: dict[tuple[int, int], int] = {}
        self._allowed: dict[tuple[int, int], bool] = {}

    def best(self, start: int = 0, fixed: Chosen = (), stop: int | None = None, most: int | None = None) -> Best:
        """The best choice among the things from `start` on, where `fixed` are chosen and others before are not.

        stop: the number to stop before, or None for the end. most: how many ways are carried, if not the problem's own.
        Of equal values the one with the smaller sum of days wins, then the one whose numbers come first.
        """
        end = len(self.problem.values) if stop is None else stop
        rough = self._run(start, fixed, end, None, _BEAM)
        if rough.exact:
            return rough  # nothing was dropped, so there is no better one to look for
        found = self._run(start, fixed, end, rough.value, self.problem.most_ways if most is None else most)
        return Best(found.chosen, found.value, rough.looked + found.looked, found.exact)

    def _run(self, start: int, fixed: Chosen, end: int, mark: int | None, most: int) -> Best:
        layer = [self._first(start, fixed)]
        looked, exact = 0, True
        for number in range(start, end):
            following: dict[int, _Way] = {}
            looked += len(layer)
            alive, free = self._alive[number], self.problem.free(number)
            for way in layer:
                joins = self._joins(number, way)
                for one in self._onward(way, number, joins, joins and free, mark):
                    key = one.mask & alive
                    other = following.get(key)
                    if other is None or _better(one, other):
                        following[key] = one
            layer = list(following.values())
            if len(layer) > most:
                layer.sort(key=_promise)
                del layer[most:]
                exact = False
        best = min(layer, key=_order)
        return Best(best.chosen, best.value, looked, exact)

    def _joins(self, number: int, way: _Way) -> bool:
        """Whether a thing may join a way, asked once for all ways that are alike to it."""
        key = number, way.mask & self._bearing[number]
        if key not in self._allowed:
            near = tuple(one for one in way.chosen if key[1] >> one & 1)
            self._allowed[key] = self.problem.allowed(number, near)
        return self._allowed[key]

    def _first(self, start: int, fixed: Chosen) -> _Way:
        lasts = [-1] * len(self._members)
        for one in fixed:
            lasts[self._chain[one]] = one
        rest = sum(self.most(chain, last, start) for chain, last in enumerate(lasts))
        value = sum(self.problem.values[one] for one in fixed)
        mask = sum(1 << one for one in fixed)
        return _Way(value, sum(self.problem.days[one] for one in fixed), fixed, mask, rest, tuple(lasts))

    def _onward(self, way: _Way, number: int, joins: bool, only: bool, mark: int | None) -> Iterator[_Way]:
        """The way with the thing and without it, as far as they may still reach the mark. only: not without it.

        Most ways end here, so a way is made only once it is known to go on.
        """
        chain = self._chain[number]
        last = way.lasts[chain]
        value, days, chosen, mask, rest, lasts = way
        if joins:
            worth = value + self.problem.values[number]
            more = rest - self.most(chain, last, number) + self.most(chain, number, number + 1)
            if mark is None or worth + more >= mark:
                later = days + self.problem.days[number]
                now = (*lasts[:chain], number, *lasts[chain + 1 :])
                yield _Way(worth, later, (*chosen, number), mask | 1 << number, more, now)
        if not only:
            saved = self._saved(chain, last, number)
            if mark is None or value + rest - saved >= mark:
                yield _Way(value, days, chosen, mask, rest - saved, lasts) if saved else way

    def _saved(self, chain: int, last: int, number: int) -> int:
        """By how much a chain's bound falls once a thing of it is passed over."""
        key = number, last
        if key not in self._passing:
            self._passing[key] = self.most(chain, last, number) - self.most(chain, last, number + 1)
        return self._passing[key]

    def most(self, chain: int, last: int, number: int) -> int:
        """The most that things of a chain from `number` on could add after `last` (-1: none).

        Never too little: of all that forbids them only what each does to the next is looked at.
        """
        members = self._members[chain]
        place = bisect_left(members, number)
        if place == len(members):
            return 0
        first = members[place]
        key = (last if last >= 0 else -1 - chain, first)
        if key not in self._most:
            beyond = self.most(chain, last, first + 1)
            if last < 0 or not self.problem.shuts(last, first):
                beyond = max(beyond, self.problem.values[first] + self.most(chain, first, first + 1))
            self._most[key] = beyond
        return self._most[key]


def _order(way: _Way) -> tuple[int, int, Chosen]:
    """The best first; of equal values and days the one whose numbers come first."""
    return -way.value, way.days, way.chosen


def _promise(way: _Way) -> tuple[int, int, int, Chosen]:
    """The one that may yet add up to most first."""
    return -way.value - way.rest, -way.value, way.days, way.chosen


def _better(one: _Way, other: _Way) -> bool:
    if one.value != other.value or one.days != other.days:
        return one.value > other.value or (one.value == other.value and one.days < other.days)
    return one.chosen < other.chosen


def best_choice(problem: Problem, start: int = 0, fixed: Chosen = ()) -> Best:
    """The best choice of a problem that is searched once."""
    return Search(problem).best(start, fixed)
