"""What the words beside a number make of it: lists with one unit, a label's three numbers, rates, ranges, parts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from benchmate.value import replace

from .said import NumberWords, SaidNumber
from .small import SmallWords

NAMED, AGAIN = "named", "again"
_SIDE_REACH = 7
_BACK_REACH = 9  # words between what was taken back and what stands in its place


def labelled(numbers: list[SaidNumber]) -> list[SaidNumber]:
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


def unsaid(numbers: list[SaidNumber], texts: Sequence[str], small: SmallWords) -> list[SaidNumber]:
    """The numbers without those that were taken back in the same breath: "four, no, three branches"."""
    out = list(numbers)
    for left, right in pairwise(numbers):
        between = texts[left.end : right.first]
        back = any(text in small.breaths and small.takes_back(between, at + 1) for at, text in enumerate(between))
        if back and len(between) <= _BACK_REACH and right.unit != "date":
            out.remove(left)
    return out


def named_again(numbers: list[SaidNumber], texts: Sequence[str], small: SmallWords) -> list[SaidNumber]:
    """Sizes that only name what was measured before ("6, 8 and 10 mm, and I've sawn off the six") are of the unit
    "again"; what else was only named ("the two") is no number."""
    out: list[SaidNumber] = []
    for one in numbers:
        before = {(other.raw, other.size): other for other in out if other.unit == "length"}
        if before:  # "two of 6 mm and one of 10; if the 10 goes"
            unit = next(other for other in reversed(out) if other.unit == "length")
            bare = [other for other in out if not other.unit]
            before |= {
                (o.raw, unit.size): replace(o, value=o.raw * unit.size, size=unit.size)
                for o in bare
                if (o.raw, unit.size) not in before
            }
        same = before.get((one.raw, one.size)) or next((o for (raw, _), o in before.items() if raw == one.raw), None)
        led = small.again.intersection(texts[max(0, one.first - 1) : one.first])
        alike = same is not None and (one.unit in ("", NAMED) or (one.unit, one.size) == ("length", same.size))
        if same is not None and led and alike:
            out.append(replace(one, unit=AGAIN, value=same.value, size=same.size))
        elif one.unit != NAMED and not (led and one.unit in ("", "share") and _share_among(out, one.raw)):
            out.append(one)  # but "the 91", said of what is 91 per cent
    return out


def _share_among(numbers: Sequence[SaidNumber], raw: float) -> bool:
    """Whether so many per cent were said before."""
    shares = any(one.unit == "share" for one in numbers)
    return shares and any(one.unit in ("", "share") and one.raw == raw for one in numbers)


def carried(numbers: list[SaidNumber], texts: Sequence[str], known: NumberWords) -> list[SaidNumber]:
    """Numbers without a unit in one list with a number that has one take it: "thirty, thirty-six and forty-two mil"."""
    out, small = list(numbers), known.small
    for n in range(len(out) - 2, -1, -1):
        here, after = out[n], out[n + 1]
        between = texts[here.end : after.first]
        if not here.unit and here.end == after.first and after.unit == "length" and 1 < here.raw <= 12:
            out[n] = replace(here, unit="count", word="branch")  # "three 7 mm shoots"
            continue
        if small.unitless.intersection(texts[max(0, here.first - 2) : here.first]):
            continue  # "a crop coefficient of 1.5, 10 percent leaching"
        if _counts_sizes(here, after, texts, known):
            out[n] = replace(here, unit="count", word="branch")  # "one branch of 7 and two of 6"
            continue
        bare = not here.unit or (here.unit == "share" and here.word == "part" and after.unit == "length")
        carries = after.unit in ("length", "share", "volume") and after.word != "part"
        listed = (
            texts[after.first] not in small.articles
            and 0 < len(between) <= 4
            and small.listed.issuperset(between)
            and not small.list_breaks.intersection(between[:1])
        )
        before = out[n - 1] if n else None
        apart = small.apart.intersection(texts[max(0, here.first - 1) : here.first])
        if between == [","] and before and before.unit not in ("", after.unit) and after.unit in ("share", "volume"):
            continue  # "6 percent bleach, want 0.6, one gallon"
        if apart and before and (before.unit not in ("", after.unit) or before.raw == 1):
            continue  # "12 per cent, I need it at 3, three litres in all"; "1 to 100 and a 20 % feed"
        if bare and carries and listed and not (after.unit == "share" and small.of_whole.intersection(between)):
            size = after.size
            out[n] = replace(here, value=here.raw * size, unit=after.unit, word=after.word, size=size)
    return out


def _counts_sizes(here: SaidNumber, after: SaidNumber, texts: Sequence[str], known: NumberWords) -> bool:
    """Whether a small number in words counts what the next one measures: "two of 6", "three at 9 mm"."""
    between, small = texts[here.end : after.first], known.small
    joins = bool(between) and between[0] in small.one_at | small.of_whole and small.of_them.issuperset(between)
    spoken = not here.unit and texts[here.first].isalpha() and 1 < here.raw <= 12 and here.raw == int(here.raw)
    several = after.unit == "length" or any(known.counted.get(text) == "branch" for text in texts)
    return joins and spoken and several and after.unit in ("", "length")


def tags_of(numbers: Sequence[SaidNumber], n: int, texts: Sequence[str], known: NumberWords) -> Iterator[str]:
    """What the words beside a number make of it."""
    here, small = numbers[n], known.small
    lead = frozenset(texts[max(0, here.first - 1) : here.first])
    if n:
        yield from _second(numbers[n - 1], here, texts, known, n > 1 and numbers[n - 2])
    if n + 1 < len(numbers):
        yield from _first(here, numbers[n + 1], texts, known)
    if small.between.intersection(texts[max(0, here.first - 2) : here.first]):
        yield "from"
    if here.unit == "date" and small.since & lead:
        yield "since"
    if here.unit == "years" and small.past & lead:
        yield "ago"
        yield "since"
    after = numbers[n + 1] if n + 1 < len(numbers) else None
    spans = after is not None and after.unit == "years" and _every(texts, after.first, small)
    if (
        after is not None
        and spans
        and here.unit == "length"
        and not small.stops.intersection(texts[here.end : after.first])
    ):
        yield "yearly"
    if n and here.unit == "years" and numbers[n - 1].unit == "length" and bool(small.each & lead):
        yield "per"
    if here.unit == "volume" and texts[here.first] in small.each:
        yield "per"  # "2 spoons per gallon"
    if after is not None and after.unit == "volume" and texts[after.first] in small.each:
        yield "dosed"
    if here.unit == "length" and _sided(texts, here.first, known):
        yield "side"  # "each side rolls in 3 mm a year"
    yield from _rates(texts, here.end, numbers[n + 1].first if n + 1 < len(numbers) else len(texts), known)
    if small.each & lead:
        yield "each"


def _every(texts: Sequence[str], at: int, small: SmallWords) -> bool:
    """Whether a span of time is what a rate goes by: "half an inch every 3 years"."""
    return bool(small.each.intersection(texts[max(0, at - 1) : at]))


def _first(here: SaidNumber, after: SaidNumber, texts: Sequence[str], known: NumberWords) -> Iterator[str]:
    """Tags of the first of two numbers, by what joins them."""
    gap, small = texts[here.end : after.first], known.small
    if known.values.by & set(gap) and len(gap) <= 3:
        yield "by1"
    if not small.stops.intersection(gap):
        if small.up_to.intersection(gap) and len(gap) <= 4:
            yield "from"
        if small.of_whole.intersection(gap) and len(gap) <= 7:
            yield "part"
    if joint := _ratio(here, after, gap, known):
        yield f"{joint}1"


def _second(
    before: SaidNumber, here: SaidNumber, texts: Sequence[str], known: NumberWords, first: SaidNumber | bool
) -> Iterator[str]:
    """Tags of the second of two numbers; first: the one before both, if there is one."""
    gap, small = texts[before.end : here.first], known.small
    if known.values.by & set(gap) and len(gap) <= 3:
        third = isinstance(first, SaidNumber) and known.values.by & set(texts[first.end : before.first])
        yield "by3" if third else "by2"
    if not small.stops.intersection(gap):
        between = small.between.intersection(texts[max(0, before.first - 2) : before.first])
        if (small.up_to.intersection(gap) or (between and small.added.intersection(gap))) and len(gap) <= 4:
            yield "to"
        if small.of_whole.intersection(gap) and len(gap) <= 7:
            yield "whole"
    if joint := _ratio(before, here, gap, known):
        yield f"{joint}2"


def _rates(texts: Sequence[str], start: int, end: int, known: NumberWords) -> Iterator[str]:
    """Rates and repetitions told close behind a number ("a year", "each", "from either side")."""
    for at in range(start, min(end, start + _SIDE_REACH)):
        if texts[at] in known.small.stops:
            return
        for tag, spelt in known.rates.get(texts[at], ()):
            near = at - start < (3 if texts[start] in known.small.of_whole else 2) or tag == "side"
            heads = len(spelt) == 1 and at > start and texts[at - 1] in known.small.breaths and at + 1 < len(texts)
            if heads and texts[at + 1] not in known.small.stops | known.small.pauses:
                continue  # "50 cm, daily water?"
            near = near or (tag == "yearly" and known.small.of_growth.issuperset(texts[start:at]))
            if near and list(texts[at : at + len(spelt)]) == spelt:
                yield tag


def _sided(texts: Sequence[str], first: int, known: NumberWords) -> bool:
    """Whether words shortly before a number say that it is told of each of two sides."""
    for at in range(max(0, first - _SIDE_REACH), first):
        for tag, spelt in known.rates.get(texts[at], ()):
            between = texts[at + len(spelt) : first]
            if tag == "side" and list(texts[at : at + len(spelt)]) == spelt and known.small.stops.isdisjoint(between):
                return not any(text[0].isdigit() for text in between)
    return False


def _ratio(left: SaidNumber, right: SaidNumber, between: Sequence[str], known: NumberWords) -> str:
    """ "ratio" for "1 : 9" and "one part to nine", "in" for "one in ten", else ""."""
    of_many = len(between) > 1 and between[1] in known.small.one_in and known.small.each.issuperset(between[2:])
    if left.unit == "count" and not right.unit and of_many:
        return "in"  # "two leaves in three", "one leaf in every four"
    parts = [one.unit == "" or (one.unit == "count" and one.word == "part") for one in (left, right)]
    if not all(parts):
        return ""
    if left.unit == "count" and known.small.up_to.intersection(between):  # "1 part lime sulphur to 9"
        return "ratio"
    joint = [text for text in between if known.counted.get(text) != "part"]
    if len(joint) != 1:
        return ""
    return "in" if joint[0] in known.small.one_in else "ratio" if joint[0] in known.small.ratio else ""
