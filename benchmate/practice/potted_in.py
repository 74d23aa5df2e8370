"""How much the pot holds that is lifted: what makes it heavy."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading

_MM3_A_LITRE = 1e6


def pot_litres(reading: Reading, tree: Tree | None, entries: Sequence[Entry], on: dt.date) -> float | None:
    """Litres of the pot that the tree stands in, or of the bigger one that the statement puts it into; None where its
    sizes are not known."""
    pots = [work.measures for work in (*reading.work, *reading.supposes)]
    if tree:
        pots.append(as_potted(tree, entries, on).pot)
    return max((litres for pot in pots if (litres := _litres(pot)) is not None), default=None)


def _litres(pot: Mapping[str, Any]) -> float | None:
    depth, across = pot.get("depth_mm"), pot.get("diameter_mm")
    if across and depth:
        return float(math.pi / 4 * across**2 * depth / _MM3_A_LITRE)
    if depth and pot.get("length_mm") and pot.get("width_mm"):
        return float(pot["length_mm"] * pot["width_mm"] * depth / _MM3_A_LITRE)
    return None
