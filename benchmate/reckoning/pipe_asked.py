"""Branches against the stem that carries them: the one that lacks, and whether they match."""

from __future__ import annotations

from collections.abc import Sequence

from .bounds import positive, within
from .figure import Band, Figure, FigureError, plain


def pipe_exponent(exponent: float) -> float:
    """The power, without a unit, to which diameters of branches add up: 1 to 4. Raises FigureError.

    >>> pipe_exponent(2)
    2.0
    """
    power = positive("an exponent", exponent)
    if not 1 <= power <= 4:
        raise FigureError(f"an exponent of {power:g} cannot be; 1.8 to 2.3 is what trees show")
    return power


def missing_child_mm(parent_mm: float, children_mm: Sequence[float], exponent: float = 2.0) -> float:
    """Diameter in mm of the one more branch that makes the others add up to their stem. Raises FigureError.

    >>> missing_child_mm(15, [12])
    9.0
    """
    power = pipe_exponent(exponent)
    lacks = positive("a parent", parent_mm) ** power - sum(positive("a child", child) ** power for child in children_mm)
    if lacks <= 0:
        raise FigureError(f"nothing is left of {plain(parent_mm)} mm beside those branches; a thicker stem would do")
    return float(lacks ** (1 / power))


def missing_child(children: Sequence[float], parent: float, exponent: Band) -> Figure:
    """The branch that lacks beside the others, in mm; the range by the exponents of trees."""
    value = missing_child_mm(parent, children, exponent.value)
    ends = [missing_child_mm(parent, children, power) for power in (exponent.low, exponent.high)]
    squares = " - ".join(f"{plain(child)}^2" for child in children)
    return Figure(
        "pipe-sum",
        value,
        "mm",
        min(ends),
        max(ends),
        f"cross-sections add up: root of {plain(parent)}^2 - {squares} = {plain(value)} mm for the one more branch",
        exponent.source,
        exponent.mark,
        "Living, leafy branches of one level; not stubs, grafts, burls or the flare at the roots.",
    )


def ratio_to_parent(children: Sequence[float], parent: float, exponent: Band) -> Figure:
    """The branches' cross-sections over the stem's, 1 where they match; the range by the exponents of trees."""
    value, *ends = (
        sum(child**power for child in children) / parent**power
        for power in (exponent.value, exponent.low, exponent.high)
    )
    squares = " + ".join(f"{plain(child)}^2" for child in children)
    word = "matches" if 0.8 <= value <= 1.2 else "is thin" if value > 1.2 else "is stout"
    return Figure(
        "pipe-sum",
        value,
        "ratio",
        min(ends),
        max(ends),
        f"({squares}) / {plain(parent)}^2 = {plain(value)}: the stem {word} for what it carries",
        exponent.source,
        exponent.mark,
        "Living, leafy branches of one level; not stubs, grafts, burls or the flare at the roots.",
    )


def stoutest_branch(trunk_mm: float, steps: Sequence[Band]) -> Figure:
    """The branch in mm that a trunk of trunk_mm still holds as a true side branch; high: the next step. Raises
    FigureError."""
    trunk, first, second = within("base_mm", trunk_mm), steps[0], steps[min(1, len(steps) - 1)]
    value = trunk * first.high
    return Figure(
        "union-ratio",
        value,
        "mm",
        value,
        trunk * second.high,
        f"{plain(first.high)} of {plain(trunk)} mm is {plain(value)} mm: {first.says}; up to "
        f"{plain(trunk * second.high)} mm it is {second.says}",
        first.source,
        first.mark,
        "The ratio tells how firmly the fork holds, and nothing of line, taper or health.",
    )
