"""Wire: gauges, what a wire can hold, how much of it a coil takes and weighs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .bounds import positive, within
from .figure import FigureError, plain

SHAPE_FACTOR = 16 / (3 * math.pi)  # plastic over elastic section modulus of a round bar, 1.698


@dataclass(frozen=True, slots=True)
class Metal:
    """A wire metal, annealed. soft_mpa: yield stress as drawn and annealed. worked_mpa: after winding has hardened it.
    e_gpa: stiffness. density_g_cm3: mass of a cubic centimetre."""

    name: str
    soft_mpa: float
    worked_mpa: float
    e_gpa: float
    density_g_cm3: float
    source: str = ""
    mark: str = "memory"


def awg_diameter_mm(gauge: int) -> float:
    """Diameter in mm of American wire gauge -3 (4/0) to 40. Raises FigureError beyond.

    Source: ASTM B258: 0.127 mm x 92 ^ ((36 - gauge) / 39).

    >>> round(awg_diameter_mm(14), 3)
    1.628
    """
    if isinstance(gauge, bool) or not isinstance(gauge, int) or not -3 <= gauge <= 40:
        raise FigureError(f"American wire gauge {gauge} is not in the standard; -3 (4/0) to 40 would do")
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def nearest_awg(diameter_mm: float) -> int:
    """The American wire gauge next to a diameter in mm. Raises FigureError.

    >>> nearest_awg(2.6)
    10
    """
    return min(range(-3, 41), key=lambda gauge: abs(awg_diameter_mm(gauge) - positive("a wire diameter", diameter_mm)))


def swg_diameter_mm(number: int, gauges: tuple[tuple[int, float], ...]) -> float:
    """Diameter in mm of a British standard wire gauge, from its table: (number, diameter in inches) rows.

    >>> round(swg_diameter_mm(14, ((14, 0.080),)), 3)
    2.032
    """
    for row, inches in gauges:
        if row == number:
            return inches * 25.4
    raise FigureError(f"standard wire gauge {number} is not in the table; {gauges[0][0]} to {gauges[-1][0]} would do")


def first_yield_moment_nmm(diameter_mm: float, yield_mpa: float) -> float:
    """Moment in N mm at which the skin of a round wire begins to yield. Raises FigureError.

    >>> round(first_yield_moment_nmm(4, 34), 1)
    213.6
    """
    return positive("a yield stress", yield_mpa) * math.pi * positive("a wire diameter", diameter_mm) ** 3 / 32


def plastic_moment_nmm(diameter_mm: float, yield_mpa: float) -> float:
    """Moment in N mm that a round wire carries when it has yielded right through: all that it can hold.

    >>> round(plastic_moment_nmm(4, 34), 1)
    362.7
    """
    return positive("a yield stress", yield_mpa) * positive("a wire diameter", diameter_mm) ** 3 / 6


def holding_diameter_mm(moment: float, yield_mpa: float, strands: int = 1) -> float:
    """Diameter in mm of each of `strands` wires whose plastic moments together are `moment` (N mm).

    >>> round(holding_diameter_mm(1340, 35), 2)
    6.12
    """
    each = positive("a moment", moment) / within("strands", strands)
    return float((6 * each / positive("a yield stress", yield_mpa)) ** (1 / 3))


def equal_hold_diameter_mm(diameter_mm: float, yield_mpa: float, other_yield_mpa: float) -> float:
    """Diameter in mm of a wire of another metal that holds as much. Raises FigureError.

    >>> round(equal_hold_diameter_mm(2, 69, 34), 3)
    2.532
    """
    ratio = positive("a yield stress", yield_mpa) / positive("a yield stress", other_yield_mpa)
    return float(positive("a wire diameter", diameter_mm) * ratio ** (1 / 3))


def sprung_radius_mm(radius_mm: float, diameter_mm: float, yield_mpa: float, e_gpa: float) -> float:
    """Radius in mm to which a free wire, bent to `radius_mm` and let go, springs back. Infinite if it never yielded.

    Full plastic moment unloaded elastically: 1/R - 32 yield / (3 pi E d).

    >>> round(sprung_radius_mm(50, 3, 35, 69), 2)
    51.48
    """
    opened = (
        32
        * positive("a yield stress", yield_mpa)
        / (3 * math.pi * positive("a stiffness", e_gpa) * 1000 * positive("a wire diameter", diameter_mm))
    )
    left = 1 / positive("a bend radius", radius_mm) - opened
    return 1 / left if left > 0 else math.inf


def coil_length_mm(length_mm: float, angle_deg: float) -> float:
    """Wire in mm on a length of branch, coiled at an angle (10 to 80 degrees) to the branch's axis.

    Holds for any thickness of branch and wire. Raises FigureError.

    >>> round(coil_length_mm(300, 45), 2)
    424.26
    """
    return positive("a length", length_mm) / math.cos(math.radians(within("coil_deg", angle_deg)))


def coil_length_by_pitch_mm(length_mm: float, centre_mm: float, pitch_mm: float) -> float:
    """Wire in mm on a length of branch, from the pitch and the diameter of the coil's centre line (branch + wire).

    >>> round(coil_length_by_pitch_mm(200, 12, 38), 2)
    281.73
    """
    pitch = positive("a pitch", pitch_mm)
    return positive("a length", length_mm) / pitch * math.hypot(math.pi * positive("a coil", centre_mm), pitch)


def pitch_mm(centre_mm: float, angle_deg: float) -> float:
    """Rise in mm of one turn coiled at an angle (10 to 80 degrees) to the axis.

    >>> round(pitch_mm(12, 45), 2)
    37.7
    """
    return math.pi * positive("a coil", centre_mm) / math.tan(math.radians(within("coil_deg", angle_deg)))


def mass_g(length_mm: float, diameter_mm: float, density_g_cm3: float) -> float:
    """Mass in g of a length of round wire.

    >>> round(mass_g(1000, 4, 2.71), 2)
    34.05
    """
    area = math.pi * positive("a wire diameter", diameter_mm) ** 2 / 4
    return positive("a density", density_g_cm3) * area * positive("a length", length_mm) / 1000


def nearest_sold_mm(diameter_mm: float, sizes_mm: tuple[float, ...]) -> tuple[float, ...]:
    """The sold size that fits, or the one below and the one above.

    >>> nearest_sold_mm(2.67, (2.0, 2.5, 3.0))
    (2.5, 3.0)
    """
    if not sizes_mm:
        raise FigureError("no sizes of wire are listed; a list like 1, 1.5, 2 mm would do")
    below = max((size for size in sizes_mm if size <= diameter_mm), default=None)
    above = min((size for size in sizes_mm if size >= diameter_mm), default=None)
    found = sorted({size for size in (below, above) if size is not None})
    return tuple(found)


def gauge_words(diameter_mm: float, gauges: tuple[tuple[int, float], ...]) -> str:
    """The nearest American and British gauges, told with their diameters, or "" far outside them.

    >>> gauge_words(2.05, ((14, 0.080),))
    'AWG 12 is 2.05 mm, SWG 14 is 2.03 mm'
    """
    parts = []
    awg = nearest_awg(diameter_mm)
    if abs(awg_diameter_mm(awg) - diameter_mm) <= 0.15 * diameter_mm:
        parts.append(f"AWG {awg} is {plain(awg_diameter_mm(awg))} mm")
    swg = min(gauges, key=lambda row: abs(row[1] * 25.4 - diameter_mm), default=None)
    if swg and abs(swg[1] * 25.4 - diameter_mm) <= 0.15 * diameter_mm:
        parts.append(f"SWG {swg[0]} is {plain(swg[1] * 25.4)} mm")
    return ", ".join(parts)
