"""How long a pot lasts where its use of water is known: by what it holds and uses, or by the scales."""

from __future__ import annotations

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, plain

_CHECK = "Check by weight or with a finger well before that; a dry ball is soaked whole, not sprinkled"


def days_of_use(held_l: float, use_l: float) -> float:
    """Days for which water that roots can take (litres) lasts at litres a day.

    >>> round(days_of_use(0.6, 0.2), 6)
    3.0
    """
    return positive("the water held", held_l) / positive("a use of water", use_l)


def days_by_weight(wet_g: float, limit_g: float, loss_g: float) -> float:
    """Days until a pot that weighs wet_g has come down to limit_g, losing loss_g a day.

    >>> round(days_by_weight(3200, 2450, 150), 6)
    5.0
    """
    wet, limit = positive("a soaked weight", wet_g), positive("a lowest weight", limit_g)
    if limit >= wet:
        raise FigureError(f"{plain(limit)} g dry from {plain(wet)} g soaked cannot be; a lower weight would do")
    return (wet - limit) / positive("a day's loss", loss_g)


def dry_by_use(use_l: float, available: Band, held_l: float | None = None, volume_l: float | None = None) -> Figure:
    """Days until a pot is dry at a known use in litres a day: of the water held_l (litres that roots can take), or of
    a pot's volume_l with the share `available` of it. Raises FigureError."""
    use = positive("a use of water", use_l)
    if held_l is not None:
        held, low, high = (within("volume_l", held_l),) * 3
        told, source, mark = f"{plain(held)} L", "as said", "practice"
    elif volume_l is not None:
        volume = within("volume_l", volume_l)
        held, low, high = (volume * share for share in (available.value, available.low, available.high))
        told = f"{plain(volume)} L x {plain(100 * available.value)} % = {plain(held)} L"
        source, mark = f"water held: {available.source}", available.mark
    else:
        raise FigureError("the water held is not known; it in litres, or the pot's volume, would do")
    value = days_of_use(held, use)
    return Figure(
        "days-to-dry",
        value,
        "days",
        days_of_use(low, use),
        days_of_use(high, use),
        f"{told} for roots / {plain(use)} L a day = {plain(value)} days",
        source,
        mark,
        "The use changes with weather and leaf: it doubles in heat and wind.",
        (_CHECK,),
        (Beside("water that roots can take", held, "L"), Beside("use", use, "L a day")),
    )


def dry_by_weight(wet_g: float, limit_g: float, loss_g: float) -> Figure:
    """Days until a pot has lost its water by the scales: soaked weight, lowest weight and a day's loss, all in g. A
    gram is a millilitre. Raises FigureError."""
    value = days_by_weight(wet_g, limit_g, loss_g)
    return Figure(
        "days-to-dry",
        value,
        "days",
        value,
        value,
        f"({plain(wet_g)} - {plain(limit_g)}) g / {plain(loss_g)} g a day = {plain(value)} days",
        "weights as said",
        "practice",
        "The loss changes with weather and leaf: it doubles in heat and wind.",
        (_CHECK,),
        (Beside("water it can lose", (wet_g - limit_g) / 1000, "L"), Beside("use", loss_g / 1000, "L a day")),
    )
