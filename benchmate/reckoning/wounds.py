"""How long a cut takes to close over."""

from __future__ import annotations

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, exactly, plain


def seasons_to_close(width_mm: float, yearly_mm: float) -> float:
    """Growing seasons in which a wound closes: its width over the width that closes in one season.

    >>> round(seasons_to_close(26, 13), 2)
    2.0
    """
    return positive("a wound", width_mm) / positive("a season's closing", yearly_mm)


def closing_rate(earlier_mm: float, now_mm: float, years: float = 1.0) -> float:
    """Width in mm that a wound closes in a year, from its width then and now. Raises FigureError if it did not close.

    >>> closing_rate(20, 14)
    6.0
    """
    earlier, now = positive("a wound", earlier_mm), positive("a wound", now_mm)
    if now >= earlier:
        raise FigureError(
            f"a wound that goes from {plain(earlier)} to {plain(now)} mm does not close; look what keeps it"
        )
    return (earlier - now) / positive("a span of years", years)


def wound_close(
    diameter_mm: float,
    yearly_mm: Band,
    share_done: float = 0.0,
    earlier_mm: float | None = None,
    ago_years: float = 1.0,
) -> Figure:
    """Growing seasons until a wound of 1 to 300 mm across has closed.

    yearly_mm: width that closes in one season, by the tree's vigour. share_done: share of the present season's growth
    already past, 0 to 1, which is lost to it. earlier_mm: its width ago_years ago, from which the
    closing in a year then follows. Raises FigureError.
    """
    width = within("wound_mm", diameter_mm)
    if earlier_mm is not None:
        yearly_mm = exactly(closing_rate(within("wound_mm", earlier_mm), width, ago_years), "mm a season")
    lost = within("share", share_done)
    value, low, high = (seasons_to_close(width, rate) for rate in (yearly_mm.value, yearly_mm.high, yearly_mm.low))
    notes = []
    if value > 3:
        notes.append(
            "Closing takes over three years; after that its speed matters little against decay, so hollow it "
            "or make something of it"
        )
    if lost > 0.5:
        notes.append("Most of this season's growth is past, so count from next spring")
    notes += ["Cut just outside the collar, keep the edge clean; no dressing has been shown to stop decay"]
    return Figure(
        "wound-close",
        value,
        "growing seasons",
        low,
        high,
        f"{plain(width)} mm across at {plain(yearly_mm.value)} mm a season is {plain(value)} seasons",
        yearly_mm.source,
        yearly_mm.mark,
        "Measured on trees in the ground; in a small pot allow up to twice as long.",
        tuple(notes),
        (Beside("closes in a season", yearly_mm.value, "mm"),),
    )
