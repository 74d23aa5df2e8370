"""How strong a feed is that was mixed already: ppm from grams, label and litres."""

from __future__ import annotations

from collections.abc import Sequence

from .bounds import positive
from .figure import Beside, Figure, plain

_STRONG_PPM = 200  # practice: more is a strong feed for a tree in a pot


def strength_of(grams: float, percents: Sequence[float], nutrient: str, percent: float, volume_l: float) -> Figure:
    """Strength in ppm (mg a litre) of the nutrient after so many grams of feed went into volume_l litres of water.

    percents: the label's N, P2O5 and K2O. percent: of the nutrient, as the element. Raises FigureError.

    >>> strength_of(6, (20, 0, 0), "N", 20, 6).value
    200.0
    """
    each = positive("grams of feed", grams) / volume_l
    value = each * 10 * percent
    notes = ["Follow the label; never feed a dry, sick or freshly root-cut tree"]
    if value > _STRONG_PPM:
        notes.insert(0, f"{plain(value)} ppm is strong for a tree in a pot")
    label = f"{plain(percents[0])} % N" if not any(percents[1:]) else "-".join(map(plain, percents))
    return Figure(
        "feed-dose",
        value,
        "ppm",
        value,
        value,
        f"{plain(grams)} g of {label} in {plain(volume_l)} L is {plain(each)} g a litre; x 10 x {plain(percent)} % = "
        f"{plain(value)} ppm {nutrient}",
        "1 ppm is 1 mg a litre; label by weight",
        "published",
        "Soluble feed, label per cent by weight; what the tap water already holds comes on top.",
        tuple(notes),
        (Beside("grams a litre of feed", each, "g"),),
    )
