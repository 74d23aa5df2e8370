"""Text into words, each with its place in the text as said."""

from __future__ import annotations

import re
from collections.abc import Mapping

from benchmate.value import dataclass

# "8,5 mm": a comma between figures is a decimal point where a unit follows, and no list ("9,7 and 5 mm", "30,20,8 cm")
_DECIMAL_COMMA = r"(?<![\d,])\d{1,3},\d{1,2}(?=\s?[^\W\d_]|\s?[%°\"'])(?!\s?(?:and|or|to|by|x)\b)"
_WORD = re.compile(
    _DECIMAL_COMMA + r"|\d{4}-\d{2}-\d{2}|\d+-\d+-\d+|\d+(?:st|nd|rd|th)\b|\d+/\d+|\d+\.\d+|\d+"
    r"|^'[^\W\d_]+|[^\W\d_]+(?:'[^\W\d_]+)*|\.\.\.|\S",  # a term of the rules may be an ending: "'s"
)
_CURLY = str.maketrans({"’": "'", "‘": "'", "`": "'", "“": '"', "”": '"', "–": "-", "—": "-"})
JOINER = "-"
POSSESSIVE = "'s"


@dataclass(frozen=True, slots=True)
class Word:
    """One word, lower case. start and end: its characters in the text as said."""

    text: str
    start: int
    end: int


def split_words(text: str, short: Mapping[str, str], bare: Mapping[str, str]) -> list[Word]:
    """The words of a text in lower case.

    short: contraction -> full words ("isn't" -> "is not"), article before its word ("t'" -> "the"), ending
    ("in'" -> "ing") and what stands for a word behind any other ("'ll" -> "will"). bare: the same without apostrophe.
    A possessive "'s" becomes a word of its own. A hyphen between letters joins nothing: "right-hand" is two words, like
    "right hand".
    """
    words: list[Word] = []
    folded = text.translate(_CURLY).lower()
    if len(folded) != len(text):  # a letter whose lower case is longer would shift every place
        folded = "".join(c if len(c.lower()) != 1 else c.lower() for c in text.translate(_CURLY))
    past = 0  # characters that a clipped word took in: the mark behind "bitin'"
    for match in _WORD.finditer(folded):
        word, start, end = match.group(), match.start(), match.end()
        if start < past:
            continue
        marked = folded[end : end + 1] == "'" and not folded[end + 1 : end + 2].isalpha()
        if marked and (clipped := _clipped(f"{word}'", short)):
            word, end = clipped, end + 1
            past = end
        led = word.find("'") + 1  # "t'wire"
        if led and word not in short and word[:led] in short and len(word) > led + 1:
            words.append(Word(short[word[:led]], start, start + led))
            word, start = word[led:], start + led
        if word[0].isdigit():
            word = word.replace(",", ".")
        if word == JOINER and _inside_word(folded, start):
            continue
        full = short.get(word) or bare.get(word)
        if full is not None:
            words += [Word(part, start, end) for part in full.split()]
        elif (cut := word.rfind("'")) > 0 and word[cut:] in short:  # "which'd", "water'll"
            words += [Word(word[:cut], start, start + cut), Word(short[word[cut:]], start + cut, end)]
        elif word.endswith(POSSESSIVE) and len(word) > len(POSSESSIVE):
            words += [Word(word[:-2], start, end - 2), Word(POSSESSIVE, end - 2, end)]
        else:
            words.append(Word(word if word == POSSESSIVE else word.replace("'", "") or word, start, end))
    return words


def _clipped(word: str, short: Mapping[str, str]) -> str | None:
    """A word whose end was left out, in full: "wi'" by itself, "bitin'" by its ending."""
    if word in short:
        return short[word]
    ending = word[-3:]
    return word[:-3] + short[ending] if ending in short and len(word) > 5 else None


def _inside_word(text: str, place: int) -> bool:
    return 0 < place < len(text) - 1 and text[place - 1].isalnum() and text[place + 1].isalpha()


def plural(word: str) -> str:
    """The regular plural of an English noun; irregular ones stand in the lexicon.

    >>> [plural(w) for w in ("branch", "twig", "berry", "leaf")]
    ['branches', 'twigs', 'berries', 'leaves']
    """
    if word.endswith(("s", "x", "z", "ch", "sh")):
        return word + "es"
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return word[:-1] + "ies"
    if word.endswith("leaf"):
        return word[:-1] + "ves"
    return word + "s"


# One short vowel before one consonant: that is written twice ("rig", "rigged").
_DOUBLED = re.compile(r"[^aeiou]*[aeiou][^aeiouwxy]")


def verb_forms(base: str, irregular: Mapping[str, list[str]]) -> tuple[list[str], str]:
    """(past and participles), (-ing form) of a verb of one word.

    >>> verb_forms("prune", {})
    (['pruned'], 'pruning')
    """
    if base in irregular:
        *past, ing = irregular[base]
        return past, ing
    if base.endswith("e"):
        return [base + "d"], base[:-1] + "ing"
    if base.endswith("y") and base[-2:-1] not in "aeiou":
        return [base[:-1] + "ied"], base + "ing"
    if _DOUBLED.fullmatch(base):
        return [base + base[-1] + "ed"], base + base[-1] + "ing"
    return [base + "ed"], base + "ing"
