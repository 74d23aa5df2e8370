"""The wire for a branch: how thick, how long, how heavy."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .bounds import within
from .figure import Band, Beside, Figure, FigureError, exactly, plain, weakest
from .section import bend_radius_mm, moment_nmm, outer_strain
from .wire import (
    Metal,
    coil_length_mm,
    equal_hold_diameter_mm,
    gauge_words,
    holding_diameter_mm,
    mass_g,
    nearest_sold_mm,
    pitch_mm,
    plastic_moment_nmm,
)
from .wire_stock import gauge_of, gauge_thickness, wire_weight
from .wire_swap import swapped_wire
from .wire_tried import branch_for, strands_of, tried_words
from .wood import PROPORTIONAL_SHARE, Wood, wood_for

_THICK_MM = 25  # a third of more than this is no longer wound by hand


def wire_diameter(
    diameter_mm: float | None = None,
    third: Band | None = None,
    metals: Sequence[Metal] = (),
    woods: Sequence[Wood] = (),
    species: str | None = None,
    live_gpa: Band | None = None,
    sizes_mm: tuple[float, ...] = (),
    gauges: tuple[tuple[int, float], ...] = (),
    strands: int = 1,
    length_mm: float | None = None,
    angle_deg: float | None = None,
    metal: str | None = None,
    tried_mm: float | None = None,
    swapped_mm: float | None = None,
    swapped_metal: str | None = None,
    gauge: float | None = None,
    gauge_kind: str | None = None,
    gauged_mm: float | None = None,
    held_by_mm: float | None = None,
    wanted: str = "wire",
    guy_wire_mm: Band | None = None,
) -> Figure:
    """Wire diameter in mm for a branch of 0.5 to 150 mm, by the trade's share of it, with the mechanics beside.

    third: wire over branch diameter. metals: the first is the trade's aluminium, the others are compared with it.
    strands: 1 to 4 laid side by side. length_mm, angle_deg: the bend meant, if known; without it the branch is taken
    to push back as hard as it can before its wood gives. live_gpa: stiffness of living branches. guy_wire_mm: wire
    usual for a guy, which draws in what no wire holds. metal: the wire's,
    where another than the trade's aluminium is asked for: the thickness that holds as much. tried_mm: a wire that is at
    hand, told whether it will do. swapped_mm, swapped_metal: without a branch, a wire of another metal that `metal`
    stands in for. gauge, gauge_kind: of a wire, told in mm, or tried on the branch; gauged_mm: a wire whose gauge is
    asked for; held_by_mm: one of which it is asked what branch it holds. wanted: "strands" for how many of the wire
    tried hold this branch. Raises FigureError.
    """
    if gauged_mm is not None:
        return gauge_of(gauged_mm, gauges, gauge_kind)
    if gauge is not None:
        by_gauge = gauge_thickness(gauge, gauges, gauge_kind)
        if diameter_mm is None:
            return by_gauge
        tried_mm = by_gauge.value if isinstance(by_gauge.value, float) else tried_mm
    if diameter_mm is None and swapped_mm is not None:
        return swapped_wire(swapped_mm, metals, swapped_metal, metal, sizes_mm)
    if held_by_mm is not None and third is not None:
        return branch_for(held_by_mm, third, _scale(metal, metals))
    if wanted == "strands" and tried_mm is not None and diameter_mm is not None and third is not None:
        return strands_of(tried_mm, diameter_mm, third, _scale(metal, metals))
    if diameter_mm is None or third is None:
        raise FigureError("a wire for a branch of unknown thickness cannot be reckoned; its thickness would do")
    branch = within("branch_mm", diameter_mm)
    count = within("strands", strands)
    thinner = count ** (-1 / 3)
    value = third.value * branch * thinner
    wood = wood_for(species, woods)
    stress, bend = _push_back(branch, wood, live_gpa, length_mm, angle_deg)
    moment = moment_nmm(branch, stress)
    beside = [Beside("branch pushes back", moment, "N mm")]
    notes = []
    if count > 1:
        notes.append(f"{count:g} strands hold together, so each is {plain(thinner)} of the single wire")
    lead = metals[0]
    for each in metals:
        same = equal_hold_diameter_mm(value, lead.worked_mpa, each.worked_mpa)
        held = count * plastic_moment_nmm(same, each.worked_mpa)
        full = holding_diameter_mm(moment, each.worked_mpa, strands)
        beside += [
            Beside(f"{each.name} of that hold", same, "mm"),
            Beside(f"{each.name} holds, annealed", count * plastic_moment_nmm(same, each.soft_mpa), "N mm"),
            Beside(f"{each.name} holds, hardened by winding", held, "N mm"),
            Beside(f"{each.name} to hold it by statics alone", full, "mm"),
        ]
    share = beside[3].value
    share = share / moment if isinstance(share, float) else 0.0
    notes.append(
        f"By statics alone {lead.name} of {plain(value)} mm, hardened by winding, holds {100 * share:.0f} % of what a "
        f"{bend} pushes back ({plain(moment)} N mm); the rest is the wood giving and setting over weeks, so read this "
        "to compare wires, not to call one too thin"
    )
    notes += [
        f"{each.name.capitalize()} of {plain(equal_hold_diameter_mm(value, lead.worked_mpa, each.worked_mpa))} "
        "mm holds as much"
        for each in metals[1:]
    ]
    other = next((one for one in metals[1:] if one.name == metal), None)
    scale, told = _scale(metal, metals), ""
    if other is not None:
        told = f"; {other.name} of {plain(value * scale)} mm holds as much as {lead.name} of {plain(value)} mm"
    # not even the thinnest that the trade would take is sold
    too_thick = bool(sizes_mm) and third.low * branch * thinner * scale > max(sizes_mm)
    if sizes_mm and not too_thick:
        notes.append(f"Next sold: {' or '.join(plain(size) for size in nearest_sold_mm(value * scale, sizes_mm))} mm")
    words = gauge_words(value * scale, gauges) if gauges else ""
    if words and not too_thick:
        notes.append(f"By gauge: {words}")
    if (share < 0.05 or branch > _THICK_MM) and (not too_thick or tried_mm is not None):
        notes.append(f"A branch this stiff is better drawn in by {_guy_words(guy_wire_mm)}, in steps")
    return Figure(
        "wire-diameter",
        value * scale,
        "mm",
        third.low * branch * thinner * scale,
        third.high * branch * thinner * scale,
        f"{plain(third.value)} x {plain(branch)} mm of branch is {plain(value)} mm"
        + (f" for each of {count:g} strands" if count > 1 else "")
        + told,
        third.source,
        third.mark,
        "A rule of the trade for aluminium on healthy shoots; try the wire on the branch before trusting it.",
        tuple(notes),
        tuple(beside),
        (_no_coil(guy_wire_mm) if too_thick else "")
        if tried_mm is None
        else tried_words(tried_mm, third, branch * thinner * scale, other.name if other else None, count),
    )


def _guy_words(usual: Band | None) -> str:
    return "a padded guy" + (f" of {plain(usual.low)} to {plain(usual.high)} mm wire" if usual else "")


def _no_coil(usual: Band | None) -> str:
    return (
        f"No wire so thick is sold and no hand winds it: a branch this stiff is drawn in by {_guy_words(usual)} to a "
        "firm anchor, in steps"
    )


def _scale(metal: str | None, metals: Sequence[Metal]) -> float:
    """Thickness of a wire of that metal over one of the first that holds as much."""
    other = next((one for one in metals[1:] if one.name == metal), None)
    return 1.0 if other is None else equal_hold_diameter_mm(1.0, metals[0].worked_mpa, other.worked_mpa)


def _push_back(
    branch: float, wood: Wood, live_gpa: Band | None, length_mm: float | None, angle_deg: float | None
) -> tuple[float, str]:
    """Outer stress (MPa) of the bent branch, and the bend in words."""
    limit = PROPORTIONAL_SHARE * wood.mor_mpa
    if length_mm is None or angle_deg is None or live_gpa is None:
        return limit, "branch bent until its wood begins to give"
    length, angle = within("length_mm", length_mm), within("angle_deg", angle_deg)
    strain = outer_strain(branch, bend_radius_mm(length, angle))
    return (min(limit, live_gpa.value * 1000 * strain), f"branch bent {plain(angle)} degrees over {plain(length)} mm")


def wire_length(
    angle_deg: Band,
    spare: Band,
    length_mm: float | None = None,
    metals: Sequence[Metal] = (),
    diameter_mm: float | None = None,
    wire_mm: float | None = None,
    third: Band | None = None,
    wire_length_mm: float | None = None,
    metal: str | None = None,
    gauge: float | None = None,
    gauge_kind: str | None = None,
    gauges: Sequence[tuple[int, float]] = (),
    turn_mm: float | None = None,
) -> Figure:
    """Wire in mm for a branch of 5 to 3000 mm, coiled at an angle (10 to 80 degrees) to the branch's axis.

    spare: share added to anchor and handle it. diameter_mm: of the branch; with it turns and weight are told, wire_mm
    being the trade's share of it unless given. turn_mm: from turn to turn, in place of the angle. value: the coil
    itself; high: with the most spare. Or, of wire by itself: what wire_length_mm of wire_mm or of a gauge weighs.
    Raises FigureError.
    """
    if wire_length_mm is not None and length_mm is None:
        if gauge is not None and wire_mm is None:
            by_gauge = gauge_thickness(gauge, gauges, gauge_kind).value
            wire_mm = by_gauge if isinstance(by_gauge, float) else None
        if wire_mm is None:
            raise FigureError("the weight of a wire of unknown thickness cannot be reckoned; its thickness would do")
        return wire_weight(wire_length_mm, wire_mm, metals, metal)
    if length_mm is None:
        raise FigureError("a wire for a branch of unknown length cannot be reckoned; the branch's length would do")
    length = within("length_mm", length_mm)
    if turn_mm is not None and diameter_mm is not None:
        thick = wire_mm if wire_mm is not None else diameter_mm * third.value if third is not None else 0.0
        turn = math.pi * (within("branch_mm", diameter_mm) + thick) / within("length_mm", turn_mm)
        angle_deg = exactly(math.degrees(math.atan(turn)), "degrees")
    value = coil_length_mm(length, angle_deg.value)
    cut = value * (1 + spare.low), value * (1 + spare.high)
    beside = [Beside("cut at least", cut[0], "mm"), Beside("cut at most", cut[1], "mm")]
    notes = [
        f"Cut {plain(cut[0])} to {plain(cut[1])} mm, so that {plain(100 * spare.low)} to "
        f"{plain(100 * spare.high)} % is left for the anchor"
    ]
    if not angle_deg.said and angle_deg.high > angle_deg.value:
        notes.append(
            f"Coiled closer, at {plain(angle_deg.high)} degrees to the branch, it takes "
            f"{plain(coil_length_mm(length, angle_deg.high))} mm"
        )
    branch = None if diameter_mm is None else within("branch_mm", diameter_mm)
    wire = within("wire_mm", wire_mm) if wire_mm is not None else None
    if wire is None and branch is not None and third is not None:
        wire = third.value * branch
    if branch is not None and wire is not None:
        beside.append(Beside("turns", length / pitch_mm(branch + wire, angle_deg.value), "turns"))
    if wire is not None:
        for each in metals:
            beside.append(Beside(f"{each.name} weighs", mass_g(cut[1], wire, each.density_g_cm3), "g"))
        notes.append(
            f"In {plain(wire)} mm "
            + ", ".join(f"{each.name} that is {plain(mass_g(cut[1], wire, each.density_g_cm3))} g" for each in metals)
        )
    return Figure(
        "wire-length",
        value,
        "mm",
        value,
        cut[1],
        f"{plain(length)} mm coiled at {plain(angle_deg.value)} degrees to the branch is {plain(length)} / "
        f"cos {plain(angle_deg.value)} = {plain(value)} mm",
        "geometry of a helix; angle and spare by the trade",
        weakest(angle_deg.mark, spare.mark),
        "One branch, evenly coiled; two branches on one wire need both lengths and the stretch between them.",
        tuple(notes),
        tuple(beside),
    )
