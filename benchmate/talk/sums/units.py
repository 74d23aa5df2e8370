"""A figure in the unit that was asked for: "how many inches of wire", "in teaspoons", "what percentage", "gallons?"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchmate.hearing.figures.said import NumberWords, SaidNumber
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


def asked_units(texts: Sequence[str], numbers: Sequence[SaidNumber], known: NumberWords) -> tuple[AskedUnit, ...]:
    """The units that a statement may ask for, the likeliest first. texts: its words.

    Likeliest is one that words ask for ("how many litres"), then one that stands by itself ("Litres?").
    """
    taken = {place for one in numbers for place in range(one.first, one.end)}
    places = [at for at in range(len(texts)) if at not in taken]
    asked = [at for at in places if at and _is_asked(texts, at, numbers, known)]
    alone = [at for at in places if at not in asked and _stands_alone(texts, at, known)]
    return tuple(unit for at in (*asked, *alone) for unit in _units_at(texts, at, known))


def _is_asked(texts: Sequence[str], at: int, numbers: Sequence[SaidNumber], known: NumberWords) -> bool:
    """Whether the word before asks for a unit."""
    before, small = texts[at - 1], known.small
    if before not in small.before_asked:
        return False
    if before in small.articles and texts[at] not in small.percent:
        return False  # "so much a day" asks for no days
    unit = known.unit_at(texts, at)
    # "40 high, 54 across, in centimetres": that of numbers without one
    of_numbers = unit and unit[0] == "length" and before in small.one_in and any(not number.unit for number in numbers)
    return not of_numbers


def _stands_alone(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether a word begins a part of the statement, or ends it, and is no rate ("a day") and no length of a list."""
    small = known.small
    breaks = small.stops | small.pauses
    if texts[at] in small.percent:
        return not at or not texts[at - 1][-1].isdigit()
    unit = known.unit_at(texts, at)
    if unit is None or len(texts[at]) < 2 or (at and texts[at - 1] not in breaks):
        return False
    return unit[2] >= len(texts) or texts[unit[2]] in small.stops or texts[unit[2]] in small.of_whole | small.after_unit


def _units_at(texts: Sequence[str], at: int, known: NumberWords) -> Iterator[AskedUnit]:
    """The unit at a word, and what else it may mean: "ounces" of a liquid, "pounds" of pull."""
    unit = ("share", 0.01, at + 1) if texts[at] in known.small.percent else known.unit_at(texts, at)
    for name, size in known.told_in.get(unit[0], {}).items() if unit else ():
        if unit and size == unit[1]:
            yield AskedUnit(unit[0], name, size, dict(known.told_in[unit[0]]))
            if name in known.small.also:
                kind, _, other = known.small.also[name].partition(" ")
                sizes = known.told_in.get(kind, {})
                yield AskedUnit(kind, other, sizes[other], dict(sizes))


def in_unit(figure: FigureTold, asked: Sequence[AskedUnit]) -> FigureTold:
    """The figure with its value and range in the first of the units asked for that is of its kind."""
    if not isinstance(figure.value, int | float):
        return figure
    unit, _, more = figure.unit.partition(" ")
    for one in asked:
        now = {"share": 1.0, **one.sizes}.get(unit) if one.kind != "share" or unit == "share" else None
        if now is None or unit == one.name:
            if unit == one.name:
                return figure
            continue
        value, low, high = (
            float(f"{end * now / one.size:{_SIX}}") if isinstance(end, int | float) else end
            for end in (figure.value, figure.low, figure.high)
        )
        return replace(figure, value=value, low=low, high=high, unit=f"{one.name} {more}".strip())
    return figure
