"""The words of numbers and units, ready to look up; and plain numbers in figures or words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass, field

# more digits than a measure can have are no number: they count as words not taken in
_NUMBER = re.compile(r"\d{1,12}(?:\.\d{1,18})?$")
FRACTION = re.compile(r"(\d{1,12})/(\d{1,12})$")

Phrase = tuple[str, ...]
Phrases = Mapping[str, Sequence[Phrase]]  # by their first word, the longest first


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
    """The number words of rules/words/numbers.toml, ready to look up. Phrases are kept as tuples of words.

    times: rules/words/dates.toml, for the words before which "in" is no inch ("was 30 in March").
    """

    def __init__(self, numbers: Mapping[str, Any], times: Mapping[str, Any] | None = None) -> None:
        def phrases(key: str) -> dict[Phrase, float]:
            return {tuple(words.replace("-", " ").split()): value for words, value in numbers.get(key, {}).items()}

        self.number = phrases("number")
        self.ordinal = phrases("ordinal")
        self.share = phrases("share")
        self.fraction = phrases("fraction")
        self.part_of = phrases("part")
        self.units: dict[Phrase, tuple[str, float]] = {}
        self.behind: dict[Phrase, tuple[float, float, float]] = {}
        self.a_year: dict[Phrase, float] = {}
        for unit in numbers.get("unit", {}).values():
            for form in _forms(unit["says"]):
                self.units[form] = (unit["kind"], unit["size"])
                if "behind" in unit:
                    then = unit["behind"]
                    self.behind[form] = (then["size"], then["least"], then["most"])
                if "a_year" in unit:
                    self.a_year[form] = unit["a_year"]
        self.dimension = _measures(numbers.get("dimension", {}))
        self.named = _measures(numbers.get("named", {}))
        self.headed = _measures(numbers.get("headed", {}))
        joined = numbers.get("joined", {})
        self.by = frozenset(joined.get("by", []))
        self.range = frozenset(joined.get("range", []))
        self.block_least_mm: float = numbers.get("block", {}).get("least_mm", 0)
        self.block_most_mm: float = numbers.get("block", {}).get("most_mm", 0)
        self.block_unit_mm: float = numbers.get("block", {}).get("mm_a_unit", 1)
        self.minus = frozenset(joined.get("minus", []))
        self.single = frozenset(joined.get("single", []))
        self.between = frozenset(joined.get("between", []))
        self.of_many = by_first(joined.get("of_many", []))
        self.told_before = frozenset(joined.get("told_before", []))
        self.ends = frozenset(joined.get("ends", []))
        self.no_inch = frozenset(joined.get("no_inch", []))
        for table in ("month", "season", "weekday"):
            self.no_inch |= frozenset((times or {}).get(table, {}))
        self.trailing = by_first(joined.get("trailing", []))
        self.unit_trailing = by_first(joined.get("unit_trailing", []))
        self.dozen: Mapping[str, float] = numbers.get("times", {})
        self.inch_alone = {tuple(w.split()) for w in numbers.get("inch_alone", {}).get("says", [])}
        self.inch_parts = frozenset(numbers.get("inch_alone", {}).get("parts", []))
        hedge = numbers.get("hedge", {})
        self.hedges: dict[str, list[tuple[Phrase, Phrase]]] = {}
        for key, instead in (("says", ()), ("article", ("a",))):
            for words in hedge.get(key, []):
                phrase = tuple(words.split())
                self.hedges.setdefault(phrase[0], []).append((phrase, instead))
        self.share_hedges = by_first(hedge.get("shares", []))
        self.cold = {key: by_first(says) for key, says in numbers.get("cold", {}).items()}
        self.nights = _nights(numbers.get("nights", {}))
        self.source = numbers
        self.air = by_first(numbers.get("air", {}).get("says", []))
        likened = numbers.get("likened", {})
        self.likened = {tuple(name.split()): float(size) for name, size in likened.get("mm", {}).items()}
        self.likened_to = by_first(likened.get("as", []))
        tables: tuple[Iterable[Phrase], ...] = (
            *(self.number, self.ordinal, self.share, self.fraction, self.part_of, self.named, self.headed),
            *(self.likened, self.units),
        )
        indexed: tuple[Iterable[str], ...] = (
            *(self.likened_to, self.share_hedges, self.hedges, self.cold.get("nought", ())),
            *(self.nights.get("heads", ()), self.nights.get("loose", ())),
        )
        self.starts = {words[0] for table in tables for words in table}.union(*indexed)
        self.starts |= self.minus | self.single | self.between


def _forms(says: Iterable[str]) -> Iterable[Phrase]:
    """A unit's words with their plurals; a mark (' for feet) has none."""
    for word in says:
        yield tuple(word.split())
        if word[-1].isalpha():
            yield tuple((word + "s").split())


def by_first(says: Iterable[str]) -> Phrases:
    """Phrases as tuples of words, by their first word, so that few are looked at; of each word the longest first."""
    found: dict[str, list[Phrase]] = {}
    for phrase in sorted((tuple(words.split()) for words in says), key=len, reverse=True):
        found.setdefault(phrase[0], []).append(phrase)
    return found


def _nights(table: Mapping[str, Any]) -> dict[str, Phrases]:
    """Words about a night's temperature by their kind; what may stand before it goes before each head."""
    says = {key: rows for key, rows in table.items() if isinstance(rows, list)}
    before = ["", *(f"{words} " for words in says.get("before", ()))]
    says["heads"] = [words + head for head in says.get("heads", ()) for words in before]
    return {key: by_first(rows) for key, rows in says.items()}


def _measures(table: Mapping[str, Iterable[str]]) -> dict[Phrase, str]:
    return {tuple(phrase.split()): measure for measure, phrases in table.items() for phrase in phrases}


def longest(table: Mapping[Phrase, Any], words: Sequence[str], at: int) -> tuple[Any, int] | None:
    """(value, end) of the longest phrase of a table at a word."""
    here = tuple(words[at : at + 4])
    for length in range(len(here), 0, -1):
        if here[:length] in table:
            return table[here[:length]], at + length
    return None


def first_of(phrases: Phrases, words: Sequence[str], at: int) -> int | None:
    """The end of the longest of some phrases that stands at a word."""
    for one in phrases.get(words[at], ()) if at < len(words) else ():
        end = at + len(one)
        if tuple(words[at:end]) == one:
            return end
    return None


def unit_at(vw: ValueWords, words: Sequence[str], at: int) -> tuple[tuple[str, float], int] | None:
    """((kind, size), end) of the unit at a word. "in" is no inch before a time, a number or a small word."""
    found = longest(vw.units, words, at)
    if found and words[at : at + 1] == ["in"] and found[1] == at + 1 and found[1] < len(words):
        after = words[found[1]]
        if after in vw.no_inch or after[0].isdigit() or (after,) in vw.number:
            return None
    return found


def over(words: Sequence[str], at: int, vw: ValueWords) -> bool:
    """Whether what is measured is over at a word: the end, a mark, or a small word that begins something new."""
    return at >= len(words) or not words[at][0].isalnum() or words[at] in vw.ends


def cardinal(vw: ValueWords, words: Sequence[str], at: int) -> tuple[float, int] | None:
    """A plain number in figures or words, up to 999: "8", "2.5", "twenty five", "a hundred and ten", "thirty odd"."""
    if at >= len(words):
        return None
    if _NUMBER.match(words[at]):
        value, end = float(words[at]), at + 1
        fraction = FRACTION.match(words[end]) if end < len(words) else None
        if fraction and int(fraction[2]):
            return value + int(fraction[1]) / int(fraction[2]), end + 1
    else:
        found = longest(vw.number, words, at)
        if found is None:
            return None
        value, end = found
        if value >= 20 and value < 100 and (unit := longest(vw.number, words, end)) and unit[0] < 10:
            value, end = value + unit[0], unit[1]
        times = vw.dozen.get(words[end] if end < len(words) else "", 0.0)
        if value < min(times, 12):
            value, end = value * times, end + 1
        if value >= 100 and end < len(words) - 1 and words[end] == "and" and (rest := cardinal(vw, words, end + 1)):
            value, end = value + rest[0], rest[1]
        if (
            end < len(words)
            and words[end] == "point"
            and (tenth := longest(vw.number, words, end + 1))
            and tenth[0] < 10
        ):
            value, end = value + tenth[0] / 10, tenth[1]
    if tuple(words[end : end + 3]) == ("and", "a", "half"):
        value, end = value + 0.5, end + 3
    return value, first_of(vw.trailing, words, end) or end


def part_of_one(vw: ValueWords, words: Sequence[str], at: int) -> tuple[float, int, bool] | None:
    """(value, end, whether it may be of an inch by itself) of a part of one: "3/8", "half a", "seven sixteenths"."""
    if at >= len(words):
        return None
    if (fraction := FRACTION.match(words[at])) and int(fraction[2]) > 0:
        return int(fraction[1]) / int(fraction[2]), at + 1, int(fraction[2]) in (4, 8, 16)
    if found := longest(vw.fraction, words, at):
        return found[0], found[1], tuple(words[at : found[1]]) in vw.inch_alone
    one = at + 1 if words[at] in vw.single else None
    top = (1.0, one) if one else cardinal(vw, words, at)
    below = longest(vw.part_of, words, top[1]) if top else None
    if top is None or below is None or not top[0] < below[0] or top[0] != int(top[0]):
        return None
    return top[0] / below[0], below[1], " ".join(words[top[1] : below[1]]) in vw.inch_parts
