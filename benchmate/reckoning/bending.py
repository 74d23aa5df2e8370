"""How far a branch bends: outer strain against what green wood stands, and what living branches have borne."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .bounds import within
from .figure import Band, Beside, Figure, plain, weakest
from .section import bend_radius_mm, elastic_stress_mpa, outer_strain, radius_at_strain_mm
from .wood import Wood, wood_for

_IN_ONE_GO = 3  # times the breaking strain of grown wood: what is bent further goes in stages


def bend_limit(
    diameter_mm: float,
    woods: Sequence[Wood],
    live_gpa: Band,
    scale: Sequence[Band],
    species: str | None = None,
    length_mm: float | None = None,
    angle_deg: float | None = None,
    radius_mm: float | None = None,
    strain_percent: float | None = None,
    wanted: str | None = None,
) -> Figure:
    """How far a branch of 0.5 to 150 mm may be bent: the tightest radius in mm, or over a length the angle in degrees.

    The value is where grown, straight wood of the genus would break if it stayed elastic: short of it every branch is
    safe. The careful end is where it stops springing back. A living branch gives before it breaks, so it goes further:
    the bold end is that of a risky bend in `scale`, wrapped and in stages (multiples of that breaking strain, from the
    trade: no source has the strain at which live shoots fail). live_gpa: stiffness of living branches in GPa.
    angle_deg: the bend meant, told as a multiple of the breaking strain and in the words of `scale` (bands of that
    multiple, from easy to refused); radius_mm: that bend told as a radius. strain_percent: the outer
    strain that is put up with, in place of the wood's, told as a radius or over a length as an angle. wanted: "strain"
    for the strain in % of the bend that is meant.
    Raises FigureError.
    """
    branch = within("branch_mm", diameter_mm)
    if strain_percent is not None:
        return _at_strain(branch, strain_percent, length_mm)
    wood = wood_for(species, woods)
    bold = max(wood.mor_mpa / (live_gpa.value * 1000), wood.breaking_strain)
    springy, careful, softer = (
        radius_at_strain_mm(branch, strain) for strain in (wood.elastic_strain, wood.breaking_strain, bold)
    )
    firm, risky = (careful / step.high for step in (scale[1], scale[2]))
    beside = [
        Beside("radius where the wood stops springing back", springy, "mm"),
        Beside("radius at breaking strain of grown wood", careful, "mm"),
        Beside("radius where a softer living branch would crack if it stayed elastic", softer, "mm"),
        Beside("radius of a firm bend", firm, "mm"),
        Beside("radius with raffia, in stages", risky, "mm"),
    ]
    whose = f"{wood.name} ({plain(wood.mor_mpa)} MPa, {plain(wood.moe_gpa)} GPa)"
    how = (
        f"{whose}, grown and straight, breaks at {100 * wood.breaking_strain:.2f} % of strain, which {plain(branch)} "
        f"mm reaches at a radius of {plain(branch)} / (2 x {wood.breaking_strain:.4f}) = {plain(careful)} mm; living "
        f"wood gives first and is bent to {plain(scale[1].high)} times that strain, {plain(firm)} mm, with raffia and "
        f"in stages to {plain(scale[2].high)} times, {plain(risky)} mm"
    )
    notes = [
        "Bend in stages over weeks, wire or raffia on the outside of the bend, and stop at the first creak",
        "No source has the strain at which living shoots fail: the multiples are the trade's, and green wrapped wood "
        "has been bent tighter still",
        f"Single branches differ by {100 * wood.spread:.0f} % or more, young and well-watered ones bend furthest",
    ]
    if wood.borrowed or not wood.species:
        notes.append("There are no measured figures for this wood; these are borrowed")
    value, low, high, unit = careful, risky, springy, "mm"
    meant, opens = radius_mm, ""
    if radius_mm is None and length_mm is not None and angle_deg is not None:
        meant = bend_radius_mm(within("length_mm", length_mm), within("angle_deg", angle_deg))
    if radius_mm is not None:
        more, words = _asked(
            branch, within("radius_mm", radius_mm), f"a radius of {plain(radius_mm)} mm", wood, live_gpa, scale
        )
        beside += more
        notes.insert(0, words)
        opens = _opens(branch, radius_mm, wood, scale)
    if wanted == "strain" and meant is not None:
        strain = 100 * outer_strain(branch, meant)
        value = low = high = strain
        unit = "%"
        bent = f"{plain(branch)} mm bent to a radius of {plain(meant)} mm"
        how = f"{bent} strains its outer side by {plain(branch)} / (2 x {plain(meant)}) = {plain(strain)} %"
    elif length_mm is None and radius_mm is None:
        opens = (
            f"Down to {plain(careful)} mm radius it is {scale[0].says}; down to {plain(firm)} mm {scale[1].says}; "
            f"down to {plain(risky)} mm {scale[2].says}"
        )
    elif length_mm is not None:
        length = within("length_mm", length_mm)
        angles = [math.degrees(length / radius) for radius in (springy, careful, risky)]
        low, value, high = angles
        unit = "degrees"
        how += f", so {plain(length)} mm bends {plain(value)} degrees"
        if angle_deg is not None:
            bend = f"{plain(angle_deg)} degrees over {plain(length)} mm"
            more, words = _asked(branch, bend_radius_mm(length, angle_deg), bend, wood, live_gpa, scale)
            beside += more
            notes.insert(0, words)
            opens = _opens(branch, bend_radius_mm(length, angle_deg), wood, scale)
    return Figure(
        "bend-limit",
        value,
        unit,
        low,
        high,
        how,
        f"{wood.source}; multiples of its strain by the trade",
        weakest(wood.mark, scale[1].mark),
        "Even bend, straight grain; knots, forks, old wounds and frozen or dry wood break sooner.",
        tuple(notes),
        tuple(beside),
        opens,
    )


def _opens(branch: float, radius: float, wood: Wood, scale: Sequence[Band]) -> str:
    """Whether a branch (mm) takes a bend of that radius (mm), in a few words."""
    multiple = outer_strain(branch, radius) / wood.breaking_strain
    step = next((at for at, band in enumerate(scale) if multiple <= band.high), len(scale) - 1)
    if step == len(scale) - 1:
        return f"No: {scale[step].says}"
    return f"Yes: {scale[step].says}" if multiple <= _IN_ONE_GO else f"Not in one go: {scale[step].says}"


def _asked(
    branch: float, radius: float, bend: str, wood: Wood, live_gpa: Band, scale: Sequence[Band]
) -> tuple[list[Beside], str]:
    """What the bend that is meant asks of the wood. bend: in words. A stage is taken as twice the breaking strain."""
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
        f"{bend} strains the bark side by {100 * strain:.1f} %, "
        f"{plain(multiple)} times the breaking strain of grown wood: {step.says}"
    )


def _at_strain(branch: float, strain_percent: float, length_mm: float | None) -> Figure:
    """The radius in mm at which the outer side of a branch (mm) reaches a strain in per cent, 0.05 to 20; over a
    length (mm) the angle in degrees."""
    strain = within("percent", strain_percent) / 100
    value, unit = radius_at_strain_mm(branch, strain), "mm"
    how = (
        f"a strain of {plain(strain_percent)} % is reached at a radius of {plain(branch)} / (2 x {plain(strain)}) = "
        f"{plain(value)} mm"
    )
    beside: tuple[Beside, ...] = ()
    if length_mm is not None:
        length = within("length_mm", length_mm)
        beside = (Beside("radius at that strain", value, "mm"),)
        value, unit = math.degrees(length / value), "degrees"
        how += f", so {plain(length)} mm bends {plain(value)} degrees"
    return Figure(
        "bend-limit",
        value,
        unit,
        value,
        value,
        how,
        "geometry of bending: outer strain is half the thickness over the radius",
        "practice",
        "Even bend, straight grain; the radius runs to the middle of the branch.",
        (),
        beside,
    )
