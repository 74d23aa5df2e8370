"""Round sections in bending: second moment, strain, stress, moment, and the tip of a branch held at its base.

Elementary beam theory (Euler and Bernoulli): straight, even thickness, tip movement under about a tenth of the
length. A branch that tapers bends more towards its tip.
"""

from __future__ import annotations

import math

from .bounds import positive

MPA_PER_PSI = 0.006894757  # 1 psi = 6.894757 kPa, by definition of the pound-force and the inch


def second_moment_mm4(diameter_mm: float) -> float:
    """Second moment of area of a round section, mm4. diameter_mm above 0. Raises FigureError.

    >>> round(second_moment_mm4(10), 2)
    490.87
    """
    return math.pi * positive("a diameter", diameter_mm) ** 4 / 64


def section_modulus_mm3(diameter_mm: float) -> float:
    """Elastic section modulus of a round section, mm3. diameter_mm above 0. Raises FigureError.

    >>> round(section_modulus_mm3(10), 3)
    98.175
    """
    return math.pi * positive("a diameter", diameter_mm) ** 3 / 32


def outer_strain(diameter_mm: float, radius_mm: float) -> float:
    """Strain of the outer fibre, as a share, of a branch bent to a radius measured to its centre line.

    >>> outer_strain(10, 250)
    0.02
    """
    return positive("a diameter", diameter_mm) / (2 * positive("a bend radius", radius_mm))


def radius_at_strain_mm(diameter_mm: float, strain: float) -> float:
    """Bend radius in mm at which the outer fibre reaches a strain (a share above 0). Raises FigureError.

    >>> radius_at_strain_mm(10, 0.01)
    500.0
    """
    return positive("a diameter", diameter_mm) / (2 * positive("a strain", strain))


def bend_radius_mm(length_mm: float, angle_deg: float) -> float:
    """Radius in mm of a length bent evenly through an angle in degrees. Raises FigureError.

    >>> round(bend_radius_mm(100, 40), 1)
    143.2
    """
    return positive("a length", length_mm) / math.radians(positive("an angle", angle_deg))


def elastic_stress_mpa(diameter_mm: float, radius_mm: float, e_gpa: float) -> float:
    """Outer stress in MPa of wood that stays elastic at that bend radius. e_gpa above 0. Raises FigureError.

    >>> round(elastic_stress_mpa(8, 1000, 9.5), 3)
    38.0
    """
    return positive("a stiffness", e_gpa) * 1000 * outer_strain(diameter_mm, radius_mm)


def moment_nmm(diameter_mm: float, stress_mpa: float) -> float:
    """Bending moment in N mm that puts a stress (MPa) on the outer fibre. Raises FigureError.

    >>> round(moment_nmm(8, 20), 1)
    1005.3
    """
    return section_modulus_mm3(diameter_mm) * positive("a stress", stress_mpa)


def tip_movement_mm(load_n: float, length_mm: float, e_gpa: float, diameter_mm: float) -> float:
    """Sideways movement in mm of the tip of a branch fixed at its base, under a load in N square to its tip.

    >>> round(tip_movement_mm(100, 1000, 200, 20), 2)
    21.22
    """
    stiffness = 3 * positive("a stiffness", e_gpa) * 1000 * second_moment_mm4(diameter_mm)
    return positive("a load", load_n) * positive("a length", length_mm) ** 3 / stiffness


def tip_force_n(movement_mm: float, length_mm: float, e_gpa: float, diameter_mm: float) -> float:
    """Load in N that moves the tip sideways by that much: the inverse of `tip_movement_mm`.

    >>> round(tip_force_n(20, 250, 8, 8), 3)
    6.177
    """
    stiffness = 3 * positive("a stiffness", e_gpa) * 1000 * second_moment_mm4(diameter_mm)
    return positive("a movement", movement_mm) * stiffness / positive("a length", length_mm) ** 3


def base_stress_mpa(load_n: float, length_mm: float, diameter_mm: float) -> float:
    """Outer stress in MPa at the base of a branch loaded at its tip. Raises FigureError.

    >>> round(base_stress_mpa(2, 250, 8), 3)
    9.947
    """
    return positive("a load", load_n) * positive("a length", length_mm) / section_modulus_mm3(diameter_mm)


def mpa_from_psi(psi: float) -> float:
    """Stress in MPa from pounds per square inch.

    >>> round(mpa_from_psi(8600), 1)
    59.3
    """
    return positive("a stress", psi) * MPA_PER_PSI


def gpa_from_mpsi(mpsi: float) -> float:
    """Stiffness in GPa from millions of pounds per square inch.

    >>> round(gpa_from_mpsi(1.38), 3)
    9.515
    """
    return positive("a stiffness", mpsi) * MPA_PER_PSI * 1000
