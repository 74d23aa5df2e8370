"""Leaf taken: the area of a leaf, what a cut across it removes, and the share of the crown's leaf that work took."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .blades import tip_cut
from .bounds import positive, within
from .branches_lost import leaf_of_branches
from .figure import Band, Beside, Figure, FigureError, plain

ELLIPSE, TRIANGLE = math.pi / 4, 0.5  # leaf area over length x width (Shi et al. 2019, Forests 10:178)


def leaf_area_mm2(length_mm: float, width_mm: float, factor: float = 2 / 3) -> float:
    """Area of one side of a leaf in mm2: factor x length x width. factor: 0.3 to 1, by the leaf's shape.

    Source: Schrader et al. 2021, Annals of Botany 128:395-406: 2/3 in general, 0.39 deeply cut to 0.79 round.

    >>> round(leaf_area_mm2(60, 40), 1)
    1600.0
    """
    if not 0.3 <= factor <= 1:
        raise FigureError(f"a leaf shape of {factor:g} cannot be; 0.39 (deeply cut) to 0.79 (round) would do")
    return factor * positive("a leaf length", length_mm) * positive("a leaf width", width_mm)


def share_taken(leaves_cut: float, leaves_total: float, share_each: float = 1.0) -> float:
    """Share of the leaf taken, 0 to 1, where some of equal leaves lose a share of themselves. Raises FigureError.

    >>> share_taken(30, 50, 0.5)
    0.3
    """
    total, cut = within("count", leaves_total), within("count", leaves_cut)
    if total < 1:
        raise FigureError("a share of no leaves cannot be; the count of all leaves would do")
    if cut > total:
        raise FigureError(f"{plain(cut)} of {plain(total)} leaves cannot be cut; up to {plain(total)} would do")
    return cut * within("share", share_each) / total


def share_gone(shares: Sequence[float]) -> float:
    """Share of a season's leaf gone after several works, each share being of the leaf that stood then.

    >>> round(share_gone([0.25, 0.2]), 3)
    0.4
    """
    left = 1.0
    for share in shares:
        left *= 1 - within("share", share)
    return 1 - left


def leaf_share(
    leaves_cut: float | None = None,
    leaves_total: float | None = None,
    leaves_left: float | None = None,
    share: float | None = None,
    taken: Sequence[float] | None = None,
    halving: Band | None = None,
    leaves_halved: float | None = None,
    branches_mm: Sequence[float] | None = None,
    lost_mm: Sequence[float] | None = None,
    exponent: Band | None = None,
    tip: float | None = None,
    blade: str | None = None,
    of_leaves: float = 1.0,
    wanted: str = "taken",
) -> Figure:
    """Share of the crown's leaf taken, 0 to 1, now and over the season.

    leaves_cut of leaves_total, each losing `share` of itself (all of it unless told); or leaves_left of leaves_total;
    or `share` alone, of the whole crown. taken: shares that earlier works of this season took, oldest first. halving:
    area that goes when the outer half of a blade is cut, by its shape, for the range. leaves_halved: further leaves of
    leaves_total that lose half of themselves. branches_mm, lost_mm: all the living branches of one level and those of
    them that go, for the share by their cross-sections (exponent). tip: outer share of a blade's length, 0 to 1, that
    is cut off, blade: its shape, of_leaves: share of the leaves so cut, where they are not counted. wanted: "left" for
    the share that stays. Raises FigureError.
    """
    if branches_mm and lost_mm and exponent is not None:
        return leaf_of_branches(branches_mm, lost_mm, exponent)
    cut = None if tip is None else tip_cut(tip, blade)
    if cut is not None:
        share = cut.value * (1.0 if leaves_cut is not None else within("share", of_leaves))
    if leaves_left is not None and leaves_cut is None and leaves_total is not None:
        if within("count", leaves_left) > within("count", leaves_total):
            raise FigureError(
                f"{plain(leaves_left)} leaves left of {plain(leaves_total)} cannot be; "
                f"up to {plain(leaves_total)} would do"
            )
        leaves_cut = leaves_total - leaves_left
    now, low, high, how = _now(leaves_cut, leaves_total, share, halving)
    if cut is not None and now is not None:
        low, high = now * cut.low / cut.value, now * cut.high / cut.value
        how = f"{cut.says}; {how}"
    if leaves_halved is not None and leaves_total is not None:
        each = halving.value if halving is not None else 0.5
        half = share_taken(leaves_halved, leaves_total, 0.5)
        ends = (halving.low / each, halving.high / each) if halving is not None else (1.0, 1.0)
        if (now or 0.0) + half > 1:
            raise FigureError(f"more leaves than the {plain(leaves_total)} there are cannot be cut; fewer would do")
        low, high, now = low + half * ends[0], min(1.0, high + half * ends[1]), (now or 0.0) + half
        how += (" and " if how else "") + f"{plain(leaves_halved)} of {plain(leaves_total)} leaves, half of each"
        how += f": {plain(100 * now)} % of the leaf"
    before = tuple(taken or ())
    if now is None and not before:
        raise FigureError("no leaf is known to have been taken; how many leaves of how many would do")
    notes: list[str] = []
    beside: list[Beside] = []
    value = share_gone([*before, now or 0.0]) if before else now or 0.0
    if before:
        earlier = share_gone(before)
        beside.append(Beside("taken earlier this season", earlier, ""))
        told = " and ".join(plain(100 * part) for part in before)
        how = (
            f"earlier works took {told} % of the leaf that stood then"
            + (f", now {how}" if how else "")
            + f": together {plain(100 * value)} %"
        )
        low, high = share_gone([*before, low]), min(1.0, sum(before) + high)
    if now is not None:
        beside.append(Beside("taken now", now, ""))
    beside.append(Beside("left", 1 - value, ""))
    if value > 0.5:
        notes.append("Broadleaf trees that lose more than half of their leaf often drop the rest and flush again")
    ranged = halving is not None and low < value
    if wanted == "left":
        value, low, high, how = 1 - value, 1 - high, 1 - low, f"{how}; {plain(100 * (1 - value))} % is left"
    source = "count of leaves"
    if halving is not None and ranged:
        source += f"; range by blade shape: {halving.source}"
    return Figure(
        "leaf-share",
        value,
        "share",
        low,
        high,
        how,
        source,
        "practice",
        "Leaves are taken as equal; big outer leaves count for more than small inner ones.",
        tuple(notes),
        tuple(beside),
    )


def _now(
    leaves_cut: float | None, leaves_total: float | None, share: float | None, halving: Band | None
) -> tuple[float | None, float, float, str]:
    """This work's share of the leaf, its range, and how it was reckoned."""
    if leaves_cut is None or leaves_total is None:
        if leaves_cut is not None:
            raise FigureError(f"{plain(leaves_cut)} leaves of how many is not known; the count of all leaves would do")
        if share is None:
            return None, 0.0, 0.0, ""
        part = within("share", share)
        return part, part, part, f"{plain(100 * part)} % of the crown"
    each = 1.0 if share is None else within("share", share)
    value = share_taken(leaves_cut, leaves_total, each)
    low, high = value, value
    if halving is not None and abs(each - 0.5) < 0.05:
        low, high = value * halving.low / halving.value, value * halving.high / halving.value
    return (
        value,
        low,
        high,
        (
            f"{plain(leaves_cut)} of {plain(leaves_total)} leaves, {plain(100 * each)} % of each, is "
            f"{plain(100 * value)} % of the leaf"
        ),
    )
