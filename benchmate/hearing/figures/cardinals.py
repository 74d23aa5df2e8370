"""Numbers without their unit, in figures and in words: whole ones, mixed ones and parts of one."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .said import DECIMAL, THOUSANDS, NumberWords

_DIGITS = re.compile(r"\d{1,12}(?:\.\d{1,18})?$")
_SPANS = ("days", "years")  # a measure is told by them, not in them
_FRACTION = re.compile(r"(\d{1,12})/(\d{1,12})$")


def cardinal(texts: Sequence[str], at: int, known: NumberWords) -> tuple[float, int] | None:
    """A number without its unit, from figures or words, with what is added to it ("two and a half")."""
    found = whole(texts, at, known)
    if found is None:
        return None
    value, end = found
    small = known.small
    if small.point.intersection(texts[end : end + 1]) and (tenth := whole(texts, end + 1, known)) and tenth[0] < 10:
        return value + tenth[0] / 10, tenth[1]
    if end < len(texts) and (match := _FRACTION.match(texts[end])) and int(match[2]) and value == int(value):
        return value + int(match[1]) / int(match[2]), end + 1
    if small.added.intersection(texts[end : end + 1]) and (part := part_of_one(texts, end + 1, known)) and part[0] < 1:
        return value + part[0], part[1]
    return value, end


def whole(texts: Sequence[str], at: int, known: NumberWords) -> tuple[float, int] | None:
    if at >= len(texts):
        return None
    if _DIGITS.match(texts[at]):
        value, end = float(texts[at]), at + 1
        if texts[end : end + 1] == [THOUSANDS]:
            value, end = value * 1000 + float(texts[end + 1]), end + 2
        elif texts[end : end + 1] == [DECIMAL]:
            value, end = value + float(f"0.{texts[end + 1]}"), end + 2
        return value, end
    small = known.small
    if texts[at] in small.nought and small.point.intersection(texts[at + 1 : at + 2]):
        at += 1
        if (tenth := whole(texts, at + 1, known)) and tenth[0] < 10:
            return tenth[0] / 10, tenth[1]
    led = bool(at) and texts[at - 1] in small.articles | small.again  # "at a point 36 cm up"
    pointed = texts[at] == "." or (texts[at] in small.point and not led)
    if pointed and at + 1 < len(texts) and texts[at + 1].isdigit():
        return float("0." + texts[at + 1]), at + 2
    numbers = known.values.number
    spelt = next((key for length in (3, 2, 1) if (key := tuple(texts[at : at + length])) in numbers), ())
    if len(spelt) != 1 and numbers.get(spelt, 0) <= 1:  # "a single" counts nothing
        for ending in ("es", "s"):  # "one of the sixes", "lose an eight"
            if texts[at].endswith(ending) and 1 < numbers.get((texts[at].removesuffix(ending),), 0) < 100:
                return numbers[(texts[at].removesuffix(ending),)], at + 1
        return None
    value, end = numbers[spelt], at + len(spelt)
    if 20 <= value < 100 and value % 10 == 0 and 0 < numbers.get(tuple(texts[end : end + 1]), 0) < 10:
        value, end = value + numbers[(texts[end],)], end + 1
    times = small.times.get(texts[end] if end < len(texts) else "", 0)
    if value < min(times, 12):  # "two dozen", "two hundred"
        value, end = value * times, end + 1
    if value >= 100 and value % 100 == 0:
        start = end + bool(small.added.intersection(texts[end : end + 1]))
        rest = whole(texts, start, known)
        if rest and rest[0] < 100 and rest[0] == int(rest[0]) and not texts[start][0].isdigit() and start > end:
            value, end = value + rest[0], rest[1]
    return value, end


def part_of_one(texts: Sequence[str], at: int, known: NumberWords) -> tuple[float, int] | None:
    """A part of one: "a quarter of", "3/8", "half", "three quarters of an"."""
    if at >= len(texts):
        return None
    if (match := _FRACTION.match(texts[at])) and int(match[2]):
        end = at + 1
        if known.small.of_whole.intersection(texts[end : end + 1]) and article_at(texts, end + 1, known):
            end += 2
        return int(match[1]) / int(match[2]), end
    for table in (known.values.fraction, known.values.share):
        for length in (4, 3, 2, 1):
            key = tuple(texts[at : at + length])
            if len(key) == length and key in table:
                # the small word stays one of the statement's: "a third | of its length"
                end = at + length - (key[-1] in known.small.of_whole)
                more = bool(known.small.of_whole.intersection(texts[end : end + 1]))
                unit = known.unit_at(texts, end + more + 1) if article_at(texts, end + more, known) else None
                if unit and (more or unit[0] not in _SPANS):
                    end += more + 1  # "three quarters of an inch", but "a pint and a half a day"
                return table[key], end
    return _sixteenths(texts, at, known)


def _sixteenths(texts: Sequence[str], at: int, known: NumberWords) -> tuple[float, int] | None:
    """Any other fraction in words: "nine sixteenths", "eleven thirty-seconds of an inch"."""
    top = whole(texts, at, known)
    if top is None or texts[at][0].isdigit():
        return None
    for length in (2, 1):
        said = texts[top[1] : top[1] + length]
        below = known.small.parts_of.get(" ".join(said))
        if below and top[0] < below:
            end = top[1] + len(said)
            more = bool(known.small.of_whole.intersection(texts[end : end + 1]))
            return top[0] / below, end + (more + 1 if article_at(texts, end + more, known) else 0)
    return None


def article_at(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    return at < len(texts) and texts[at] in known.small.articles
