"""Wire of one metal in place of wire of another that is not to hand."""

from __future__ import annotations

from collections.abc import Sequence

from .bounds import within
from .figure import Beside, Figure, FigureError, plain, weakest
from .wire import Metal, equal_hold_diameter_mm, nearest_sold_mm


def swapped_wire(
    wire_mm: float,
    metals: Sequence[Metal],
    of: str | None = None,
    by: str | None = None,
    sizes_mm: tuple[float, ...] = (),
) -> Figure:
    """Thickness in mm of a wire that holds as much as one of wire_mm (0.3 to 10 mm) of another metal.

    of: the metal of the wire told, else the first that `by` is not. by: the one that stands in for it, else the first
    that `of` is not. sizes_mm: as sold. Raises FigureError where either is unknown.
    """
    thick = within("wire_mm", wire_mm)
    old = next((one for one in metals if one.name == of or (of is None and one.name != by)), None)
    new = next((one for one in metals if one.name == by or (by is None and one is not old)), None)
    if old is None or new is None or old is new:
        raise FigureError("a wire in place of one of the same metal is of the same thickness; two metals would do")
    value = equal_hold_diameter_mm(thick, old.worked_mpa, new.worked_mpa)
    soft = equal_hold_diameter_mm(thick, old.soft_mpa, new.soft_mpa)
    notes = []
    if sizes_mm:
        notes.append(f"Next sold: {' or '.join(plain(size) for size in nearest_sold_mm(value, sizes_mm))} mm")
    return Figure(
        "wire-diameter",
        value,
        "mm",
        min(value, soft),
        max(value, soft),
        f"hardened by winding, {old.name} gives way at {plain(old.worked_mpa)} MPa and {new.name} at "
        f"{plain(new.worked_mpa)} MPa: {plain(thick)} x ({plain(old.worked_mpa)} / {plain(new.worked_mpa)})^(1/3) = "
        f"{plain(value)} mm holds as much",
        f"plastic moment of a round wire; strengths: {old.source or 'a table'}",
        weakest(old.mark, new.mark),
        "Round wire, both hardened by winding; makers' tempers differ.",
        tuple(notes),
        (Beside("the same while both are soft", soft, "mm"),),
    )
