"""Numbers, shares and measures in words: "8 mil", "three eighths", "a couple", "40 by 30 by 10 cm", "minus five"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from benchmate.value import replace

from .temperatures import FAHRENHEIT_FREEZING, FAHRENHEIT_PER_CELSIUS, of_air, of_nights, weather
from .value_words import Value, ValueWords, cardinal, first_of, longest, over, part_of_one, unit_at

__all__ = [
    "DAYS_A_YEAR",
    "FAHRENHEIT_FREEZING",
    "FAHRENHEIT_PER_CELSIUS",
    "Value",
    "ValueWords",
    "of_air",
    "spot_values",
]

_NPK = re.compile(r"(\d{1,12})-(\d{1,12})-(\d{1,12})$")
_ORDINAL = re.compile(r"(\d{1,12})(?:st|nd|rd|th)$")

DAYS_A_YEAR = 365
_WHOLE = [[word] for word in ("the", "its", "my", "their", "all", "each", "every", "it", "them")]
DEEPEST, LONGEST = 2, 16  # words that make a number rough ("just about a good inch"), and words that a value may have
MOST_OF = 20  # "one in twenty"; beyond that "two in 2023" is no share


def spot_values(vw: ValueWords, words: Sequence[str], at: int, deep: int = 0) -> Iterator[Value]:
    """Every value that starts at the word `at`, longest and shorter ones alike; the sentence chooses.

    deep: how many words that make it rough stood before it.
    """
    first = words[at]
    if not first[0].isdigit() and first not in vw.starts:
        return
    yield from _rough(vw, words, at, deep)
    if npk := _NPK.match(first):
        n, p, k = (float(part) for part in npk.groups())
        yield Value(at + 1, "NPK", measures={"n_percent": n, "p2o5_percent": p, "k2o_percent": k})
        return
    if ordinal := _ORDINAL.match(first):
        yield Value(at + 1, "ORD", float(ordinal[1]))
        return
    yield from of_nights(vw, words, at)
    yield from _named(vw, words, at)
    yield from _likened(vw, words, at)
    if found := longest(vw.ordinal, words, at):
        yield Value(found[1], "ORD", found[0])
    yield from _shares(vw, words, at)
    if first in vw.minus:
        if number := cardinal(vw, words, at + 1):
            yield from _measured(vw, words, -number[0], number[1], negative=True)
        return
    yield from _parts(vw, words, at)
    if number := cardinal(vw, words, at):
        yield from _numbered(vw, words, number, words[at - 1] if at else "")
    elif first in vw.single:
        if (unit := unit_at(vw, words, at + 1)) and unit[0][0] in ("length", "volume"):
            yield from _measured(vw, words, 1.0, at + 1)  # "an inch", "a gallon"
            yield from _block(vw, words, (1.0, at + 1))  # "a foot by ten inches"
        elif unit and unit[0][0] in ("days", "years") and _added(vw, words, unit[1]):
            yield from _measured(vw, words, 1.0, at + 1)  # "a year and a half"
    elif (unit := unit_at(vw, words, at)) and unit[0][0] in ("length", "volume") and _added(vw, words, unit[1]):
        yield from _measured(vw, words, 1.0, at)  # "inch and a half trunk"
    elif (end := first_of(vw.cold.get("nought", {}), words, at)) and over(words, end, vw):
        yield Value(end, "MEASURE", measures={"temperature_c": 0.0})  # "down to zero"


def _rough(vw: ValueWords, words: Sequence[str], at: int, deep: int) -> Iterator[Value]:
    """The value behind words that only make it rough: "about half a metre", "a good inch", "just over a third"."""
    for hedge, instead in vw.hedges.get(words[at], ()) if deep < DEEPEST else ():
        end = at + len(hedge)
        if tuple(words[at:end]) != hedge or end >= len(words):
            continue
        yield from _of_kinds(spot_values(vw, words, end, deep + 1), 0)
        if instead:
            near = [*instead, *words[end : end + LONGEST]]
            yield from _of_kinds(spot_values(vw, near, 0, deep + 1), end - len(instead))
    if (after := first_of(vw.share_hedges, words, at)) and after < len(words) and deep < DEEPEST:
        yield from (value for value in spot_values(vw, words, after, deep + 1) if value.kind == "SHARE")
    if words[at] in vw.between and at + 1 < len(words):
        yield from _between(vw, words, at + 1)


def _of_kinds(values: Iterator[Value], later: int) -> Iterator[Value]:
    """Those of some values that may be rough, their ends so many words later."""
    yield from (replace(one, end=one.end + later) for one in values if one.kind in ("NUM", "SHARE", "MEASURE"))


def _between(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """ "between 40 and 45 cm", "between a third and a half": the smaller, as in every range."""
    if (lower := cardinal(vw, words, at)) and words[lower[1] : lower[1] + 1] == ["and"]:
        yield from _up_to(vw, words, lower, lower[1] + 1)
    for low in _shares(vw, words, at):
        if words[low.end : low.end + 1] == ["and"]:
            yield from (replace(low, end=high.end) for high in _shares(vw, words, low.end + 1))


def _named(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """A number that the word before it names: "min 4", "height 600 mm"."""
    if (named := longest(vw.named, words, at)) and (number := cardinal(vw, words, named[1])):
        yield Value(number[1], "MEASURE", measures={named[0]: number[0]})
        unit = unit_at(vw, words, number[1])
        if unit and unit[0][0] in ("degree", "celsius"):
            yield Value(unit[1], "MEASURE", measures={named[0]: number[0]})
    if (headed := longest(vw.headed, words, at)) and (number := cardinal(vw, words, headed[1])):
        unit = unit_at(vw, words, number[1])
        if unit and unit[0][0] == "length":
            yield Value(unit[1], "MEASURE", measures={headed[0]: number[0] * unit[0][1]})


def _likened(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """A thickness told by a thing: "thumb thick", "as thick as my finger"."""
    thing = longest(vw.likened, words, at)
    way = longest(vw.dimension, words, thing[1]) if thing else None
    if thing and way and way[0] == "diameter_mm":
        yield Value(way[1], "MEASURE", measures={"diameter_mm": thing[0]})
    if (end := first_of(vw.likened_to, words, at)) and (thing := longest(vw.likened, words, end)):
        yield Value(thing[1], "MEASURE", measures={"diameter_mm": thing[0]})


def _shares(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """A share in words, or the smaller of two: "a third", "three fifths", "one in four", "a third to a half"."""
    ends: dict[int, float] = {}
    if at >= len(words):
        return
    if found := longest(vw.share, words, at):
        ends[found[1]] = found[0]
    part = part_of_one(vw, words, at)
    if part and part[0] < 1:
        sized = part[2] or tuple(words[at : part[1]]) in vw.fraction  # "a three-eighths branch" is a size
        if words[at][0].isdigit() or not sized or words[part[1] : part[1] + 1] in (["of"], ["off"]):
            ends.setdefault(part[1], part[0])
    if top := cardinal(vw, words, at):
        below = cardinal(vw, words, of) if (of := first_of(vw.of_many, words, top[1])) else None
        if below and 0 < top[0] < below[0] <= MOST_OF and unit_at(vw, words, below[1]) is None:
            ends[below[1]] = top[0] / below[0]
    for end, share in ends.items():
        yield Value(end, "SHARE", share)
        if end < len(words) and words[end] in vw.range and (upper := longest(vw.share, words, end + 1)):
            yield Value(upper[1], "SHARE", min(share, upper[0]))


def _parts(vw: ValueWords, words: Sequence[str], at: int) -> Iterator[Value]:
    """A part of a unit, or of an inch where none is said: "3/8", "half a metre", "seven sixteenths of an inch"."""
    part = part_of_one(vw, words, at)
    if part is None:
        return
    share, end, of_inch = part
    yield from _measured(vw, words, share, end)
    for words_between in (("of", "a"), ("of", "an"), ("of", "the")):
        if tuple(words[end : end + 2]) == words_between:
            yield from _measured(vw, words, share, end + 2)  # "3/16 of an inch"
    if of_inch and share < 1:
        yield Value(end, "MEASURE", share * 25.4, bare="length")


def _numbered(vw: ValueWords, words: Sequence[str], number: tuple[float, int], before: str) -> Iterator[Value]:
    """What begins with a number. before: the word before it."""
    yield from _measured(vw, words, *number)
    yield from _block(vw, words, number)
    if before not in vw.told_before:  # "it shaded the one below"
        yield from weather(vw, words, number)
    value, end = number
    following = words[end] if end < len(words) else ""
    if following in vw.range:
        yield from _up_to(vw, words, number, end + 1)
    if following == "and" and (more := part_of_one(vw, words, end + 1)) and more[0] < 1:
        yield from _measured(vw, words, value + more[0], more[1])  # "two and a quarter inches"
    if following in ("and", "against", "to") and (second := cardinal(vw, words, end + 1)):
        unit = unit_at(vw, words, second[1])
        if unit and unit[0][0] == "length":
            size = unit[0][1]
            yield Value(unit[1], "MEASURE", value * size, bare="length", others=(second[0] * size,))
    yield Value(end, "NUM", value)


def _up_to(vw: ValueWords, words: Sequence[str], lower: tuple[float, int], at: int) -> Iterator[Value]:
    """ "3 to 4 buds": the smaller number is the safer one. at: where the larger begins."""
    upper = cardinal(vw, words, at)
    if upper is None:
        return
    yield Value(upper[1], "NUM", lower[0])
    for value in _measured(vw, words, lower[0], upper[1]):
        ratio = value.number / lower[0] if lower[0] else 1.0
        yield replace(value, others=(upper[0] * ratio,)) if value.bare else value


def _added(vw: ValueWords, words: Sequence[str], at: int) -> tuple[float, int] | None:
    """The part of a unit that is added behind it: "(an inch) and a half"; but not "and a third of the roots"."""
    if words[at : at + 1] != ["and"]:
        return None
    part = part_of_one(vw, words, at + 1)
    shared = part and words[part[1] : part[1] + 1] in (["of"], ["off"]) and words[part[1] + 1 : part[1] + 2] in _WHOLE
    if part is None or part[0] >= 1 or shared:
        return None
    return None if unit_at(vw, words, part[1]) else (part[0], part[1])


def _measured(vw: ValueWords, words: Sequence[str], number: float, at: int, negative: bool = False) -> Iterator[Value]:
    """The number with the unit that follows it at `at`, what is added behind that, and a word for its direction."""
    found = unit_at(vw, words, at)
    if found is None:
        if negative:
            yield Value(at, "MEASURE", measures={"temperature_c": number})
        return
    (kind, size), end = found
    name = tuple(words[at:end])
    yield from _with_unit(vw, words, kind, number * size, end, negative, number / vw.a_year.get(name, 1.0))
    if kind not in ("length", "volume", "days", "years") or negative:
        return
    if tail := first_of(vw.unit_trailing, words, end):  # "six foot odd"
        yield from _with_unit(vw, words, kind, number * size, tail, False, number / vw.a_year.get(name, 1.0))
    if more := _added(vw, words, end):
        whole = number + more[0]
        yield from _with_unit(vw, words, kind, whole * size, more[1], False, whole / vw.a_year.get(name, 1.0))
    if name in vw.behind and (rest := cardinal(vw, words, end)):
        small, least, most = vw.behind[name]
        unit = unit_at(vw, words, rest[1])
        told = unit is not None and unit[0] == ("length", small)
        stop = unit[1] if told and unit else rest[1]
        ends = told or over(words, stop, vw) or longest(vw.dimension, words, stop) is not None
        if least <= rest[0] <= most and ends:  # "two foot six", "a metre twenty", "4 ft 6 in"
            yield from _with_unit(vw, words, kind, number * size + rest[0] * small, stop, False, 0.0)


def _with_unit(
    vw: ValueWords, words: Sequence[str], kind: str, value: float, end: int, negative: bool, years: float
) -> Iterator[Value]:
    """A value of a unit of this kind that ends at `end`. years: the same as an age."""
    if kind == "length":
        direction = longest(vw.dimension, words, end)
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
    elif kind in ("years", "days") and words[end : end + 1] != ["since"]:  # "two weeks since I fed it" is a day
        age = longest(vw.dimension, words, end)
        if age and age[0] == "age_years":
            yield Value(age[1], "MEASURE", measures={"age_years": value if kind == "years" else years})
        elif kind == "days" or age is None:
            yield Value(end, "MEASURE", measures={"days": value if kind == "days" else value * DAYS_A_YEAR})
    elif kind in ("volume", "ppm", "mass"):
        name = {"volume": "volume_l", "ppm": "ppm", "mass": "mass_g"}[kind]
        yield Value(end, "MEASURE", measures={name: value})


def _block(vw: ValueWords, words: Sequence[str], number: tuple[float, int]) -> Iterator[Value]:
    """ "30 by 20 by 8 cm": length, width and depth in one unit."""
    sizes: list[tuple[float, float | None]] = []
    last: tuple[tuple[str, float], int] | None = None
    following: tuple[float, int] | None = number
    while following and len(sizes) < 3:
        end = following[1]
        last = unit if (unit := unit_at(vw, words, end)) and unit[0][0] == "length" else None
        sizes.append((following[0], last[0][1] if last else None))
        after = last[1] if last else end
        if after >= len(words) or words[after] not in vw.by:
            break
        following = cardinal(vw, words, after + 1)
    unit_mm = last[0][1] if last else next((own for _, own in sizes if own), None)
    if unit_mm is None and len(sizes) == 3:  # "a 30 by 22 by 8 pot"
        numbers = [size for size, _ in sizes]
        small = min(numbers) < vw.block_least_mm or max(numbers) < vw.block_most_mm
        unit_mm = vw.block_unit_mm if small else 1.0
    if len(sizes) > 1 and unit_mm and following:
        end = last[1] if last else following[1]
        mm = [size * (own or unit_mm) for size, own in sizes]
        names = ("length_mm", "width_mm", "depth_mm")
        deep = longest(vw.dimension, words, end) if len(sizes) == 3 else None
        end = deep[1] if deep and deep[0] == "depth_mm" else end
        yield Value(end, "MEASURE", measures=dict(zip(names, mm, strict=False)))
