"""What a cut across a blade takes of its area, by the blade's shape."""

from __future__ import annotations

import math
from collections.abc import Callable

from .bounds import within
from .figure import Band, FigureError, plain


def cut_across_ellipse(tip_share: float) -> float:
    """Share of an elliptic leaf's area that goes with the outer `tip_share` (0 to 1) of its length.

    >>> round(cut_across_ellipse(0.5), 3), round(cut_across_ellipse(1 / 3), 4)
    (0.5, 0.2918)
    """
    middle = 1 - 2 * within("share", tip_share)
    return (math.acos(middle) - middle * math.sqrt(1 - middle * middle)) / math.pi


def cut_across_triangle(tip_share: float) -> float:
    """Share of a triangular leaf, broad at its stalk, that goes with the outer `tip_share` (0 to 1) of its length.

    >>> cut_across_triangle(0.5)
    0.25
    """
    return within("share", tip_share) ** 2


#: Shape of a blade -> the share of its area that goes with an outer share of its length.
BLADES: dict[str, Callable[[float], float]] = {
    "oval": cut_across_ellipse,
    "triangle": cut_across_triangle,
    "strap": lambda tip_share: within("share", tip_share),
}


def tip_cut(tip_share: float, blade: str | None = None) -> Band:
    """Share of a blade's area that goes with the outer `tip_share` (over 0, up to 1) of its length.

    blade: oval, triangle (broad at its stalk) or strap (of one width); unless told an oval, the range then running from
    triangle to strap. Raises FigureError.

    >>> round(tip_cut(0.25, "oval").value, 4)
    0.1955
    """
    if blade is not None and blade not in BLADES:
        raise FigureError(f"a blade shaped like a {blade} cannot be reckoned; {', '.join(BLADES)} would do")
    if tip_share <= 0:
        raise FigureError(f"a tip of {plain(100 * tip_share)} % of the length takes nothing; over 0 % would do")
    kind = blade or "oval"
    value = BLADES[kind](tip_share)
    ends = [BLADES[shape](tip_share) for shape in ((kind,) if blade else BLADES)]
    says = f"the outer {plain(100 * tip_share)} % of the length of a blade shaped like {_CALLED[kind]} is "
    return Band(value, min(ends), max(ends), "1", "geometry", "practice", f"{says}{plain(100 * value)} % of its area")


_CALLED = {"oval": "an oval", "triangle": "a triangle", "strap": "a strap"}
