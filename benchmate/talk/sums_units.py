"""A figure in the unit that was asked for: "how many inches of wire", "in teaspoons", "what percentage"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.hearing.figure_said import NumberWords, SaidNumber
from benchmate.practice.advice import FigureTold
from benchmate.value import dataclass, replace

_SIX = ".6g"  # figures that a value is good for


@dataclass(frozen=True, slots=True)
class AskedUnit:
    """kind: of measure (length, volume, mass, force, days, share). name: as answers call it. size: in the
    kind's own unit (mm, litres, g, N, days, 1). sizes: of all units of the kind by name."""

    kind: str
    name: str
    size: float
    sizes: dict[str, float]


def asked_unit(texts: Sequence[str], numbers: Sequence[SaidNumber], known: NumberWords) -> AskedUnit | None:
    """The unit that a statement asks for, or None where it leaves that open. texts: its words."""
    taken = {place for one in numbers for place in range(one.first, one.end)}
    for at in range(1, len(texts)):
        if at in taken or texts[at - 1] not in known.small.before_asked:
            continue
        if texts[at - 1] in known.small.articles and texts[at] not in known.small.percent:
            continue  # "so much a day" asks for no days
        unit = known.unit_at(texts, at)
        if unit and _of_numbers(unit[0], texts[at - 1], numbers, known):
            continue
        if texts[at] in known.small.percent:
            unit = ("share", 0.01, at + 1)
        names = known.told_in.get(unit[0], {}) if unit else {}
        for name, size in names.items():
            if unit and size == unit[1]:
                return AskedUnit(unit[0], name, size, dict(names))
    return None


def _of_numbers(kind: str, before: str, numbers: Sequence[SaidNumber], known: NumberWords) -> bool:
    """Whether a unit that stands apart is that of numbers without one: "40 high, 54 across, in centimetres"."""
    return before in known.small.one_in and any(not number.unit for number in numbers) and kind == "length"


def in_unit(figure: FigureTold, asked: AskedUnit | None) -> FigureTold:
    """The figure with its value and range in the unit asked for, where it is of that kind."""
    if asked is None or not isinstance(figure.value, int | float):
        return figure
    unit, _, more = figure.unit.partition(" ")
    now = {"share": 1.0, **asked.sizes}.get(unit) if asked.kind != "share" or unit == "share" else None
    if now is None or unit == asked.name:
        return figure
    value, low, high = (
        float(f"{end * now / asked.size:{_SIX}}") if isinstance(end, int | float) else end
        for end in (figure.value, figure.low, figure.high)
    )
    return replace(figure, value=value, low=low, high=high, unit=f"{asked.name} {more}".strip())
