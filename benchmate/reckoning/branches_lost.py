"""The share of the leaf that goes with a branch, from the thickness of the branches (pipe model)."""

from __future__ import annotations

from collections.abc import Sequence

from .bounds import within
from .figure import Band, Beside, Figure, FigureError, plain


def share_of_branches(branches_mm: Sequence[float], lost_mm: Sequence[float], exponent: float = 2.0) -> float:
    """Share of the leaf that goes with branches `lost_mm` out of all the living ones of one level, 0 to 1.

    Leaf goes with the cross-section (pipe model; Shinozaki et al. 1964, as named in Eloy 2011). Raises FigureError.

    >>> round(share_of_branches([6, 6, 10], [6]), 4)
    0.2093
    """
    left = [within("diameter_mm", one) for one in branches_mm]
    for one in lost_mm:
        near = min(left, key=lambda other: abs(other - one), default=None)
        if near is None or abs(near - one) > 0.02 * one:
            raise FigureError(f"a branch of {plain(one)} mm is not among those told; one of them would do")
        left.remove(near)
    total = sum(one**exponent for one in branches_mm)
    return float(sum(one**exponent for one in lost_mm) / total)


def leaf_of_branches(branches_mm: Sequence[float], lost_mm: Sequence[float], exponent: Band) -> Figure:
    """Share of the leaf that goes with branches, by their cross-section; the range by the exponents of trees."""
    value, one, other = (
        share_of_branches(branches_mm, lost_mm, power) for power in (exponent.value, exponent.low, exponent.high)
    )
    told = " + ".join(f"{plain(branch)}^2" for branch in branches_mm)
    lost = " + ".join(f"{plain(branch)}^2" for branch in lost_mm)
    return Figure(
        "leaf-share",
        value,
        "share",
        min(one, other),
        max(one, other),
        f"({lost}) / ({told}) = {plain(100 * value)} % of the leaf, by the branches' cross-sections",
        exponent.source,
        exponent.mark,
        "Living, leafy branches of one level in like light; a shaded branch carries less.",
        (),
        (Beside("left", 1 - value, ""),),
    )
