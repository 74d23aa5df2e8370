"""Pots: what one holds, and what size suits a tree."""

from __future__ import annotations

import math

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, plain

SHAPES = ("rectangle", "oval", "round")


def volume_l(length_mm: float, width_mm: float, depth_mm: float, shape: str = "rectangle") -> float:
    """Litres inside straight walls. Inside measures in mm, 10 to 2000. shape: rectangle, oval or round.

    >>> volume_l(300, 220, 80), round(volume_l(300, 220, 80, "oval"), 3)
    (5.28, 4.147)
    """
    if shape not in SHAPES:
        raise FigureError(f"a {shape} pot cannot be reckoned; {', '.join(SHAPES)} would do")
    block = within("pot_mm", length_mm) * within("pot_mm", width_mm) * within("pot_mm", depth_mm) / 1e6
    return block if shape == "rectangle" else math.pi / 4 * block


def tapered_volume_l(
    top_mm: tuple[float, float], bottom_mm: tuple[float, float], depth_mm: float, shape: str = "rectangle"
) -> float:
    """Litres inside walls that slope from a top (length, width) to a bottom (length, width) in mm.

    >>> round(tapered_volume_l((300, 220), (260, 180), 80), 4)
    4.4907
    >>> round(tapered_volume_l((250, 250), (200, 200), 150, "round"), 3)
    5.989
    """
    if shape not in SHAPES:
        raise FigureError(f"a {shape} pot cannot be reckoned; {', '.join(SHAPES)} would do")
    (a, b), (c, d) = ((within("pot_mm", length), within("pot_mm", width)) for length, width in (top_mm, bottom_mm))
    share = 1.0 if shape == "rectangle" else math.pi / 4
    return share * within("pot_mm", depth_mm) * (2 * a * b + 2 * c * d + a * d + b * c) / 6 / 1e6


def pot_volume(
    length_mm: float | None = None,
    width_mm: float | None = None,
    depth_mm: float | None = None,
    shape: str | None = None,
    diameter_mm: float | None = None,
    wall_mm: float = 0.0,
    settling: Band | None = None,
    bottom_mm: float | None = None,
) -> Figure:
    """Litres that a pot holds, from inside measures in mm, or outside ones with the wall's thickness.

    diameter_mm: of a round pot, in place of length and width. shape: rectangle unless told; the range then runs from
    oval to rectangle. settling: share of mix to buy beyond the volume. bottom_mm: of a pot whose walls slope, its
    diameter or length below; the width narrows alike. Raises FigureError.
    """
    if diameter_mm is not None and length_mm is None:
        length_mm = width_mm = diameter_mm
        shape = shape or "round"
    if length_mm is None or depth_mm is None:
        raise FigureError("a pot of unknown size cannot be reckoned; length, width and depth would do")
    width_mm = length_mm if width_mm is None else width_mm
    wall = 0.0 if wall_mm == 0 else positive("a wall", wall_mm)
    inside = (length_mm - 2 * wall, width_mm - 2 * wall, depth_mm - wall)
    if bottom_mm is None:
        value = volume_l(*inside, shape or "rectangle")
        low = volume_l(*inside, "oval") if shape is None else value
    else:
        foot = bottom_mm - 2 * wall
        below = (foot, foot * inside[1] / inside[0])
        value = tapered_volume_l(inside[:2], below, inside[2], shape or "rectangle")
        low = tapered_volume_l(inside[:2], below, inside[2], "oval") if shape is None else value
    beside = [Beside("in US gallons", value / 3.785412, "gal")]
    notes = [] if shape else [f"Taken as a rectangle; an oval of that size holds {plain(low)} L"]
    if settling is not None:
        buy = value * (1 + settling.low), value * (1 + settling.high)
        beside += [Beside("mix to buy, least", buy[0], "L"), Beside("mix to buy, most", buy[1], "L")]
        notes.append(f"Mix settles: buy {plain(buy[0])} to {plain(buy[1])} L, less what the root ball fills")
    told = " x ".join(plain(side) for side in inside)
    if bottom_mm is not None:
        told += f" narrowing to {plain(bottom_mm - 2 * wall)}"
    form = "" if (shape or "rectangle") == "rectangle" else "pi/4 x "
    return Figure(
        "pot-volume",
        value,
        "L",
        low,
        value,
        f"{form}{told} mm is {plain(value)} L",
        "geometry",
        "practice",
        "Straight walls, inside measures; sloping walls and feet take off up to a fifth.",
        tuple(notes),
        tuple(beside),
    )


def pot_size(
    share_of_height: Band,
    depth_of_base: Band,
    width_of_length: Band,
    height_over_base: Band,
    height_mm: float | None = None,
    diameter_mm: float | None = None,
    spread_mm: float | None = None,
    pot_length_mm: float | None = None,
    pot_width_mm: float | None = None,
    pot_depth_mm: float | None = None,
    wanted: str = "fitting",
) -> Figure:
    """Size of pot for a tree: its length in mm from the tree's height or spread, or from the trunk alone its depth.

    share_of_height: pot length over the larger of height and spread. depth_of_base: pot depth over trunk base.
    width_of_length: pot width over length. height_over_base: to judge the unsaid one of height and base. diameter_mm:
    of the trunk's base. wanted: "now" for the pot that it stands in, of these inside measures; "deep" for its depth
    alone. Raises FigureError where nothing is known.
    """
    if wanted == "now" and pot_length_mm is not None:
        return _pot_now(pot_length_mm, pot_width_mm, pot_depth_mm)
    if height_mm is None and diameter_mm is None and spread_mm is None:
        raise FigureError("a tree of unknown size cannot be fitted; its height or its trunk's base would do")
    base = None if diameter_mm is None else within("base_mm", diameter_mm)
    tall = max(
        (
            within(name, value)
            for name, value in (("height_mm", height_mm), ("spread_mm", spread_mm))
            if value is not None
        ),
        default=None,
    )
    size = tall if tall is not None else (base or 0) * height_over_base.value
    long = [size * share for share in (share_of_height.value, share_of_height.low, share_of_height.high)]
    foot = base if base is not None else size / height_over_base.value
    deep = [foot * share for share in (depth_of_base.value, depth_of_base.low, depth_of_base.high)]
    beside = (
        Beside("pot length", long[0], "mm"),
        Beside("pot width", long[0] * width_of_length.value, "mm"),
        Beside("pot depth", deep[0], "mm"),
    )
    notes = ("Conifers and cascades stand deeper, groves and leafy trees flatter; roots come before looks",)
    limits = "A rule of the trade for a tree on show; a tree that must thicken wants a bigger one."
    guessed = "" if base is not None else f", its base taken as {plain(foot)} mm"
    if tall is None or wanted == "deep":
        return Figure(
            "pot-size",
            deep[0],
            "mm deep",
            deep[1],
            deep[2],
            f"as deep as the trunk is thick: {plain(depth_of_base.value)} x {plain(foot)} = {plain(deep[0])} mm; long "
            f"about {plain(long[0])} mm for a tree {plain(size)} mm tall",
            depth_of_base.source,
            depth_of_base.mark,
            limits,
            notes,
            beside,
        )
    return Figure(
        "pot-size",
        long[0],
        "mm long",
        long[1],
        long[2],
        f"{plain(share_of_height.value)} of {plain(size)} mm is {plain(long[0])} mm long, about "
        f"{plain(long[0] * width_of_length.value)} wide and {plain(deep[0])} deep{guessed}",
        share_of_height.source,
        share_of_height.mark,
        limits,
        notes,
        beside,
    )


def _pot_now(length_mm: float, width_mm: float | None, depth_mm: float | None) -> Figure:
    """The pot that a tree stands in, as its sheet says."""
    sides = [within("pot_mm", side) for side in (length_mm, width_mm, depth_mm) if side is not None]
    names = [name for name, side in (("pot width", width_mm), ("pot depth", depth_mm)) if side is not None]
    return Figure(
        "pot-size",
        sides[0],
        "mm long",
        sides[0],
        sides[0],
        f"it stands in a pot of {' x '.join(plain(side) for side in sides)} mm inside",
        "this tree's own record",
        "practice",
        "As recorded; ask what pot would suit it for another.",
        (),
        tuple(Beside(name, side, "mm") for name, side in zip(names, sides[1:], strict=True)),
    )
