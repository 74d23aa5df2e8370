"""The search against enumeration: on small problems of any shape no better choice was missed."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from benchmate.planning.search import Best, Problem, Search, best_choice


@dataclass(frozen=True)
class Puzzle:
    """Things that shut one another out, spend a budget, or need one that was chosen before."""

    values: tuple[int, ...]
    days: tuple[int, ...]
    chains: tuple[int, ...]
    shut: frozenset[tuple[int, int]]
    spends: frozenset[int]
    budget: int
    needs: dict[int, int]

    def allowed(self, number: int, chosen: tuple[int, ...]) -> bool:
        if any((one, number) in self.shut for one in chosen):
            return False
        if number in self.spends and sum(one in self.spends for one in chosen) >= self.budget:
            return False
        return number not in self.needs or self.needs[number] in chosen

    def bears(self, one: int, other: int) -> bool:
        both = one in self.spends and other in self.spends
        return (one, other) in self.shut or both or self.needs.get(other) == one

    @property
    def problem(self) -> Problem:
        return Problem(
            self.values, self.days, self.allowed, self.bears, self.chains, lambda one, other: (one, other) in self.shut
        )


@st.composite
def puzzles(draw: st.DrawFn) -> Puzzle:
    count = draw(st.integers(0, 9))
    pairs = [(one, other) for other in range(count) for one in range(other)]
    needs = {
        number: draw(st.integers(0, number - 1))
        for number in draw(st.sets(st.integers(1, max(1, count - 1)), max_size=3))
        if number < count
    }
    return Puzzle(
        tuple(draw(st.lists(st.integers(1, 6), min_size=count, max_size=count))),
        tuple(sorted(draw(st.lists(st.integers(0, 5), min_size=count, max_size=count)))),
        tuple(draw(st.lists(st.integers(0, 2), min_size=count, max_size=count))),
        frozenset(draw(st.sets(st.sampled_from(pairs)))) if pairs else frozenset(),
        frozenset(draw(st.sets(st.integers(0, max(0, count - 1))))),
        draw(st.integers(0, 3)),
        needs,
    )


def enumerated(puzzle: Puzzle, start: int = 0, fixed: tuple[int, ...] = ()) -> tuple[int, int]:
    """Value and sum of days of the best of all choices that stand."""
    best = (-1, 0)
    later = range(start, len(puzzle.values))
    for size in range(len(later) + 1):
        for more in combinations(later, size):
            chosen = (*fixed, *more)
            if all(puzzle.allowed(one, tuple(o for o in chosen if o < one)) for one in more):
                value = sum(puzzle.values[one] for one in chosen)
                best = max(best, (value, -sum(puzzle.days[one] for one in chosen)))
    return best


def told(puzzle: Puzzle, best: Best) -> tuple[int, int]:
    return best.value, -sum(puzzle.days[one] for one in best.chosen)


@given(puzzles())
@settings(max_examples=400, deadline=None)
def test_no_better_choice_was_missed(puzzle: Puzzle) -> None:
    best = best_choice(puzzle.problem)
    for position, number in enumerate(best.chosen):
        assert puzzle.allowed(number, best.chosen[:position])
    assert told(puzzle, best) == enumerated(puzzle)


@given(puzzles(), st.data())
@settings(max_examples=200, deadline=None)
def test_what_is_fixed_stays_and_the_rest_is_best(puzzle: Puzzle, data: st.DataObject) -> None:
    search = Search(puzzle.problem)
    whole = search.best()
    start = data.draw(st.integers(0, len(puzzle.values)))
    fixed = tuple(one for one in whole.chosen if one < start)
    again = search.best(start, fixed)
    assert again.chosen[: len(fixed)] == fixed
    assert told(puzzle, again) == enumerated(puzzle, start, fixed)


@given(puzzles())
@settings(max_examples=200, deadline=None)
def test_the_bound_is_never_too_low(puzzle: Puzzle) -> None:
    search = Search(puzzle.problem)
    bound = sum(search.most(chain, -1, 0) for chain in range(len(set(puzzle.chains))))
    assert bound >= search.best().value


def test_nothing_to_choose_from_is_no_fault() -> None:
    assert best_choice(Problem((), (), lambda n, c: True, lambda a, b: False, (), lambda a, b: False)).chosen == ()


def test_of_equals_the_earlier_one_wins() -> None:
    shut = frozenset({(0, 1)})
    puzzle = Puzzle((5, 5), (1, 9), (0, 0), shut, frozenset(), 0, {})
    assert best_choice(puzzle.problem).chosen == (0,)
