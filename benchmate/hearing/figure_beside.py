"""What the words beside a number make of it: lists with one unit, a label's three numbers, rates, ranges, parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from benchmate.value import replace

from .figure_said import NumberWords, SaidNumber

_LISTED = frozenset({",", "and", "&", "or", "by", "x", "×", "to", "-", "is", "at", "in", "then", "down", "up", "long"})
_LISTED |= {"wide", "deep", "across", "high", "tall", "the", "of", "a", "/"}
_STOPS = frozenset({".", ";", "?", "!"})
_SIDE_REACH = 7
_BACK_REACH = 9  # words between what was taken back and what stands in its place
_PAUSES = frozenset({",", ".", "...", "-"})
_TAKEN_BACK = (("no",), ("sorry",), ("i", "mean"), ("make", "that"), ("or", "rather"), ("rather",), ("wait",))


def labelled(numbers: list[SaidNumber], texts: Sequence[str]) -> list[SaidNumber]:
    """Three bare numbers in one breath are a feed's label: "twenty-twenty-twenty", "15 5 15"."""
    out: list[SaidNumber] = []
    for one in numbers:
        out.append(one)
        three = out[-3:]
        touch = len(three) == 3 and all(left.end == right.first for left, right in pairwise(three))
        if touch and all(not part.unit or part.unit == "share" for part in three) and all(p.raw <= 60 for p in three):
            label = tuple(part.raw for part in three)
            out[-3:] = [SaidNumber(three[0].first, one.end, label[0], label[0], "label", told=label)]
    return out


def unsaid(numbers: list[SaidNumber], texts: Sequence[str]) -> list[SaidNumber]:
    """The numbers without those that were taken back in the same breath: "four, no, three branches"."""
    out = list(numbers)
    for left, right in pairwise(numbers):
        between = texts[left.end : right.first]
        pauses = [at for at, text in enumerate(between) if text in _PAUSES]
        back = any(tuple(between[at + 1 : at + 1 + len(said)]) == said for at in pauses for said in _TAKEN_BACK)
        if back and len(between) <= _BACK_REACH and right.unit != "date":
            out.remove(left)
    return out


def carried(numbers: list[SaidNumber], texts: Sequence[str], known: NumberWords) -> list[SaidNumber]:
    """Numbers without a unit in one list with a number that has one take it: "thirty, thirty-six and forty-two mil"."""
    out = list(numbers)
    for n in range(len(out) - 2, -1, -1):
        here, after = out[n], out[n + 1]
        between = texts[here.end : after.first]
        if not here.unit and here.end == after.first and after.unit == "length" and 1 < here.raw <= 12:
            out[n] = replace(here, unit="count", word="branch")  # "three 7 mm shoots"
            continue
        bare = not here.unit or (here.unit == "share" and here.word == "part" and after.unit == "length")
        carries = after.unit in ("length", "share", "volume") and after.word != "part"
        listed = (
            texts[after.first] not in ("a", "an")
            and 0 < len(between) <= 4
            and set(between) <= _LISTED
            and not {"in", "at", "then"} & set(between[:1])
        )
        before = out[n - 1] if n else None
        apart = texts[here.first - 1 : here.first] in (["at"], ["to"], [":"]) and before is not None
        if apart and before is not None and (before.unit not in ("", after.unit) or before.raw == 1):
            continue  # "12 per cent, I need it at 3, three litres in all"; "1 to 100 and a 20 % feed"
        if bare and carries and listed and not (after.unit == "share" and "of" in between):
            size = after.size
            out[n] = replace(here, value=here.raw * size, unit=after.unit, word=after.word, size=size)
    return out


def tags_of(numbers: Sequence[SaidNumber], n: int, texts: Sequence[str], known: NumberWords) -> Iterator[str]:
    """What the words beside a number make of it."""
    here = numbers[n]
    if n:
        yield from _second(numbers[n - 1], here, texts, known, n > 1 and numbers[n - 2])
    if n + 1 < len(numbers):
        yield from _first(here, numbers[n + 1], texts, known)
    if "between" in texts[max(0, here.first - 2) : here.first]:
        yield "from"
    if here.unit == "date" and texts[max(0, here.first - 1) : here.first] in (["since"], ["from"]):
        yield "since"
    if here.unit == "years" and texts[max(0, here.first - 1) : here.first] in (["last"], ["past"]):
        yield "ago"
        yield "since"
    after = numbers[n + 1] if n + 1 < len(numbers) else None
    spans = after is not None and after.unit == "years" and _every(texts, after.first)
    if after is not None and spans and here.unit == "length" and not _STOPS & set(texts[here.end : after.first]):
        yield "yearly"
    if n and here.unit == "years" and numbers[n - 1].unit == "length" and _every(texts, here.first):
        yield "per"
    yield from _rates(texts, here.end, numbers[n + 1].first if n + 1 < len(numbers) else len(texts), known)
    if texts[max(0, here.first - 1) : here.first] == ["each"]:
        yield "each"


def _every(texts: Sequence[str], at: int) -> bool:
    """Whether a span of time is what a rate goes by: "half an inch every 3 years"."""
    return texts[max(0, at - 1) : at] in (["every"], ["per"], ["each"])


def _first(here: SaidNumber, after: SaidNumber, texts: Sequence[str], known: NumberWords) -> Iterator[str]:
    """Tags of the first of two numbers, by what joins them."""
    gap = texts[here.end : after.first]
    if known.values.by & set(gap) and len(gap) <= 3:
        yield "by1"
    if not _STOPS & set(gap):
        if "to" in gap and len(gap) <= 4:
            yield "from"
        if {"of", "from"} & set(gap) and len(gap) <= 7:
            yield "part"
    if joint := _ratio(here, after, gap):
        yield f"{joint}1"


def _second(
    before: SaidNumber, here: SaidNumber, texts: Sequence[str], known: NumberWords, first: SaidNumber | bool
) -> Iterator[str]:
    """Tags of the second of two numbers; first: the one before both, if there is one."""
    gap = texts[before.end : here.first]
    if known.values.by & set(gap) and len(gap) <= 3:
        third = isinstance(first, SaidNumber) and known.values.by & set(texts[first.end : before.first])
        yield "by3" if third else "by2"
    if not _STOPS & set(gap):
        between = "and" in gap and "between" in texts[max(0, before.first - 2) : before.first]
        if ("to" in gap or between) and len(gap) <= 4:
            yield "to"
        if {"of", "from"} & set(gap) and len(gap) <= 7:
            yield "whole"
    if joint := _ratio(before, here, gap):
        yield f"{joint}2"


def _rates(texts: Sequence[str], start: int, end: int, known: NumberWords) -> Iterator[str]:
    """Rates and repetitions told close behind a number ("a year", "each", "from either side")."""
    for at in range(start, min(end, start + _SIDE_REACH)):
        if texts[at] in _STOPS:
            return
        for tag, spelt in known.rates.get(texts[at], ()):
            near = at - start < (3 if texts[start] == "of" else 2) or tag == "side"
            if near and list(texts[at : at + len(spelt)]) == spelt:
                yield tag


def _ratio(left: SaidNumber, right: SaidNumber, between: Sequence[str]) -> str:
    """ "ratio" for "1 : 9" and "one part to nine", "in" for "one in ten", else ""."""
    if left.unit == "count" and not right.unit and len(between) == 2 and between[1] == "in":
        return "in"  # "two leaves in three"
    parts = [one.unit == "" or (one.unit == "count" and one.word == "part") for one in (left, right)]
    if not all(parts):
        return ""
    if left.unit == "count" and "to" in between:  # "1 part lime sulphur to 9"
        return "ratio"
    joint = [text for text in between if text not in ("part", "parts", "measure", "measures")]
    if len(joint) != 1:
        return ""
    return "in" if joint[0] == "in" else "ratio" if joint[0] in (":", "to") else ""
