"""Wire as it is bought: what a length of it weighs, and what a gauge is in mm."""

from __future__ import annotations

from collections.abc import Sequence

from .bounds import positive, within
from .figure import Beside, Figure, FigureError, plain
from .wire import Metal, awg_diameter_mm, mass_g, nearest_awg, swg_diameter_mm

KINDS = ("awg", "swg")


def wire_weight(length_mm: float, wire_mm: float, metals: Sequence[Metal], metal: str | None = None) -> Figure:
    """Weight in g of a length of wire (mm, up to 10 km) of 0.3 to 10 mm, of the named metal or else of the first.

    Density times the round wire's volume. Raises FigureError.
    """
    length = positive("a length of wire", length_mm)
    if length > 1e7:
        raise FigureError(f"a length of wire of {plain(length / 1000)} m cannot be; up to 10000 m would do")
    thick = within("wire_mm", wire_mm)
    ordered = sorted(metals, key=lambda one: one.name != (metal or metals[0].name))
    lead = ordered[0]
    value = mass_g(length, thick, lead.density_g_cm3)
    return Figure(
        "wire-length",
        value,
        "g",
        value,
        value,
        f"{plain(length / 1000)} m of {plain(thick)} mm {lead.name}: {plain(lead.density_g_cm3)} g/cm3 x pi/4 x "
        f"({plain(thick)} mm)^2 x {plain(length / 1000)} m = {plain(value)} g",
        f"density of {lead.name}: {lead.source or 'a table'}",
        "published",
        "Bare wire, without its spool; anodised wire weighs as much.",
        (),
        tuple(Beside(f"of {one.name}", mass_g(length, thick, one.density_g_cm3), "g") for one in ordered[1:]),
    )


def gauge_thickness(gauge: float, gauges: Sequence[tuple[int, float]], kind: str | None = None) -> Figure:
    """Thickness in mm of a wire gauge. kind: awg (American, -3 to 40) or swg (British, those in `gauges`: number and
    inches); without one American is taken and the British told beside it.

    Source: AWG by its formula, 0.127 mm x 92^((36 - n) / 39), ASTM B258; SWG by table. Raises FigureError.

    >>> gauge_thickness(12, ()).value
    2.05253
    """
    number = round(gauge)
    if kind is not None and kind not in KINDS:
        raise FigureError(f"a gauge of {kind!r} is not known; {' or '.join(KINDS)} would do")
    if kind == "swg":
        value = swg_diameter_mm(number, tuple(gauges))
        how = f"SWG {number} is {plain(value)} mm, by the table"
    else:
        if not -3 <= number <= 40:
            raise FigureError(f"a gauge of {number} cannot be; 0 to 40 would do")
        value = awg_diameter_mm(number)
        how = f"AWG {number} is 0.127 mm x 92^((36 - {number}) / 39) = {plain(value)} mm"
    british = next((inches * 25.4 for row, inches in gauges if row == number), None)
    beside = [Beside("in inches", value / 25.4, "in")]
    notes = []
    if kind is None and british is not None:
        beside.append(Beside(f"SWG {number}", british, "mm"))
        notes.append(f"Taken as American; British gauge {number} is {plain(british)} mm")
    return Figure(
        "wire-diameter",
        value,
        "mm",
        value,
        value,
        how,
        "ASTM B258; imperial standard wire gauge",
        "published",
        "A gauge grows as its number falls; wire is sold to within a few per cent of it.",
        tuple(notes),
        tuple(beside),
    )


def gauge_of(wire_mm: float, gauges: Sequence[tuple[int, float]], kind: str | None = None) -> Figure:
    """The gauge nearest to a wire of 0.3 to 10 mm: American, or British with kind "swg". Raises FigureError."""
    thick = within("wire_mm", wire_mm)
    american = nearest_awg(thick)
    british = min(gauges, key=lambda row: abs(row[1] * 25.4 - thick), default=None)
    is_swg = kind == "swg" and british is not None
    value = float(british[0]) if is_swg and british else float(american)
    told = british[1] * 25.4 if is_swg and british else awg_diameter_mm(american)
    name = "SWG" if is_swg else "AWG"
    beside = (
        (Beside("SWG", float(british[0]), ""),) if british and not is_swg else (Beside("AWG", float(american), ""),)
    )
    return Figure(
        "wire-diameter",
        value,
        name,
        value,
        value,
        f"{plain(thick)} mm lies nearest to {name} {plain(value)}, {plain(told)} mm",
        "ASTM B258; imperial standard wire gauge",
        "published",
        "A gauge grows as its number falls; wire is sold to within a few per cent of it.",
        (),
        beside,
    )
