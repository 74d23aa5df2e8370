"""From written statements to the words that are spoken: figures and signs are said out."""

from __future__ import annotations

import re
from collections.abc import Mapping

_UNITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_UNITS += ["thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINALS = {"one": "first", "two": "second", "three": "third", "five": "fifth", "eight": "eighth", "nine": "ninth"}
_PIECE = re.compile(r"\d+(?:st|nd|rd|th)\b|\d+/\d+|\d+\.\d+|\d+|[^\W\d_]+(?:['’][^\W\d_]+)*|%|[,;.?!]")
_PARTS = {2: "half", 4: "quarter"}
PAUSES = frozenset(",;.?!")


def spoken_words(text: str, said: Mapping[str, str]) -> list[str]:
    """The words of a statement as a mouth says them, lower case, with the signs that are pauses between.

    said: what an abbreviation or a sign is said as (rules/words/sounds.toml).

    >>> spoken_words("an 8 mm branch, 2.5 cm long", {"mm": "millimetres", "cm": "centimetres"})
    ['an', 'eight', 'millimetres', 'branch', ',', 'two', 'point', 'five', 'centimetres', 'long']
    """
    out: list[str] = []
    for piece in _PIECE.findall(text.lower().replace("’", "'")):
        if piece[0].isdigit():
            out += _figure_words(piece)
        else:
            # "c", "m" and "in" are units behind a figure only
            after_figure = bool(out) and out[-1] in _NUMBER_WORDS
            out += said[piece].split() if piece in said and (len(piece) > 1 or after_figure) else [piece]
    return out


def _figure_words(piece: str) -> list[str]:
    if piece[-1].isalpha():
        *front, last = number_words(int(piece[:-2]))
        stem = last[:-1] + "ie" if last.endswith("y") else last[:-1] if last == "twelve" else last
        return [*front, _ORDINALS.get(last, "twelfth" if last == "twelve" else stem + "th")]
    if "/" in piece:
        above, below = (int(figure) for figure in piece.split("/"))
        name = _PARTS.get(below) or _figure_words(f"{below}th")[-1]
        return [*number_words(above), name + ("s" if above > 1 and name != "half" else "")]
    if "." in piece:
        whole, tenths = piece.split(".")
        return [*number_words(int(whole)), "point", *(_UNITS[int(figure)] for figure in tenths)]
    return number_words(int(piece))


def number_words(number: int) -> list[str]:
    """A whole number from 0 to 9,999 in words; a year of this century as it is said ("twenty twenty six").

    >>> number_words(45), number_words(120)
    (['forty', 'five'], ['one', 'hundred', 'and', 'twenty'])
    """
    if number < 20:
        return [_UNITS[number]]
    if number < 100:
        return [_TENS[number // 10], *([_UNITS[number % 10]] if number % 10 else [])]
    if number < 1000:
        rest = number % 100
        return [_UNITS[number // 100], "hundred", *(["and", *number_words(rest)] if rest else [])]
    if 2010 <= number < 2100:
        return ["twenty", *number_words(number % 100)]
    rest = number % 1000
    return [*number_words(number // 1000), "thousand", *(number_words(rest) if rest else [])]


_NUMBER_WORDS = frozenset([*_UNITS, *_TENS[2:], "hundred", "half"])
