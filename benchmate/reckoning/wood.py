"""Green wood: strength and stiffness by species, by genus, or from the density where no row is known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .bounds import positive
from .figure import FigureError, weakest

#: Green fibre stress at the proportional limit over breaking stress: 10,200 / 17,600, from the specific gravity
#: relations of the Forest Products Laboratory as printed in US Army TM 5-852-4, table 2-2.
PROPORTIONAL_SHARE = 10_200 / 17_600


@dataclass(frozen=True, slots=True)
class Wood:
    """Green, clear, straight-grained wood of grown trees.

    mor_mpa: bending stress at breaking. moe_gpa: stiffness in bending. spread: share by which single trees vary in
    strength. borrowed: the row stands in for a wood that has none of its own.
    """

    name: str
    species: str
    specific_gravity: float
    mor_mpa: float
    moe_gpa: float
    spread: float = 0.16
    source: str = ""
    mark: str = "memory"
    borrowed: bool = False

    @property
    def breaking_strain(self) -> float:
        """Breaking stress over stiffness: the strain at breaking if the wood stayed elastic."""
        return self.mor_mpa / (self.moe_gpa * 1000)

    @property
    def elastic_strain(self) -> float:
        """Strain up to which the wood springs back."""
        return PROPORTIONAL_SHARE * self.breaking_strain


def breaking_stress_mpa(specific_gravity: float) -> float:
    """Bending strength in MPa of green wood from its specific gravity (oven-dry mass, green volume), 0.2 to 1.2.

    Source: Forest Products Laboratory relation, in US Army TM 5-852-4, table 2-2: 17,600 G^1.25 psi.

    >>> round(breaking_stress_mpa(0.56), 1)
    58.8
    """
    return float(17_600 * _gravity(specific_gravity) ** 1.25 * 0.006894757)


def stiffness_gpa(specific_gravity: float) -> float:
    """Stiffness in GPa of green wood from its specific gravity, 0.2 to 1.2. Raises FigureError.

    Source: as `breaking_stress_mpa`: 2,360,000 G psi.

    >>> round(stiffness_gpa(0.56), 2)
    9.11
    """
    return 2_360 * _gravity(specific_gravity) * 0.006894757


def wood_of_density(specific_gravity: float) -> Wood:
    """The wood that the density relations give, with a spread of 30 %. Raises FigureError.

    >>> round(wood_of_density(0.5).mor_mpa), round(wood_of_density(0.5).moe_gpa, 1)
    (51, 8.1)
    """
    return Wood(
        f"wood of specific gravity {specific_gravity:g}",
        "",
        specific_gravity,
        breaking_stress_mpa(specific_gravity),
        stiffness_gpa(specific_gravity),
        0.30,
        "Forest Products Laboratory density relations, in US Army TM 5-852-4, table 2-2",
        "published",
        True,
    )


def wood_for(species: str | None, rows: Sequence[Wood]) -> Wood:
    """The row of a species ("Ulmus americana"), the middle one of its genus ("Ulmus"), or wood of middling density.

    The middle one is the genus's row with the median breaking strain; its spread is widened to cover the others, and
    it is marked as borrowed where the species was named and has no row.
    """
    name = (species or "").strip()
    for row in rows:
        if name and row.species.lower() == name.lower():
            return row
    genus = name.split(" ")[0].lower()
    kin = sorted(
        (row for row in rows if genus and row.species.lower().split(" ")[0] == genus),
        key=lambda row: row.breaking_strain,
    )
    if not kin:
        return replace(wood_of_density(0.5), name="wood of middling density (0.5)", mark="practice")
    middle = kin[(len(kin) - 1) // 2]
    apart = max(abs(row.breaking_strain / middle.breaking_strain - 1) for row in kin)
    return replace(
        middle,
        spread=max(middle.spread, apart),
        borrowed=" " in name,
        mark=weakest(middle.mark, "practice" if " " in name else middle.mark),
    )


def _gravity(specific_gravity: float) -> float:
    gravity = positive("a specific gravity", specific_gravity)
    if not 0.2 <= gravity <= 1.2:
        raise FigureError(f"a specific gravity of {gravity:g} cannot be; 0.2 to 1.2 would do")
    return gravity
