"""A number as a figure question says it, and the words that numbers are read with."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Any

from benchmate.value import dataclass

from ..amounts.values import ValueWords
from ..vocabulary.words import Word
from .small import SmallWords

THOUSANDS, DECIMAL = ",000", ",5"  # the comma inside "1,200", and inside "8,5 mm"


SPENT = "\u200b"  # a place whose letter went into the word before it
_ONE_LETTER = 2  # places: a letter and its point


def texts_of(words: Sequence[Word]) -> list[str]:
    """The words' texts. A lone letter that was spelt out for small talk ("salt n water") is a unit behind figures; a
    sign for a fraction is written out ("1/2"), and the comma of a thousand told from others."""
    out = [word.text for word in words]
    for first, end in _spelt_out(words):
        out[first:end] = ["".join(out[first:end:2]), *[SPENT] * (end - first - 1)]
    for at in range(len(out)):
        if len(out[at]) == 1 and not out[at].isascii() and (part := unicodedata.numeric(out[at], 0.0)) and part < 1:
            fraction = Fraction(part).limit_denominator(16)
            out[at] = f"{fraction.numerator}/{fraction.denominator}"
        if not at:
            continue
        if out[at] == "and" and words[at].end - words[at].start == 1 and out[at - 1][-1].isdigit():
            out[at] = "n"
        if out[at] == "," and _inside_number(words[at - 1 : at + 2]):
            behind = words[at + 2 : at + 3]
            if len(out[at + 1]) == 3:
                out[at] = THOUSANDS
            elif len(out[at + 1]) == 1 and behind and behind[0].text.isalpha() and out[at - 2 : at - 1] != [","]:
                out[at] = DECIMAL
    return out


def _spelt_out(words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Words [first, end) that are the letters of one, with points between: "S.W.G."."""
    at = 0
    while at < len(words):
        end = at
        while (
            end + 1 < len(words)
            and len(words[end].text) == 1
            and words[end].text.isalpha()
            and words[end + 1].text == "."
            and words[end].end == words[end + 1].start
        ):
            end += 2
        if end - at > _ONE_LETTER:
            yield at, end
        at = max(end, at + 1)


def _inside_number(words: Sequence[Word]) -> bool:
    """Whether three words are figures, a comma and figures without a space between."""
    if len(words) < 3 or any(left.end != right.start for left, right in pairwise(words)):
        return False
    return words[0].text.isdigit() and len(words[0].text) < 4 and words[2].text.isdigit()


@dataclass(frozen=True, slots=True)
class SaidNumber:
    """A number with its unit: words [first, end).

    raw: as said. value: in the measure's own unit (mm, C, litres, %, ppm, g, N, days, years). unit: length, degree,
    celsius, volume, share, ppm, mass, force, days, years, gauge, count, label, date, or "" for none. word: its unit as
    said, the thing counted, or the gauge's name. size: of the unit. tags: what the words beside it make of it (`by1`,
    `from`, `to`, `part`, `each`, `yearly`, `daily`, `side`). told: a date (ISO, looking back and ahead) or a label's
    three numbers.
    """

    first: int
    end: int
    raw: float
    value: float
    unit: str = ""
    word: str = ""
    size: float = 1.0
    tags: frozenset[str] = frozenset()
    told: Any = None


class NumberWords:
    """The words that numbers need: those of rules/words/numbers.toml, and the units and dates of figure questions."""

    def __init__(self, values: ValueWords, data: Mapping[str, Any]) -> None:
        self.values = values
        self.small = SmallWords(data.get("small", {}))
        self.units: dict[tuple[str, ...], tuple[str, float]] = dict(values.units)
        for unit in data.get("unit", {}).values():
            for word in unit["says"]:
                for form in (word, word + "s"):
                    self.units[tuple(form.split())] = (unit["kind"], unit["size"])
        self.counted: Mapping[str, str] = {
            word: noun for noun, words in data.get("counted", {}).items() for word in words
        }
        self.told_in: Mapping[str, Mapping[str, float]] = data.get("told_in", {})
        self.unit_names = {(kind, size): name for kind, names in self.told_in.items() for name, size in names.items()}
        self.rates: dict[str, list[tuple[str, list[str]]]] = {}
        for tag, phrases in data.get("rate", {}).items():
            for phrase in phrases:
                self.rates.setdefault(phrase.split()[0], []).append((tag, phrase.split()))
        self.days: dict[str, list[tuple[list[str], str]]] = {}
        for phrase, day in data.get("named_day", {}).items():
            self.days.setdefault(phrase.split()[0], []).append((phrase.split(), day))

    def unit_at(self, texts: Sequence[str], at: int) -> tuple[str, float, int] | None:
        """(kind, size, end) of the unit at a word; "in" is the small word where a length cannot be meant."""
        for length in (3, 2, 1):
            key = tuple(texts[at : at + length])
            if len(key) == length and key in self.units:
                if (
                    key == ("in",)
                    and at + 1 < len(texts)
                    and (
                        texts[at + 1] in self.small.after_in
                        or texts[at + 1][0].isdigit()
                        or (texts[at + 1],) in self.values.number
                    )
                ):
                    return None
                return (*self.units[key], at + length)
        return None
