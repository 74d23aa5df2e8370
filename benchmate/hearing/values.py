"""Numbers, shares and measures in words: "8 mil", "three eighths", "a couple", "40 by 30 by 10 cm", "minus five"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass, field, replace

# more digits than a measure can have are no number: they count as words not taken in
_NUMBER = re.compile(r"\d{1,12}(?:\.\d{1,18})?$")
_FRACTION = re.compile(r"(\d{1,12})/(\d{1,12})$")
_NPK = re.compile(r"(\d{1,12})-(\d{1,12})-(\d{1,12})$")
_ORDINAL = re.compile(r"(\d{1,12})(?:st|nd|rd|th)$")

FAHRENHEIT_FREEZING, FAHRENHEIT_PER_CELSIUS = 32.0, 1.8
DAYS_A_YEAR = 365


@dataclass(frozen=True, slots=True)
class Value:
    """A stretch of words [start, end) that gives a number.

    kind: NUM, ORD, SHARE, MEASURE or NPK (a feed's label). number: for the first three. measures: vocabulary measure
    -> value, for the others.
    bare: "length", "across" or "degree" where the words do not tell which measure is meant; number then holds mm or
    degrees.
    others: further numbers in the same unit ("9 and 7 mm").
    """

    end: int
    kind: str
    number: float = 0.0
    measures: Mapping[str, float] = field(default_factory=dict)
    bare: str | None = None
    others: tuple[float, ...] = ()


class ValueWords:
    """The number words of rules/words/numbers.toml, ready to look up. Phrases are kept as tuples of words."""

    def __init__(self, numbers: Mapping[str, Any]) -> None:
        def phrases(key: str) -> dict[tuple[str, ...], float]:
            return {tuple(words.replace("-", " ").split()): value for words, value in numbers.get(key, {}).items()}

        self.number = phrases("number")
        self.ordinal = phrases("ordinal")
        self.share = phrases("share")
        self.fraction = phrases("fraction")
        self.units: dict[tuple[str, ...], tuple[str, float]] = {}
        for unit in numbers.get("unit", {}).values():
            for word in unit["says"]:
                for form in (word, word + "s"):
                    self.units[tuple(form.split())] = (unit["kind"], unit["size"])
        self.dimension = {
            tuple(w.split()): measure for measure, words in numbers.get("dimension", {}).items() for w in words
        }
        self.named = {tuple(w.split()): measure for measure, words in numbers.get("named", {}).items() for w in words}
        joined = numbers.get("joined", {})
        self.headed = {tuple(w.split()): measure for measure, words in numbers.get("headed", {}).items() for w in words}
        self.by = frozenset(joined.get("by", []))
        self.range = frozenset(joined.get("range", []))
        self.minus = frozenset(joined.get("minus", []))
        self.half_more = {tuple(w.split()) for w in joined.get("half_more", [])}
        self.single = frozenset(joined.get("single", []))
        self.inch_alone = {tuple(w.split()) for w in numbers.get("inch_alone", {}).get("says", [])}
        tables: tuple[Mapping[tuple[str, ...], Any], ...] = (
            self.number,
            self.ordinal,
            self.share,
            self.fraction,
            self.named,
            self.headed,
        )
        self.starts = {words[0] for table in tables for words in table} | self.minus | self.single


def _longest(table: Mapping[tuple[str, ...], Any], words: Sequence[str], at: int) -> tuple[Any, int] | None:
    for length in (4, 3, 2, 1):
        key = tuple(words[at : at + length])
        if len(key) == length and key in table:
            return table[key], at + length
    return None


def _cardinal(vw: ValueWords, words: Sequence[str], at: int) -> tuple[float, int] | None:
    """A plain number in figures or words, up to 999: "8", "2.5", "twenty five", "a hundred and ten"."""
    if at >= len(words):
        return None
    if _NUMBER.match(words[at]):
        value, end = float(words[at]), at + 1
        fraction = _FRACTION.match(words[end]) if end < len(words) else None
        if fraction and int(fraction[2]):
            return value + int(fraction[1]) / int(fraction[2]), end + 1
    else:
        found = _longest(vw.number, words, at)
        if found is None:
            return None
        value, end = found
        if value >= 20 and value < 100 and (unit := _longest(vw.number, words, end)) and unit[0] < 10:
            value, end = value + unit[0], unit[1]
        if end < len(words) and words[end] == "hundred" and value < 10:
            value, end = value * 100, end + 1
        if value >= 100 and end < len(words) - 1 and words[end] == "and" and (rest := _cardinal(vw, words, end + 1)):
            value, end = value + rest[0], rest[1]
        if (
            end < len(words)
            and words[end] == "point"
            and (tenth := _longest(vw.number, words, end + 1))
            and tenth[0] < 10
        ):
            value, end = value + tenth[0] / 10, tenth[1]
    if tuple(words[end : end + 3]) == ("and", "a", "half"):
        value, end = value + 0.5, end + 3
    return value, end


def spot_values(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """Every value that starts at the word `at`, longest and shorter ones alike; the sentence chooses."""
    first = words[at]
    if not first[0].isdigit() and first not in vw.starts:
        return
    if npk := _NPK.match(first):
        n, p, k = (float(part) for part in npk.groups())
        yield Value(at + 1, "NPK", measures={"n_percent": n, "p2o5_percent": p, "k2o_percent": k})
        return
    if ordinal := _ORDINAL.match(first):
        yield Value(at + 1, "ORD", float(ordinal[1]))
        return
    if (named := _longest(vw.named, words, at)) and (number := _cardinal(vw, words, named[1])):
        yield Value(number[1], "MEASURE", measures={named[0]: number[0]})
        unit = _longest(vw.units, words, number[1])
        if unit and unit[0][0] in ("degree", "celsius"):
            yield Value(unit[1], "MEASURE", measures={named[0]: number[0]})
    if (headed := _longest(vw.headed, words, at)) and (number := _cardinal(vw, words, headed[1])):
        unit = _longest(vw.units, words, number[1])
        if unit and unit[0][0] == "length":
            yield Value(unit[1], "MEASURE", measures={headed[0]: number[0] * unit[0][1]})
    if found := _longest(vw.ordinal, words, at):
        yield Value(found[1], "ORD", found[0])
    if found := _longest(vw.share, words, at):
        yield Value(found[1], "SHARE", found[0])
    if first in vw.minus:
        if number := _cardinal(vw, words, at + 1):
            yield from _measured(vw, words, -number[0], number[1], negative=True)
        return
    if (fraction := _FRACTION.match(first)) and int(fraction[2]):
        share = int(fraction[1]) / int(fraction[2])
        yield from _measured(vw, words, share, at + 1)
        if tuple(words[at + 1 : at + 3]) in (("of", "a"), ("of", "an")):
            yield from _measured(vw, words, share, at + 3)  # "3/16 of an inch"
        if share < 1:
            yield Value(at + 1, "SHARE", share)
            if int(fraction[2]) in (8, 16, 4):
                yield Value(at + 1, "MEASURE", share * 25.4, bare="length")
    if found := _longest(vw.fraction, words, at):
        yield from _measured(vw, words, found[0], found[1])
        if tuple(words[at : found[1]]) in vw.inch_alone:
            yield Value(found[1], "MEASURE", found[0] * 25.4, bare="length")
    if number := _cardinal(vw, words, at):
        yield from _measured(vw, words, *number)
        yield from _block(vw, words, number)
        if (
            number[1] < len(words) - 1
            and words[number[1]] in vw.range
            and (upper := _cardinal(vw, words, number[1] + 1))
        ):
            yield Value(upper[1], "NUM", number[0])  # "3 to 4 buds": the smaller number is the safer one
            for value in _measured(vw, words, number[0], upper[1]):
                yield (
                    replace(value, others=(upper[0] * (value.number / number[0] if number[0] else 1.0),))
                    if value.bare
                    else value
                )
        if words[number[1] : number[1] + 1] in (["and"], ["against"], ["to"]) and (
            second := _cardinal(vw, words, number[1] + 1)
        ):
            unit = _longest(vw.units, words, second[1])
            if unit and unit[0][0] == "length":
                size = unit[0][1]
                yield Value(unit[1], "MEASURE", number[0] * size, bare="length", others=(second[0] * size,))
        yield Value(number[1], "NUM", number[0])
    elif first in vw.single and (unit := _longest(vw.units, words, at + 1)) and unit[0][0] in ("length", "volume"):
        yield from _measured(vw, words, 1.0, at + 1)  # "an inch", "a gallon"
        if tuple(words[unit[1] : unit[1] + 3]) in vw.half_more:  # "an inch and a half"
            for value in _measured(vw, words, 1.5, at + 1):
                yield replace(value, end=unit[1] + 3)


def _measured(vw: ValueWords, words: Sequence[str], number: float, at: int, negative: bool = False) -> Iterator[Value]:
    """The number with the unit that follows it at `at`, and with a word for its direction behind that."""
    found = _longest(vw.units, words, at)
    if found is None:
        if negative:
            yield Value(at, "MEASURE", measures={"temperature_c": number})
        return
    (kind, size), end = found
    value = number * size
    if kind == "length":
        direction = _longest(vw.dimension, words, end)
        if direction and direction[0] == "across":
            yield Value(direction[1], "MEASURE", value, bare="across")
        elif direction:
            yield Value(direction[1], "MEASURE", measures={direction[0]: value})
        yield Value(end, "MEASURE", value, bare="length")
    elif kind == "degree":
        if negative:
            yield Value(end, "MEASURE", measures={"temperature_c": value})
        else:
            yield Value(end, "MEASURE", value, bare="degree")
    elif kind == "celsius":
        yield Value(end, "MEASURE", measures={"temperature_c": value})
    elif kind == "fahrenheit":
        yield Value(end, "MEASURE", measures={"temperature_c": (value - FAHRENHEIT_FREEZING) / FAHRENHEIT_PER_CELSIUS})
    elif kind == "share":
        yield Value(end, "SHARE", value)
    elif kind == "years":
        if direction := _longest(vw.dimension, words, end):
            if direction[0] == "age_years":
                yield Value(direction[1], "MEASURE", measures={"age_years": value})
        else:
            yield Value(end, "MEASURE", measures={"days": value * DAYS_A_YEAR})
    elif kind in ("volume", "ppm", "days", "mass"):
        name = {"volume": "volume_l", "ppm": "ppm", "days": "days", "mass": "mass_g"}[kind]
        yield Value(end, "MEASURE", measures={name: value})


def _block(vw: ValueWords, words: Sequence[str], number: tuple[float, int]) -> Iterator[Value]:
    """ "30 by 20 by 8 cm": length, width and depth in one unit."""
    sizes, end = [number[0]], number[1]
    while len(sizes) < 3:
        unit_between = _longest(vw.units, words, end)
        after = unit_between[1] if unit_between and unit_between[0][0] == "length" else end
        if after >= len(words) or words[after] not in vw.by or not (following := _cardinal(vw, words, after + 1)):
            break
        sizes.append(following[0])
        end = following[1]
    unit = _longest(vw.units, words, end)
    if len(sizes) > 1 and unit and unit[0][0] == "length":
        names = ("length_mm", "width_mm", "depth_mm")
        yield Value(unit[1], "MEASURE", measures={n: s * unit[0][1] for n, s in zip(names, sizes, strict=False)})
