"""Every number of a figure question in its place, with its unit: in figures or words, alone or in a list, and dates."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..amounts.dates import DateWords
from ..vocabulary.words import Word
from .beside import NAMED, carried, labelled, named_again, tags_of, unsaid
from .cardinals import article_at, cardinal, part_of_one, whole
from .dates import DATE_REACH, date_at, date_words
from .said import NumberWords, SaidNumber, texts_of

INCH_MM = 25.4
BRANCH = "branch"  # what is counted where only its size is said
GAUGE = "gauge"  # of a kind that other words tell
_LABEL = re.compile(r"(\d{1,12})-(\d{1,12})-(\d{1,12})$")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2}) / (\d{1,2})$")  # a label as "20/20/20"
_MOST_OF_LABEL = 60
_NUMBER_REACH = 6  # words
_FLAT = frozenset({"length", "degree", "celsius", "fahrenheit"})  # units that a list carries from one number to another


def said_numbers(words: Sequence[Word], known: NumberWords, dates: DateWords) -> list[SaidNumber]:
    """Every number and date in its place, with what the words beside it make of it."""
    texts = texts_of(words)
    for here, after in pairwise(range(len(texts))):
        if texts[here] == "." and texts[after][0].isdigit() and words[here].end < words[after].start:
            texts[here] = ";"  # the end of a sentence, and no decimal point
    for here, after in pairwise(range(len(texts))):
        if texts[here] in known.small.glued and words[here].end == words[after].start:
            texts[after] = texts[here]  # "ET0" is no nought
    out: list[SaidNumber] = []
    at = 0
    telling = date_words(texts, known, dates)
    while at < len(texts):
        found = date_at(texts, at, known, dates) if telling.intersection(range(at, at + DATE_REACH)) else None
        found = found or _number_at(texts, at, known)
        if found is None:
            at += 1
        elif found.unit != "date" and known.small.no_number.intersection(texts[found.end : found.end + 1]):
            at = found.end  # "6 am", "five needle pine"
        else:
            out.append(found)
            at = found.end
    out = labelled(unsaid(out, texts, known.small))
    out = named_again(carried(out, texts, known), texts, known.small)
    return _in_blocks([replace(one, tags=_tags(out, n, texts, known)) for n, one in enumerate(out)], known)


def _in_blocks(numbers: list[SaidNumber], known: NumberWords) -> list[SaidNumber]:
    """The numbers, three sizes of a pot without a unit ("45 x 45 x 22") in centimetres where no pot is so small."""
    sizes, out = known.values, list(numbers)
    for n, three in enumerate(zip(numbers, numbers[1:], numbers[2:], strict=False)):
        a_block = all(not one.unit and f"by{k}" in one.tags for k, one in enumerate(three, 1))
        told = [one.raw for one in three]
        if a_block and (min(told) < sizes.block_least_mm or max(told) < sizes.block_most_mm):
            out[n : n + 3] = [replace(one, value=one.raw * sizes.block_unit_mm, unit="length") for one in three]
    return out


def _tags(numbers: Sequence[SaidNumber], n: int, texts: Sequence[str], known: NumberWords) -> frozenset[str]:
    """What the words beside a number make of it; the end of a change is no rate: "from 33 mm to 27 in a year"."""
    tags = frozenset(tags_of(numbers, n, texts, known))
    changed = "to" in tags and known.small.one_in.intersection(texts[numbers[n].end : numbers[n].end + 1])
    return tags - {"yearly", "monthly", "weekly", "daily"} if changed else tags


def orphan_units(numbers: Sequence[SaidNumber], texts: Sequence[str], known: NumberWords) -> dict[str, float]:
    """Units that stand apart from the numbers they hold for ("40 by 30 by 10, all in centimetres"; "Fahrenheit"):
    kind -> size. What is asked for ("how many inches") is none."""
    taken = {place for one in numbers for place in range(one.first, one.end)}
    out: dict[str, float] = {}
    small = known.small
    for at, text in enumerate(texts):
        if at in taken or len(text) < 2 or (at and texts[at - 1] in small.unit_asked):
            continue
        unit = known.unit_at(texts, at)
        if unit and unit[0] in _FLAT and text not in small.never_apart:
            out.setdefault("celsius" if unit[0] == "fahrenheit" else unit[0], unit[1])
            if unit[0] == "fahrenheit":
                out["fahrenheit"] = 1.0
    return out


# -- numbers


def _number_at(texts: Sequence[str], at: int, known: NumberWords) -> SaidNumber | None:
    text = texts[at]
    if match := _LABEL.match(text):
        label = tuple(float(part) for part in match.groups())
        return SaidNumber(at, at + 1, label[0], label[0], "label", told=label)
    if (match := _SLASHED.match(" ".join(texts[at : at + 3]))) and max(map(float, match.groups())) <= _MOST_OF_LABEL:
        label = tuple(float(part) for part in match.groups())
        return SaidNumber(at, at + 3, label[0], label[0], "label", told=label)
    negative = text in known.values.minus and (at == 0 or not texts[at - 1][-1].isdigit())
    start = at + negative
    small = known.small
    if text in small.gauges:  # "gauge 14", "SWG, number fourteen", "gauge is 12"
        behind = at + 1
        while behind < len(texts) and texts[behind] in small.before_gauge | small.numbered:
            behind += 1
        if (number := whole(texts, behind, known)) and not _sized(texts, number[1], known):
            return SaidNumber(at, number[1], number[0], number[0], "gauge", text)
    numbered = text in small.numbered and not small.gauges.isdisjoint(texts)
    if numbered and (number := whole(texts, at + 1, known)) and not _sized(texts, number[1], known):
        return SaidNumber(at, number[1], number[0], number[0], "gauge", GAUGE)  # "by British gauge: number ten"
    number, part = cardinal(texts, start, known), part_of_one(texts, start, known)
    if part and (times := small.times.get(texts[part[1]] if part[1] < len(texts) else "", 0)):
        number, part = (part[0] * times, part[1] + 1), None  # "half a dozen"
    if number and part and part[1] > number[1]:
        number = None  # "three quarters of an inch"
    halved = part and part[1] == at + 1 and small.cut_into.intersection(texts[max(0, at - 1) : at])  # "cut in half"
    part = None if number or halved else part
    if number is None and part is None:
        if text in small.each and (unit := known.unit_at(texts, at + 1)) and unit[0] == "volume":
            return _measured(texts, at, 1.0, at + 1, known)
        if one := _one_of_unit(texts, at, known):
            return one
        of_rate = text in small.named and small.before_rate.intersection(texts[max(0, at - 1) : at])
        if of_rate and (unit := known.unit_at(texts, at + 1)) and unit[0] == "volume":
            return _measured(texts, at, 1.0, at + 1, known)  # "5 ml to the litre"
        kind = at + 2 if texts[at + 1 : at + 2] and texts[at + 1] in small.filling else at + 1
        if text in small.articles and kind > at + 1 and (unit := known.unit_at(texts, kind)) and unit[0] == "length":
            return _measured(texts, at, 1.0, kind, known)  # "a good inch"
        if text in small.articles and (unit := known.unit_at(texts, at + 1)):
            spans = texts[at + 1] in small.spans and (not at or not _ends_measure(texts, at, known))
            if unit[0] in ("length", "volume", "mass") or spans:
                return _measured(texts, at, 1.0, at + 1, known)
        return None
    value, end = number or part or (0.0, 0)
    named = bool(at) and texts[at - 1] in small.named and texts[start].isalpha() and texts[start][-2:] != "es"
    if number and named and value < 10 and not _measured(texts, at, value, end, known).unit:
        return SaidNumber(at, end, value, value, NAMED)  # "the two", "all three": who was named before
    over = end >= len(texts) or texts[end] == "," or texts[end] in small.stops
    led = bool(small.up_to.intersection(texts[max(0, start - 1) : start]))
    # "down to one.", "nine parts to one of the concentrate"
    ends = led and (over or (texts[end] in small.of_whole and _numbered_before(texts, start, known)))
    one_at = small.one_at.intersection(texts[end : end + 1]) or _of_size(texts, end, known)
    if number and value == 1 and texts[start].isalpha() and one_at:
        return SaidNumber(at, end, value, value, "count", BRANCH)  # "two at 6 mm and one at 10"
    if number and value == 1 and texts[start].isalpha() and not ends and not _one_counts(texts, end, known):
        return None
    found = _measured(texts, at, -value if negative else value, end, known)
    if part and found.unit in ("", "count") and tuple(texts[start:end]) in known.values.inch_alone:
        return SaidNumber(at, end, value, value * INCH_MM, "length", "inch", INCH_MM)  # "a three-eighths branch"
    if part and not found.unit:
        of_thing = texts[end - 1] in small.articles  # "half a bucket"
        return replace(found, unit="share", value=100 * value, word="part of a" if of_thing else "part")
    return found


def _of_size(texts: Sequence[str], end: int, known: NumberWords) -> bool:
    """Whether a size follows behind "of", and no count: "one of 1/4 inch", "one of 10", but "one of 3 branches"."""
    if not known.small.of_whole.intersection(texts[end : end + 1]):
        return False
    of = cardinal(texts, end + 1, known) or part_of_one(texts, end + 1, known)
    if of is None or of[0] == int(of[0]) == 1:
        return False
    unit = known.unit_at(texts, of[1])
    return unit[0] == "length" if unit else of[1] >= len(texts) or not texts[of[1]].isalpha()


def _numbered_before(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether a number stands shortly before a word."""
    before = texts[max(0, at - _NUMBER_REACH) : at]
    return any(text[0].isdigit() or (text,) in known.values.number for text in before)


def _one_of_unit(texts: Sequence[str], at: int, known: NumberWords) -> SaidNumber | None:
    """One of a unit that no number stands before: "the first foot", "inch and a half"."""
    if texts[at] in known.small.leading and (unit := known.unit_at(texts, at + 1)) and unit[0] == "length":
        return _measured(texts, at, 1.0, at + 1, known)
    added = known.small.added.intersection(texts[at + 1 : at + 2]) and (not at or not _ends_measure(texts, at, known))
    if added and (unit := known.unit_at(texts, at)) and unit[0] == "length" and unit[2] == at + 1:
        part = part_of_one(texts, at + 2, known)
        return _measured(texts, at, 1.0, at, known) if part and part[0] < 1 else None
    return None


def _ends_measure(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether a measure ends before a word ("200 ml a week")."""
    return texts[at - 1][0].isdigit() or known.unit_at(texts, at - 1) is not None


def _one_counts(texts: Sequence[str], end: int, known: NumberWords) -> bool:
    """Whether a "one" is a number, and no way of speaking ("the other one", "that one's fine")."""
    following = texts[end] if end < len(texts) else ""
    if following in known.small.point:  # "one point five", and no "one point"
        return whole(texts, end + 1, known) is not None
    return following in known.small.before_one or following in known.counted or known.unit_at(texts, end) is not None


def _sized(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether a unit stands at a word, and no small word: "AWG 14 in mm"."""
    return known.unit_at(texts, at) is not None and texts[at] not in known.small.one_in


def _gauged(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether words of a kind of gauge and then the gauge itself stand at a place."""
    while at < len(texts) and texts[at] in known.small.gauge_kinds:
        at += 1
    return at < len(texts) and texts[at] in known.small.gauges


def _measured(texts: Sequence[str], first: int, value: float, end: int, known: NumberWords) -> SaidNumber:
    """The number with the unit that follows it, and what is added behind that ("an inch and a half")."""
    following = texts[end] if end < len(texts) else ""
    small = known.small
    if following in small.gauges:
        return SaidNumber(first, end + 1, value, value, "gauge", following)
    if following in small.gauge_kinds and _gauged(texts, end, known):
        return SaidNumber(first, end, value, value, "gauge", GAUGE)  # "16 standard wire gauge"
    unit = known.unit_at(texts, end)
    if following in small.filling and (filled := known.unit_at(texts, end + 1)) and filled[0] in ("days", "years"):
        unit = filled
    if following in small.of_whole and value < 1 and article_at(texts, end + 1, known):
        unit = known.unit_at(texts, end + 2)  # "0.6 of a centimetre"
    if unit is None and value != int(value):
        return SaidNumber(first, end, value, value)  # "a fifth runs out" counts nothing
    if unit is None:
        noun = next((at for at in range(end, min(end + 3, len(texts))) if texts[at] not in small.kinds_of), len(texts))
        if end < noun < len(texts) and texts[noun] in known.counted:
            return SaidNumber(first, end, value, value, "count", known.counted[texts[noun]])  # "two equal leaders"
        if following in known.counted:
            return SaidNumber(first, end, value, value, "count", known.counted[following])
        return SaidNumber(first, end, value, value)
    kind, size, after = unit
    word = " ".join(texts[end:after])
    if texts[after : after + 1] == ["."] and texts[after + 1 : after + 2] and texts[after + 1] in small.after_short:
        after += 1  # "18 in. tall"
    if (
        small.added.intersection(texts[after : after + 1])
        and (more := part_of_one(texts, after + 1, known))
        and more[0] < 1
    ):
        still = more[1] >= len(texts) or known.unit_at(texts, more[1]) is None
        if still and kind in ("length", "volume", "mass", "years"):
            value, after = value + more[0], more[1]
    inches = whole(texts, after, known) if word in small.feet else None
    if inches and inches[0] < 12 and not texts[after][0].isdigit() and known.unit_at(texts, inches[1]) is None:
        value, after = value + inches[0] / 12, inches[1]  # "one foot two"
    if kind == "share":
        return SaidNumber(first, after, value, value, "share", word)
    if kind == "fahrenheit":
        return SaidNumber(first, after, value, (value - 32) / 1.8, "celsius", "fahrenheit")
    if kind == "years":
        return SaidNumber(first, after, value, value, "years", word)
    return SaidNumber(first, after, value, value * size, kind, word, size)
