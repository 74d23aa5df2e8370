"""Proportions of wood: taper, the ratio at a fork, and what branches add up to in their parent."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, plain
from .in_proportion import in_proportion
from .pipe_asked import missing_child, pipe_exponent, ratio_to_parent, stoutest_branch

LEONARDO = 2.0  # exponent of the rule that children's cross-sections add up to their parent's


def girth_mm(diameter_mm: float) -> float:
    """Girth in mm of a round trunk.

    >>> round(girth_mm(60), 1)
    188.5
    """
    return math.pi * positive("a diameter", diameter_mm)


def diameter_of_girth_mm(girth: float) -> float:
    """Diameter in mm of a trunk from its girth in mm.

    >>> round(diameter_of_girth_mm(188.5), 1)
    60.0
    """
    return positive("a girth", girth) / math.pi


def parent_diameter_mm(children_mm: Sequence[float], exponent: float = LEONARDO) -> float:
    """Diameter in mm of the stem that carries these branches. exponent: 1 to 4, 2 for equal cross-sections.

    Source: Leonardo's rule; measured exponents 1.8 to 2.3 (Eloy 2011, Physical Review Letters 107:258101).

    >>> parent_diameter_mm([3, 4])
    5.0
    """
    if not children_mm:
        raise FigureError("a sum of no branches cannot be; the diameter of at least one would do")
    power = pipe_exponent(exponent)
    return float(sum(positive("a branch diameter", child) ** power for child in children_mm) ** (1 / power))


def foliage_share(children_mm: Sequence[float], index: int, exponent: float = LEONARDO) -> float:
    """Share of the foliage above a point that one of the living branches there carries, 0 to 1 (pipe model).

    Source: Shinozaki et al. 1964, as named in Eloy 2011.

    >>> round(foliage_share([4, 4, 8], 0), 4)
    0.1667
    """
    if not 0 <= index < len(children_mm):
        raise FigureError(f"branch {index + 1} is not among {len(children_mm)}; one that is would do")
    power = pipe_exponent(exponent)
    areas = [positive("a branch diameter", child) ** power for child in children_mm]
    return float(areas[index] / sum(areas))


def thickened_parent_mm(parent_mm: float, before_mm: float, after_mm: float, exponent: float = LEONARDO) -> float:
    """Diameter in mm of a parent after a branch left to grow has gone from `before_mm` to `after_mm`.

    >>> round(thickened_parent_mm(30, 5, 15), 2)
    33.17
    """
    power = pipe_exponent(exponent)
    before, after = positive("a branch diameter", before_mm), positive("a branch diameter", after_mm)
    if after < before:
        raise FigureError(
            f"a branch that grows from {plain(before)} to {plain(after)} mm cannot be; a thicker end would do"
        )
    return float((positive("a parent diameter", parent_mm) ** power + after**power - before**power) ** (1 / power))


def taper_per_mm(lower_mm: float, upper_mm: float, length_mm: float) -> float:
    """Loss of diameter in mm for each mm of length; negative where a trunk widens upward.

    >>> taper_per_mm(60, 20, 400)
    0.1
    """
    drop = positive("a lower diameter", lower_mm) - positive("an upper diameter", upper_mm)
    return drop / positive("a length", length_mm)


def taper(
    stout: Band,
    base_mm: float | None = None,
    height_mm: float | None = None,
    upper_mm: float | None = None,
    length_mm: float | None = None,
    measured: str | None = None,
    wanted: str = "taper",
) -> Figure:
    """Taper of a trunk: height over base (a plain ratio), or with upper_mm at length_mm above the base, the loss of
    diameter in mm for each mm. stout: usual height over base, from stout (low) to slim (high). measured: "girth" where
    base and upper were measured round the trunk. wanted: "base" or "height" for the one that the usual proportion gives
    to the other, in mm. Raises FigureError.
    """
    if wanted != "taper":
        return in_proportion(stout, base_mm, height_mm, wanted)
    if base_mm is None:
        raise FigureError("a taper of a trunk of unknown base cannot be reckoned; its thickness would do")
    turned: tuple[str, ...] = ()
    if measured == "girth":
        turned = (f"Worked from girths: {plain(base_mm)} mm round is {plain(diameter_of_girth_mm(base_mm))} mm across",)
        base_mm = diameter_of_girth_mm(base_mm)
        upper_mm = None if upper_mm is None else diameter_of_girth_mm(upper_mm)
    base = within("base_mm", base_mm)
    limits = "A proportion, not a verdict: literati and cascades break it on purpose."
    beside: list[Beside] = []
    height = None if height_mm is None else within("height_mm", height_mm)
    if height is not None:
        ratio = height / base
        if ratio < 0.2:
            raise FigureError(
                f"a base of {plain(base)} mm under {plain(height)} mm of height cannot be; a taller tree would do"
            )
        beside = [
            Beside("height over base", ratio, ":1"),
            Beside("mean loss of diameter", 100 * base / height, "mm per 100 mm"),
            Beside("base that the usual proportion asks", height / stout.value, "mm"),
        ]
    if upper_mm is not None and (length_mm is not None or height is not None):
        length = within("length_mm", length_mm) if length_mm is not None else height or 0.0
        upper = within("diameter_mm", upper_mm)
        value = taper_per_mm(base, upper, length)
        beside.append(Beside("loss of diameter", 100 * value, "mm per 100 mm"))
        beside.append(Beside("upper over lower diameter", upper / base, ":1"))
        notes = (*turned, "Inverse taper: it is thicker above than below") if value < 0 else turned
        return Figure(
            "taper",
            value,
            "mm/mm",
            value,
            value,
            f"from {plain(base)} to {plain(upper)} mm over {plain(length)} mm is ({plain(base)} - {plain(upper)}) / "
            f"{plain(length)} = {plain(value)} mm for each mm, {plain(100 * value)} mm in 100",
            stout.source,
            stout.mark,
            limits,
            notes,
            tuple(beside),
        )
    if height is None:
        raise FigureError("a taper needs a height, or a second diameter and the length between; either would do")
    word = "stout" if ratio <= stout.low else "slim" if ratio >= stout.high else "between stout and slim"
    return Figure(
        "taper",
        ratio,
        ":1 height to base",
        ratio,
        ratio,
        f"{plain(height)} mm of height over {plain(base)} mm of base is {plain(ratio)} to 1, {word} "
        f"(usual about {plain(stout.value)} to 1)",
        stout.source,
        stout.mark,
        limits,
        turned,
        tuple(beside),
    )


def union_ratio(
    steps: Sequence[Band],
    diameters_mm: Sequence[float] = (),
    branch_mm: float | None = None,
    base_mm: float | None = None,
    trunk_mm: float | None = None,
) -> Figure:
    """Thinner over thicker at a fork, 0 to 1, and what that says. diameters_mm: the two stems, 0.5 to 500 mm each; or
    branch_mm on a trunk of base_mm. trunk_mm alone: the branch in mm that is still well held on it.

    steps: bands of the ratio, lowest first, each saying what it means. Raises FigureError.
    """
    if trunk_mm is not None and not diameters_mm:
        return stoutest_branch(trunk_mm, steps)
    if branch_mm is not None and base_mm is not None and len(diameters_mm) < 2:
        diameters_mm = branch_mm, base_mm
    if len(diameters_mm) != 2:
        raise FigureError(f"a fork of {len(diameters_mm)} diameters cannot be reckoned; the two that meet would do")
    thin, thick = sorted(within("diameter_mm", diameter) for diameter in diameters_mm)
    value = thin / thick
    step = next((band for band in steps if value <= band.high), steps[-1])
    beside = (
        Beside("share of the two cross-sections in the thinner", thin**2 / (thin**2 + thick**2), ""),
        Beside("union ratio of area", value * value, ""),
    )
    return Figure(
        "union-ratio",
        value,
        "thinner over thicker",
        value,
        value,
        f"{plain(thin)} / {plain(thick)} mm is {plain(value)}: {step.says}",
        step.source,
        step.mark,
        "The ratio tells how firmly the fork holds better than its angle does, and nothing of line, taper or health.",
        (),
        beside,
    )


def pipe_sum(
    diameters_mm: Sequence[float],
    exponent: Band,
    parent_mm: float | None = None,
    grown_mm: float | None = None,
    wanted: str = "parent",
) -> Figure:
    """Diameter in mm of the stem that branches of these diameters (mm) add up to, or that it comes to.

    exponent: of the sum, 2 where cross-sections add up. parent_mm: the stem as it is, to compare. grown_mm: the
    thickest branch left to grow to that; the value is then the stem below it when it has. wanted: "child" for the one
    branch that lacks below parent_mm, "ratio" for the branches' cross-sections over the stem's. Raises FigureError.
    """
    children = [within("diameter_mm", child) for child in diameters_mm]
    if wanted == "child" and parent_mm is not None and grown_mm is None:
        return missing_child(children, within("diameter_mm", parent_mm), exponent)
    if wanted == "ratio" and parent_mm is not None and grown_mm is None:
        return ratio_to_parent(children, within("diameter_mm", parent_mm), exponent)
    value = parent_diameter_mm(children, exponent.value)
    ends = [parent_diameter_mm(children, power) for power in (exponent.high, exponent.low)]
    squares = " + ".join(f"{plain(child)}^2" for child in children)
    how = f"cross-sections add up: root of {squares} = {plain(value)} mm"
    beside: list[Beside] = []
    notes: list[str] = []
    parent = value
    if parent_mm is not None:
        parent = within("diameter_mm", parent_mm)
        ratio = sum(child**2 for child in children) / parent**2
        beside.append(Beside("children's cross-sections over the parent's", ratio, ":1"))
        notes.append(
            f"The branches' cross-sections are {plain(ratio)} of the {plain(parent)} mm stem's"
            + ("; it is thin for what it carries" if ratio > 1.2 else "")
        )
    if grown_mm is not None:
        thickest, grown = max(children), within("diameter_mm", grown_mm)
        after, *ends = (
            thickened_parent_mm(parent, thickest, grown, power)
            for power in (exponent.value, exponent.high, exponent.low)
        )
        beside += [Beside("parent when the branch has grown", after, "mm"), Beside("parent now", parent, "mm")]
        notes.append(
            f"Let to grow from {plain(thickest)} to {plain(grown)} mm it would bring the stem below it "
            f"from {plain(parent)} to about {plain(after)} mm"
        )
        how = (
            f"root of {plain(parent)}^2 - {plain(thickest)}^2 + {plain(grown)}^2 = {plain(after)} mm, once the "
            f"{plain(thickest)} mm branch has grown to {plain(grown)}"
        )
        value = after
    for index, child in enumerate(children):
        beside.append(Beside(f"share of foliage on the {plain(child)} mm branch", foliage_share(children, index), ""))
    return Figure(
        "pipe-sum",
        value,
        "mm",
        min(ends),
        max(ends),
        how,
        exponent.source,
        exponent.mark,
        "Living, leafy branches of one level; not stubs, grafts, burls or the flare at the roots.",
        tuple(notes),
        tuple(beside),
    )
