"""Small plans against every plan there could be: none that the predicate lets stand is worth more."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import combinations
from typing import Any

import pytest
from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import NORTH, SOUTH, TROPIC, book, entries_of, only, tree_of, without_memory

from benchmate.garden.record import Place
from benchmate.planning.candidate import Candidate
from benchmate.planning.lay import Layout, lay_out

_MOST = 11
SETS = (
    ("repot-growing-broadleaf", "strip-leaves", "shorten-after-each-flush"),
    ("repot-growing-broadleaf", "wire-bare-branches", "shorten-strong-shoots", "feed-growing-tree"),
    ("cut-candles", "feed-two-flush-pine", "repot-refined-conifer"),
    ("cut-trunk-back", "let-leader-run", "repot-growing-broadleaf", "repot-growing-tender-tree"),
    (
        "look-at-vigour",
        "repot-growing-broadleaf",
        "repot-growing-conifer",
        "wire-conifer-branches",
        "feed-growing-tree",
    ),
    ("keep-outline", "halve-leaves", "strip-leaves", "repot-refined-broadleaf"),
    ("take-old-wire-off", "wire-bare-branches", "wire-conifer-branches", "repot-growing-broadleaf"),
    ("take-faulty-branch-off", "choose-one-leader", "repot-growing-broadleaf", "take-dead-branch"),
)


def enumerated(layout: Layout) -> int:
    """The value of the best of all plans, each judged whole by a judge that overlooks nothing."""
    layout = without_memory(layout)
    every, best = layout.candidates, 0
    for size in range(len(every) + 1):
        for plan in combinations(every, size):
            value = sum(one.value for one in plan)
            if value > best and stands(plan, layout):
                best = value
    return best


def grown(layout: Layout) -> int:
    """The same for more candidates: every plan that stands is reached from one that stands, without its last item."""
    layout = without_memory(layout)
    every, best = layout.candidates, 0
    open_ways: list[tuple[int, tuple[Candidate, ...]]] = [(0, ())]
    while open_ways:
        start, plan = open_ways.pop()
        best = max(best, sum(one.value for one in plan))
        for number in range(start, len(every)):
            longer = (*plan, every[number])
            if stands(longer, layout):
                open_ways.append((number + 1, longer))
    return best


def stands(plan: tuple[Candidate, ...], layout: Layout) -> bool:
    return all(layout.judge.fits(one, [other for other in plan if other is not one]) for one in plan)


def small(garden: Garden, wishes: tuple[str, ...]) -> Layout:
    return lay_out(garden.tree, garden.entries, garden.place, garden.on, garden.years, book(), only(*wishes))


def garden_of(place: Place, years: int, journal: list[dict[str, Any]], **tree: str) -> Garden:
    return Garden(tree_of(tree), tuple(entries_of(journal)), place, dt.date(2026, 6, 14), years)


LED = [{"at": dt.date(2025, 5, 1), "work": [{"work": "let-grow", "part": "leader"}]}]
WIRED = [{"at": dt.date(2025, 12, 10), "work": [{"work": "wire"}]}]
CASES = {
    "elm": (garden_of(NORTH, 2, [], species="Ulmus parvifolia", phase="ramification", health="strong"), SETS[0]),
    "maple-south": (garden_of(SOUTH, 2, [], species="Acer palmatum", phase="structure", health="healthy"), SETS[1][:2]),
    "pine": (garden_of(NORTH, 2, [], species="Pinus thunbergii", phase="refinement", health="strong"), SETS[2]),
    "trident": (garden_of(SOUTH, 2, LED, species="Acer buergerianum", phase="trunk", health="strong"), SETS[3]),
    "mending": (garden_of(NORTH, 2, [], species="Carpinus betulus", phase="structure", health="recovering"), SETS[4]),
    "old-wire": (garden_of(NORTH, 2, WIRED, species="Carpinus betulus", phase="structure", health="healthy"), SETS[6]),
    "fig": (garden_of(TROPIC, 1, LED, species="Ficus microcarpa", phase="trunk", health="strong"), SETS[3][::3]),
}


@pytest.mark.parametrize("case", CASES)
def test_no_better_plan_was_missed(case: str) -> None:
    layout = small(*CASES[case])
    assert len(layout.candidates) > 4
    assert layout.best.value == grown(layout) > 0


# trees that want something of a set: taxa and phase
WANTING = (
    (("Ulmus parvifolia", "Acer buergerianum"), "ramification", SETS[0]),
    (("Acer palmatum", "Carpinus betulus", "Betula pendula"), "structure", SETS[1]),
    (("Pinus thunbergii",), "refinement", SETS[2]),
    (("Acer buergerianum", "Ficus microcarpa", "Ulmus parvifolia"), "trunk", SETS[3]),
    (("Larix decidua", "Crataegus monogyna"), "structure", SETS[4]),
    (("Acer palmatum", "Ulmus parvifolia"), "refinement", SETS[5]),
    (("Carpinus betulus", "Juniperus chinensis"), "structure", SETS[6]),
    (("Acer campestre", "Malus", "Pinus sylvestris"), "structure", SETS[7]),
)


@st.composite
def wanting(draw: st.DrawFn) -> tuple[Garden, tuple[str, ...]]:
    taxa, phase, wishes = draw(st.sampled_from(WANTING))
    garden = draw(gardens(most_years=1))
    tree = replace(garden.tree, species=draw(st.sampled_from(taxa)), phase=phase)
    return replace(garden, tree=tree), wishes


@given(wanting())
@settings(max_examples=30, deadline=None)
def test_no_better_plan_was_missed_in_gardens_of_any_shape(case: tuple[Garden, tuple[str, ...]]) -> None:
    layout = small(*case)
    best = grown(layout)
    assert layout.best.value == best and layout.best.exact
    if len(layout.candidates) <= _MOST:
        assert enumerated(layout) == best
