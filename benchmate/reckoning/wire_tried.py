"""Wire that is at hand: whether it will do, how many strands of it, and what branch it holds."""

from __future__ import annotations

import math

from .bounds import within
from .figure import Band, Figure, FigureError, plain

MOST_STRANDS = 3  # more cannot be laid side by side without a gap


def strands_for(wire_mm: float, single_mm: float) -> int:
    """Strands of a wire that hold as much as a single one: what a round wire holds goes with its thickness cubed.

    >>> strands_for(2, 3), strands_for(3, 3)
    (4, 1)
    """
    return max(1, math.ceil((single_mm / within("wire_mm", wire_mm)) ** 3 - 0.05))


def tried_words(wire_mm: float, third: Band, full_mm: float, metal: str | None = None, strands: float = 1) -> str:
    """Whether a wire (mm) at hand will do, in words. full_mm: the branch, as thick as it counts for that metal and so
    many strands of it."""
    wire, single = within("wire_mm", wire_mm), third.value * full_mm
    told = f"{plain(wire)} mm" if strands == 1 else f"{plain(strands)} strands of {plain(wire)} mm"
    if wire < third.low * full_mm:
        needed = strands_for(wire, single * strands ** (1 / 3))
        instead = f"{needed} strands side by side, or " if needed <= MOST_STRANDS else ""
        return f"No: {told} is thin for it; {instead}{plain(single * strands ** (1 / 3))} mm would do"
    if wire > third.high * full_mm:
        return f"More than it needs: {told} holds, and is hard to lay without hurting the bark"
    as_much = "about a third of it" if metal is None and strands == 1 else "as much as a third of it in aluminium"
    return f"Yes: {told} is {as_much}" if metal is None and strands == 1 else f"Yes: {told} holds {as_much}"


def branch_for(wire_mm: float, third: Band, scale: float = 1.0) -> Figure:
    """The branch in mm that a wire of 0.3 to 10 mm holds, by the trade's share. scale: thickness of that metal over
    aluminium of the same hold. Raises FigureError."""
    wire = within("wire_mm", wire_mm) / scale
    return Figure(
        "wire-diameter",
        wire / third.value,
        "mm",
        wire / third.high,
        wire / third.low,
        f"{plain(wire_mm)} mm of wire"
        + (f", which holds as much as {plain(wire)} mm of aluminium," if scale != 1 else "")
        + f" is {plain(third.value)} of a {plain(wire / third.value)} mm branch",
        third.source,
        third.mark,
        "A rule of the trade for healthy shoots; try the wire on the branch before trusting it.",
    )


def strands_of(wire_mm: float, branch_mm: float, third: Band, scale: float = 1.0) -> Figure:
    """How many strands of a wire (mm) hold a branch (mm). Raises FigureError where no count of them would."""
    single = third.value * within("branch_mm", branch_mm) * scale
    value, most, least = (
        strands_for(wire_mm, share * branch_mm * scale) for share in (third.value, third.high, third.low)
    )
    if value > MOST_STRANDS + 1:
        raise FigureError(f"{value} strands of {plain(wire_mm)} mm cannot be laid; {plain(single)} mm would do")
    return Figure(
        "wire-diameter",
        float(value),
        "strands",
        float(least),
        float(most),
        f"a single wire of {plain(single)} mm holds ({plain(single)} / {plain(wire_mm)})^3 times what one of "
        f"{plain(wire_mm)} mm does: {value} of them",
        third.source,
        third.mark,
        "Strands laid flat side by side, without a gap.",
    )
