"""A guy: its tension from the pull that is wanted and its angle, and what it presses on the bark."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .bounds import positive, within
from .figure import Band, Beside, Figure, FigureError, plain
from .section import base_stress_mpa, tip_force_n
from .wire import Metal

Vector = tuple[float, float, float]


def tension_n(force_n: float, angle_deg: float) -> float:
    """Tension in N of a taut guy at 10 to 170 degrees to the branch, that pulls with force_n square to it.

    >>> round(tension_n(10, 30), 6)
    20.0
    """
    return positive("a pull", force_n) / math.sin(math.radians(within("guy_deg", angle_deg)))


def push_along_n(force_n: float, angle_deg: float) -> float:
    """Force in N along the branch from the same guy; negative where it draws the branch outward (over 90 degrees).

    >>> round(push_along_n(10, 30), 2)
    17.32
    """
    return positive("a pull", force_n) / math.tan(math.radians(within("guy_deg", angle_deg)))


def parts_of_tension(tension: float, run: Vector) -> Vector:
    """A tension split along three axes, in its own unit, from the run of the guy along them (any one unit).

    >>> [round(part, 2) for part in parts_of_tension(525, (22, 100, -24))]
    [109.83, 499.21, -119.81]
    """
    length = math.hypot(*run)
    if not length:
        raise FigureError("a guy with no run cannot pull; a run along at least one axis would do")
    x, y, z = (positive("a tension", tension) * part / length for part in run)
    return x, y, z


def pad_pressure_mpa(force_n: float, diameter_mm: float, pad_mm: float) -> float:
    """Pressure in MPa of a force on the bark under a pad of that width, over the branch's thickness.

    >>> round(pad_pressure_mpa(7.07, 8, 10), 4)
    0.0884
    """
    return positive("a pull", force_n) / (positive("a diameter", diameter_mm) * positive("a pad", pad_mm))


def guy_pull(
    angle_deg: float | None = None,
    live_gpa: Band | None = None,
    pad_limit_mpa: Band | None = None,
    force_n: float | None = None,
    diameter_mm: float | None = None,
    length_mm: float | None = None,
    move_mm: float | None = None,
    pad_mm: float = 10.0,
    metals: Sequence[Metal] = (),
    guy_wire_mm: Band | None = None,
) -> Figure:
    """Tension in a guy at 10 to 170 degrees to the branch.

    With force_n (the pull wanted square to the branch), or with the branch's diameter_mm, the distance length_mm of
    the tie from its base and the movement move_mm wanted there: in N. Without either: as a multiple of that pull.
    live_gpa: stiffness of living branches, in GPa. pad_limit_mpa: what the bark is trusted with. metals: of which the
    first is the wire's. guy_wire_mm: thickness usual for a guy. A guy whose
    angle is not told is taken to pull square to the branch. Raises FigureError.
    """
    angle = within("guy_deg", 90.0 if angle_deg is None else angle_deg)
    multiple = tension_n(1, angle)
    notes = ["The guy is taken to pull square to the branch; at a slant it carries more"] if angle_deg is None else []
    notes += ["Pad branch and anchor, tighten in steps two to four weeks apart, and look under the pad each time"]
    if not 30 <= angle <= 150:
        notes.insert(0, f"At {plain(angle)} degrees most of the pull runs along the branch; nearer square is kinder")
    beside = [
        Beside("tension for each N of pull", multiple, "times"),
        Beside("push along the branch for each N of pull", push_along_n(1, angle), "times"),
    ]
    limits = "Taut straight guy, anchor that does not give."
    pull = _pull(force_n, diameter_mm, length_mm, move_mm, live_gpa)
    if pull is None:
        return Figure(
            "guy-pull",
            multiple,
            "times the pull square to the branch",
            multiple,
            multiple,
            f"1 / sin {plain(angle)} = {plain(multiple)}: the guy carries {plain(multiple)} times the pull that moves "
            "the branch",
            "statics of a taut line",
            "practice",
            limits,
            tuple(notes),
            tuple(beside),
        )
    value, low, high = (force * multiple for force in pull)
    beside.append(Beside("pull square to the branch", pull[0], "N"))
    if diameter_mm is not None:
        branch = within("branch_mm", diameter_mm)
        pressure = pad_pressure_mpa(value, branch, within("pot_mm", pad_mm))
        beside.append(Beside("pressure under the pad", pressure, "MPa"))
        if pad_limit_mpa is not None and pressure > pad_limit_mpa.value:
            wide = value / (branch * pad_limit_mpa.value)
            notes.insert(
                0,
                f"{plain(pressure)} MPa is hard on bark; a pad {plain(wide)} mm wide would bring it to "
                f"{plain(pad_limit_mpa.value)}",
            )
        if length_mm is not None:
            beside.append(Beside("stress at the base", base_stress_mpa(pull[0], length_mm, branch), "MPa"))
    if metals:
        wire = math.sqrt(4 * value / (math.pi * metals[0].soft_mpa))
        beside.append(Beside(f"soft {metals[0].name} that carries it", wire, "mm"))
        usual = f"; {plain(guy_wire_mm.low)} to {plain(guy_wire_mm.high)} mm is usual for a guy" if guy_wire_mm else ""
        notes.append(f"Soft {metals[0].name} of {plain(wire)} mm carries that without giving{usual}")
    measured = force_n is not None
    return Figure(
        "guy-pull",
        value,
        "N",
        low,
        high,
        f"{plain(pull[0])} N square to the branch / sin {plain(angle)} = {plain(value)} N in the guy",
        "statics of a taut line" if measured or live_gpa is None else f"statics; stiffness: {live_gpa.source}",
        "practice" if measured or live_gpa is None else live_gpa.mark,
        limits,
        tuple(notes),
        tuple(beside),
    )


def _pull(
    force_n: float | None,
    diameter_mm: float | None,
    length_mm: float | None,
    move_mm: float | None,
    live_gpa: Band | None,
) -> tuple[float, float, float] | None:
    """The pull square to the branch in N, usual, least and most, if it can be known."""
    if force_n is not None:
        force = within("force_n", force_n)
        return force, force, force
    if diameter_mm is None or length_mm is None or move_mm is None or live_gpa is None:
        return None
    branch, length = within("branch_mm", diameter_mm), within("length_mm", length_mm)
    move = within("move_mm", move_mm)
    if move > length:
        raise FigureError(
            f"a movement of {plain(move)} mm at {plain(length)} mm from the base cannot be; "
            f"up to {plain(length / 3)} mm would do"
        )
    stiff = [tip_force_n(move, length, gpa, branch) for gpa in (live_gpa.value, live_gpa.low, live_gpa.high)]
    return stiff[0], stiff[1], stiff[2]
