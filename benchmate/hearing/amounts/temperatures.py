"""Temperatures against freezing, of the air or of a night: "ten below", "28 in the shade", "nights down to 6"."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .value_words import Phrases, Value, ValueWords, cardinal, first_of, over, unit_at

FAHRENHEIT_FREEZING, FAHRENHEIT_BOILING, FAHRENHEIT_PER_CELSIUS = 32.0, 212.0, 1.8


def weather(vw: ValueWords, words: Sequence[str], number: tuple[float, int]) -> Iterator[Value]:
    """ "ten below", "two degrees of frost", "28 in the shade"."""
    value, end = number
    unit = unit_at(vw, words, end)
    if unit and unit[0][0] not in ("degree", "celsius"):
        return
    for start in {end, unit[1] if unit else end}:
        if below := first_of(vw.cold.get("below", {}), words, start):
            yield Value(below, "MEASURE", measures={"temperature_c": -value})
        bare = first_of(vw.cold.get("below_alone", {}), words, start)
        if bare and over(words, bare, vw):
            yield Value(bare, "MEASURE", measures={"temperature_c": -value})
        if above := first_of(vw.cold.get("above", {}), words, start):
            yield Value(above, "MEASURE", measures={"temperature_c": value})
        if air := first_of(vw.air, words, start):
            yield Value(air, "MEASURE", measures={"temperature_c": of_air(value, vw.source)})


def of_air(degrees: float, numbers: Mapping[str, Any]) -> float:
    """Degrees of the air in Celsius: more than it ever had must be Fahrenheit ("95 degrees"). numbers: the table of
    rules/words/numbers.toml."""
    hottest = numbers.get("air", {}).get("hottest_c", degrees)
    return degrees if degrees <= hottest else (degrees - FAHRENHEIT_FREEZING) / FAHRENHEIT_PER_CELSIUS


def of_nights(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """ "Nights are down to 6", "a low of -2 overnight", "it got down to 4 last night": degrees by what they are said
    of. A lone "it" or "down to" tells of the air only where the words speak of a night."""
    nights = vw.nights
    head, loose = first_of(nights.get("heads", {}), words, at), False
    if head is None and (head := first_of(nights.get("loose", {}), words, at)) is not None:
        begins = at == 0 or not words[at - 1][0].isalnum() or words[at - 1] in nights["begins"]
        if not begins or not _of_night(nights, words):
            return
        loose = True
    if head is None:
        return
    while head < len(words) and (step := first_of(nights["links"], words, head)):
        head = step
    below = head < len(words) and words[head] in vw.minus
    number = cardinal(vw, words, head + below)
    if number is None:
        return
    if number[1] < len(words) and words[number[1]] in vw.range and (upper := cardinal(vw, words, number[1] + 1)):
        number = min(number[0], upper[0]), upper[1]  # "3 or 4": the colder
    unit = unit_at(vw, words, number[1])
    if unit and unit[0][0] not in ("degree", "celsius", "fahrenheit"):
        return
    end = unit[1] if unit else number[1]
    named = unit is not None and unit[0][0]
    if freezing := first_of(vw.cold.get("below", {}), words, end):
        if loose:  # "we had seven degrees of frost": the degrees tell it all, and "had" the time
            return
        below, end = True, freezing
    ends = over(words, end, vw) or first_of(nights.get("ends", {}), words, end)
    if (end == number[1] and not ends) or (named != "fahrenheit" and number[0] > FAHRENHEIT_BOILING):
        return
    degrees = -number[0] if below else number[0]
    warmest = vw.source.get("nights", {}).get("warmest_c", degrees)
    if named == "fahrenheit" or (named != "celsius" and degrees > warmest):
        degrees = (degrees - FAHRENHEIT_FREEZING) / FAHRENHEIT_PER_CELSIUS
    yield Value(end, "MEASURE", measures={"temperature_c": degrees})


def _of_night(nights: Mapping[str, Phrases], words: Sequence[str]) -> bool:
    """Whether the words speak of a night."""
    return any(first_of(nights["told"], words, at) is not None for at in range(len(words)))
