"""How far a branch bends: outer strain against what green wood stands, and what living branches have borne."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .bounds import within
from .figure import Band, Beside, Figure, plain
from .section import bend_radius_mm, elastic_stress_mpa, outer_strain, radius_at_strain_mm
from .wood import Wood, wood_for


def bend_limit(
    diameter_mm: float,
    woods: Sequence[Wood],
    live_gpa: Band,
    scale: Sequence[Band],
    species: str | None = None,
    length_mm: float | None = None,
    angle_deg: float | None = None,
) -> Figure:
    """How far a branch of 0.5 to 150 mm may be bent: the tightest radius in mm, or over a length the angle in degrees.

    The value is where grown wood of the genus would break if it stayed elastic; the careful end is where it stops
    springing back; the bold end is where a living branch, which is softer (live_gpa: stiffness in GPa), reaches the
    breaking stress. angle_deg: the bend meant, told as a multiple of the breaking strain and in the words of `scale`
    (bands of that multiple, from easy to refused). Raises FigureError.
    """
    branch = within("branch_mm", diameter_mm)
    wood = wood_for(species, woods)
    bold = wood.mor_mpa / (live_gpa.value * 1000)
    strains = (wood.elastic_strain, wood.breaking_strain, max(bold, wood.breaking_strain))
    careful, middle, tight = (radius_at_strain_mm(branch, strain) for strain in strains)
    beside = [
        Beside("radius where the wood stops springing back", careful, "mm"),
        Beside("radius at breaking strain of grown wood", middle, "mm"),
        Beside("radius where a softer living branch would crack", tight, "mm"),
    ]
    whose = f"{wood.name} ({plain(wood.mor_mpa)} MPa, {plain(wood.moe_gpa)} GPa)"
    how = (
        f"{whose} breaks at {100 * wood.breaking_strain:.2f} % of strain, which {plain(branch)} mm reaches at a "
        f"radius of {plain(branch)} / (2 x {wood.breaking_strain:.4f}) = {plain(middle)} mm"
    )
    notes = [
        "Bend in stages over weeks, wire or raffia on the outside of the bend, and stop at the first creak",
        f"Single branches differ by {100 * wood.spread:.0f} % or more, young and well-watered ones bend furthest",
    ]
    if wood.borrowed or not wood.species:
        notes.append("There are no measured figures for this wood; these are borrowed")
    value, low, high, unit = middle, tight, careful, "mm"
    if length_mm is not None:
        length = within("length_mm", length_mm)
        angles = [math.degrees(length / radius) for radius in (careful, middle, tight)]
        low, value, high = angles
        unit = "degrees"
        how += f", so {plain(length)} mm bends {plain(value)} degrees"
        if angle_deg is not None:
            more, words = _asked(branch, length, within("angle_deg", angle_deg), wood, live_gpa, scale)
            beside += more
            notes.insert(0, words)
    return Figure(
        "bend-limit",
        value,
        unit,
        low,
        high,
        how,
        wood.source,
        wood.mark,
        "Even bend, straight grain; knots, forks, old wounds and frozen or dry wood break sooner.",
        tuple(notes),
        tuple(beside),
    )


def _asked(
    branch: float, length: float, angle: float, wood: Wood, live_gpa: Band, scale: Sequence[Band]
) -> tuple[list[Beside], str]:
    """What the bend that is meant asks of the wood. A stage is taken as twice the breaking strain."""
    radius = bend_radius_mm(length, angle)
    strain = outer_strain(branch, radius)
    multiple = strain / wood.breaking_strain
    step = next((band for band in scale if multiple <= band.high), scale[-1])
    stages = max(1, math.ceil(multiple / 2))
    stress = min(wood.mor_mpa, elastic_stress_mpa(branch, radius, live_gpa.value))
    beside = [
        Beside("radius of that bend", radius, "mm"),
        Beside("strain of that bend", 100 * strain, "%"),
        Beside("stress in living wood", stress, "MPa"),
        Beside("times the breaking strain", multiple, "times"),
        Beside("stages", float(stages), "stages"),
    ]
    return beside, (
        f"{plain(angle)} degrees over {plain(length)} mm strains the bark side by {100 * strain:.1f} %, "
        f"{plain(multiple)} times the breaking strain of grown wood: {step.says}"
    )
