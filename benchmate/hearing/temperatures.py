"""Temperatures against the freezing point, or of the air: "ten below", "two degrees of frost", "28 in the shade"."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .value_words import Value, ValueWords, first_of, over, unit_at

FAHRENHEIT_FREEZING, FAHRENHEIT_PER_CELSIUS = 32.0, 1.8


def weather(vw: ValueWords, words: Sequence[str], number: tuple[float, int]) -> Iterator[Value]:
    """ "ten below", "two degrees of frost", "28 in the shade"."""
    value, end = number
    unit = unit_at(vw, words, end)
    if unit and unit[0][0] not in ("degree", "celsius"):
        return
    for start in {end, unit[1] if unit else end}:
        if below := first_of(vw.cold.get("below", ()), words, start):
            yield Value(below, "MEASURE", measures={"temperature_c": -value})
        bare = first_of(vw.cold.get("below_alone", ()), words, start)
        if bare and over(words, bare, vw):
            yield Value(bare, "MEASURE", measures={"temperature_c": -value})
        if above := first_of(vw.cold.get("above", ()), words, start):
            yield Value(above, "MEASURE", measures={"temperature_c": value})
        if air := first_of(vw.air, words, start):
            yield Value(air, "MEASURE", measures={"temperature_c": of_air(value, vw.source)})


def of_air(degrees: float, numbers: Mapping[str, Any]) -> float:
    """Degrees of the air in Celsius: more than it ever had must be Fahrenheit ("95 degrees"). numbers: the table of
    rules/words/numbers.toml."""
    hottest = numbers.get("air", {}).get("hottest_c", degrees)
    return degrees if degrees <= hottest else (degrees - FAHRENHEIT_FREEZING) / FAHRENHEIT_PER_CELSIUS
