"""The trunk that a height asks for and the height that a trunk does, by the usual proportion."""

from __future__ import annotations

from .bounds import within
from .figure import Band, Figure, FigureError, plain


def in_proportion(stout: Band, base_mm: float | None, height_mm: float | None, wanted: str) -> Figure:
    """wanted: "base" for the trunk's thickness in mm under height_mm, "height" for the height in mm over base_mm.

    stout: usual height over base, from stout (low) to slim (high). Raises FigureError where the other is not known.
    """
    if wanted == "base" and height_mm is not None:
        height = within("height_mm", height_mm)
        value, ends = height / stout.value, (height / stout.high, height / stout.low)
        how = f"{plain(height)} mm of height / {plain(stout.value)} is {plain(value)} mm of trunk"
    elif wanted == "height" and base_mm is not None:
        base = within("base_mm", base_mm)
        value, ends = base * stout.value, (base * stout.low, base * stout.high)
        how = f"{plain(base)} mm of trunk x {plain(stout.value)} is {plain(value)} mm of height"
    else:
        raise FigureError("a proportion of unknown sizes cannot be reckoned; the height or the trunk's base would do")
    return Figure(
        "taper",
        value,
        "mm",
        ends[0],
        ends[1],
        how,
        stout.source,
        stout.mark,
        "A proportion, not a verdict: literati and cascades break it on purpose.",
    )
