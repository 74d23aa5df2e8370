"""Feed by its label: so much to so much water, at the strength wanted."""

from __future__ import annotations

from .bounds import positive, within
from .figure import Figure, FigureError, plain


def label_dose(dose: float, unit: str, per_l: float, volume_l: float, strength: float = 1.0) -> Figure:
    """Feed for a volume of water in litres, in the unit of the label's dose.

    dose: of feed, in `unit` ("mL", "g", "tsp", "scoops"), to per_l litres of water. strength: of the label's, 0.01 to 4
    ("half strength" is 0.5). Raises FigureError.

    >>> label_dose(4, "mL", 1, 9, 0.5).value
    18.0
    """
    share = positive("a strength", strength)
    if not 0.01 <= share <= 4:
        raise FigureError(f"{plain(100 * share)} % of the label's strength cannot be; 1 to 400 % would do")
    each, volume = within("volume_l", per_l), within("volume_l", volume_l)
    value = positive("a dose", dose) / each * volume * share
    notes = ["Never feed a dry, sick or freshly root-cut tree"]
    if share > 1:
        notes.insert(0, "Stronger than the label says: salts burn roots, so give the label's dose more often instead")
    return Figure(
        "feed-dose",
        value,
        unit,
        value,
        value,
        f"{plain(dose)} {unit} to {plain(each)} L of water, {plain(volume)} L at {plain(100 * share)} % of that: "
        f"{plain(value)} {unit}",
        "the feed's own label",
        "practice",
        "The label is the measure; what the tap water already holds comes on top.",
        tuple(notes),
    )
