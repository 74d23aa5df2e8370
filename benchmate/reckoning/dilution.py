"""Diluting what is bought strong: how much of it, how much water, and what it does to people."""

from __future__ import annotations

from dataclasses import dataclass

from .bounds import positive, within
from .figure import Beside, Figure, FigureError, plain


@dataclass(frozen=True, slots=True)
class Substance:
    """Something diluted at the bench.

    stock_percent: as sold. wanted_percent: for the use. hazards: said first. by_label: mixed as its label says and no
    other way. of_stock: a share said of it is of the stock ("10 % bleach" is one part in ten), not of what is in it.
    shrinks: its volume with water is less than the sum of the two.
    """

    name: str
    stock_percent: float
    wanted_percent: float
    use: str = ""
    hazards: tuple[str, ...] = ()
    by_label: bool = False
    of_stock: bool = False
    shrinks: bool = False
    source: str = ""
    mark: str = "practice"


def stock_volume(stock_percent: float, wanted_percent: float, final_volume: float) -> float:
    """Volume of stock, in the unit of the final volume: wanted / stock x final. Raises FigureError if too weak.

    >>> round(stock_volume(6, 0.5, 3000), 6)
    250.0
    """
    stock = positive("a stock strength", within("percent", stock_percent))
    wanted = positive("a wanted strength", within("percent", wanted_percent))
    if wanted > stock:
        raise FigureError(f"{plain(stock)} % cannot be diluted to {plain(wanted)} %; a stronger stock would do")
    return wanted / stock * positive("a volume", final_volume)


def share_of_parts(stock_parts: float, water_parts: float) -> float:
    """Share of stock in so many parts of it with so many parts of water: 1 and 9 give 0.1.

    >>> share_of_parts(1, 9)
    0.1
    """
    return positive("parts of stock", stock_parts) / (stock_parts + positive("parts of water", water_parts))


def water_parts(stock_percent: float, wanted_percent: float) -> float:
    """Parts of water to one part of stock.

    >>> round(water_parts(5.25, 0.525), 6)
    9.0
    """
    return 1 / stock_volume(stock_percent, wanted_percent, 1.0) - 1


def gravity_of_baume(degrees: float) -> float:
    """Specific gravity of a heavy liquid from its degrees Baume (0 to 70): 145 / (145 - degrees).

    >>> round(gravity_of_baume(32), 4)
    1.2832
    """
    if not 0 <= degrees <= 70:
        raise FigureError(f"{degrees:g} degrees Baume cannot be; 0 to 70 would do")
    return 145 / (145 - degrees)


def dilution(
    volume_l: float,
    substance: Substance | None = None,
    stock_percent: float | None = None,
    wanted_percent: float | None = None,
    parts: float | None = None,
    share: float | None = None,
    dose_l: float | None = None,
    per_l: float | None = None,
    have_l: float | None = None,
    wanted: str = "stock",
    never: bool = False,
) -> Figure:
    """Millilitres of stock for a volume in litres of the diluted liquid.

    substance: what it is; its usual strengths stand where none is said. parts: parts of water to one of stock, as in
    "one to nine". share: 0 to 1, of the stock or of its strength, as the substance is spoken of. dose_l: litres of
    stock for each per_l litres, as a label gives it. have_l: litres of stock that are all to be used, in place of the
    volume. wanted: "water" for the water that goes with it, also in mL. never: with something that it must not meet.
    Its value is None then, and for what is mixed by its label only, where neither parts nor a dose was read from that.
    Raises FigureError.
    """
    if dose_l is not None and per_l is not None:
        share, stock_percent, wanted_percent = positive("a dose", dose_l) / positive("a volume", per_l), None, None
    final = within("volume_l", volume_l) * 1000
    as_usual = substance is not None and parts is None and wanted_percent is None and share is None
    name = substance.name if substance else "stock"
    if never and substance is not None:
        return Figure(
            "dilution",
            None,
            "mL",
            None,
            None,
            f"{name} goes with water alone",
            substance.source,
            substance.mark,
            "The label is the law for it.",
            substance.hazards,
        )
    if substance is not None and substance.by_label and parts is None and dose_l is None:
        return Figure(
            "dilution",
            None,
            "mL",
            None,
            None,
            f"{name} is mixed as its label says, and no other way",
            substance.source,
            substance.mark,
            "The label is the law for it.",
            substance.hazards,
        )
    strong = stock_percent if stock_percent is not None else substance.stock_percent if substance else None
    source, mark = ("volumes add up", "practice")
    if share is not None and substance is not None and not substance.of_stock:
        wanted_percent, share = 100 * within("share", share), None
    if share is not None:
        share = positive("a share", within("share", share))
    elif parts is not None:
        share = share_of_parts(1, parts)
    else:
        weak = wanted_percent if wanted_percent is not None else substance.wanted_percent if substance else None
        if strong is None or weak is None:
            raise FigureError(
                "a dilution without both strengths cannot be reckoned; the stock's per cent and the wanted one would do"
            )
        share = stock_volume(strong, weak, 1.0)
        if as_usual and substance is not None:
            source, mark = substance.source, substance.mark
    if have_l is not None:
        final = within("volume_l", have_l) * 1000 / share
    value = share * final
    water = final - value
    beside = [Beside("water", water, "mL"), Beside("parts of water to one of stock", 1 / share - 1, "parts")]
    how = f"{plain(100 * share)} % of {plain(final)} mL is {plain(value)} mL of {name}, with {plain(water)} mL of water"
    if strong:  # none is known of what is mixed by its label
        beside.append(Beside("strength", strong * share, "%"))
        how += f": {plain(strong)} % becomes {plain(strong * share)} %"
    notes = list(substance.hazards) if substance else ["Read the label of what is diluted before it is mixed"]
    if substance is not None and substance.shrinks:
        notes.append("Put in the measured spirit and fill up with water to the mark: the two shrink when they mix")
    if substance is not None and substance.use:
        notes.append(substance.use)
    whole = final / share
    if as_usual:
        notes.append(
            f"Read as {plain(final / 1000)} L of the finished liquid; {plain(final / 1000)} L of stock would "
            f"make {plain(whole / 1000)} L"
        )
    if wanted == "water":
        beside[0], value = Beside("stock", value, "mL"), water
    return Figure(
        "dilution",
        value,
        "mL",
        value,
        value,
        how,
        source,
        mark,
        "Per cent by volume on both sides; a stock loses strength with age.",
        tuple(notes),
        tuple(beside),
    )
