"""How words sound: the trade's own table, then the recogniser's dictionary, then rules for endings and letters."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

Phones = str  # ARPAbet, without stress, one space between: "HH AO R N B IY M"

_HISSING = frozenset({"S", "Z", "SH", "ZH", "CH", "JH"})
_UNVOICED = frozenset({"P", "T", "K", "F", "TH"})
_VOWELS = frozenset(("AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"))
_LOT = frozenset({"P", "T", "K", "B", "D", "G", "F", "TH", "S", "SH", "CH", "JH", "M", "N"})  # behind a short "o"
_MOST_WAYS = 4  # to which another change is made
_SHORTEST_HALF = 3  # letters; of words that run together


class Sounds:
    """Pronunciations of a vocabulary.

    table: rules/words/sounds.toml. dictionary: word -> ways to say it, as the recogniser came with it.
    """

    def __init__(self, table: Mapping[str, Any], dictionary: Mapping[str, Sequence[Phones]]) -> None:
        self._own: Mapping[str, Sequence[Phones]] = table.get("sound", {})
        self._dictionary = dictionary
        self._letters = _letter_rules(table.get("letters", {}))

    def of(self, word: str) -> tuple[Phones, ...]:
        """Every way in which a word is said; () only for what has no letters. A digit is no word here."""
        found = self._known(word) or self._inflected(word) or self._joined(word)
        if not found:
            spelt = self.by_letters(word)
            found = (spelt,) if spelt else ()
        return _with_other_speakers(found)

    def _known(self, word: str) -> tuple[Phones, ...]:
        both = [*self._own.get(word, ()), *self._dictionary.get(word, ())]
        return tuple(dict.fromkeys(both))

    def _inflected(self, word: str) -> tuple[Phones, ...]:
        """A word with an ending that follows a rule: plural, possessive, past, -ing."""
        for ending, stems in _stems(word):
            for stem in stems:
                whole = self._known(stem) or (self._joined(stem) if len(stem) > _SHORTEST_HALF else ())
                if whole:
                    return tuple(f"{phones} {_ending(ending, phones.split()[-1])}" for phones in whole)
        return ()

    def _joined(self, word: str) -> tuple[Phones, ...]:
        """Two words run together ("watershoot"), taken apart where both halves are known; the longest tail wins."""
        for cut in range(_SHORTEST_HALF, len(word) - _SHORTEST_HALF + 1):
            head, tail = self._known(word[:cut]), self._known(word[cut:])
            if head and tail:
                return (f"{head[0]} {tail[0]}",)
        return ()

    def by_letters(self, word: str) -> Phones:
        """Sounds from the letters alone, the longest rule first. A guess, good enough for botanical names."""
        out: list[str] = []
        spelt, at = word.casefold(), 0
        while at < len(spelt):
            for length in range(min(8, len(spelt) - at), 0, -1):
                rule = _fitting(self._letters.get(spelt[at : at + length], ()), spelt, at, at + length)
                if rule is not None:
                    out += rule.split()
                    at += length
                    break
            else:
                at += 1
        return " ".join(out)


def _letter_rules(table: Mapping[str, str]) -> dict[str, list[tuple[bool, bool, str, Phones]]]:
    """letters -> (only at the start, only at the end, letters that must follow, phones), the narrowest rule first."""
    rules: dict[str, list[tuple[bool, bool, str, Phones]]] = {}
    for pattern, phones in table.items():
        core, _, follow = pattern.rstrip(")").partition("(")
        start, end = core.startswith("^"), core.endswith("$")
        rules.setdefault(core.strip("^$"), []).append((start, end, follow, phones))
    for kept in rules.values():
        kept.sort(key=lambda rule: -(rule[0] + rule[1] + len(rule[2])))
    return rules


def _fitting(rules: Iterable[tuple[bool, bool, str, Phones]], word: str, at: int, end: int) -> Phones | None:
    for start_only, end_only, follow, phones in rules:
        if (start_only and at) or (end_only and end != len(word)) or (follow and not _follows(word[end:], follow)):
            continue
        return phones
    return None


def _follows(rest: str, follow: str) -> bool:
    """Whether the rest fits: "_" is one letter that is no vowel, "$" the end of the word."""
    closed = follow.endswith("$")
    wanted = follow.rstrip("$")
    if len(rest) < len(wanted) or (closed and len(rest) != len(wanted)):
        return False
    return all(a == b or (a == "_" and b not in "aeiouy") for a, b in zip(wanted, rest, strict=False))


def _stems(word: str) -> Iterable[tuple[str, tuple[str, ...]]]:
    if word.endswith("'s"):
        yield "s", (word[:-2],)
    elif word.endswith("ies") and len(word) > 4:
        yield "s", (word[:-3] + "y",)
    elif word.endswith("es") and len(word) > 4:
        yield "s", (word[:-1], word[:-2])
    elif word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3:
        yield "s", (word[:-1],)
    elif word.endswith("ed") and len(word) > 4:
        yield "ed", (word[:-1], word[:-2], word[:-3])
    elif word.endswith("ing") and len(word) > 5:
        yield "ing", (word[:-3], word[:-3] + "e", word[:-4])


def _ending(ending: str, last: str) -> str:
    if ending == "ing":
        return "IH NG"
    if ending == "ed":
        return "IH D" if last in ("T", "D") else "T" if last in _UNVOICED | {"S", "SH", "CH"} else "D"
    return "IH Z" if last in _HISSING else "S" if last in _UNVOICED else "Z"


def _with_other_speakers(ways: Sequence[Phones]) -> tuple[Phones, ...]:
    """The ways as given, each as British speakers say it, and each with sounds that many say in another way."""
    out = dict.fromkeys(ways)
    for way in ways:
        out.setdefault(_british(way.split()))
    for other in (_with_soft_end, _with_open_vowel, _with_round_vowel):
        for way in [*out][:_MOST_WAYS]:
            out.setdefault(" ".join(other(way.split())))
    return tuple(out)


def _british(phones: Sequence[str]) -> Phones:
    """No R behind a vowel unless a vowel follows; "top" with a rounded vowel, "oak" with one that begins in front."""
    out: list[str] = []
    for at, phone in enumerate(phones):
        before, after = phones[at - 1 : at], phones[at + 1 : at + 2]
        if phone == "R" and _VOWELS.intersection(before) and not _VOWELS.intersection(after):
            continue
        if phone == "OW" and after != ["R"]:
            out += ["EH", "UW"]
        else:
            out.append("AO" if phone == "AA" and after and after[0] in _LOT else phone)
    if out and out[-1] == "ER" and len(out) > 2:
        out[-1] = "AH"
    return " ".join(out)


def _with_soft_end(phones: Sequence[str]) -> list[str]:
    """Z at the end without voice, as before a pause."""
    return [*phones[:-1], "S" if phones[-1:] == ["Z"] and len(phones) > 1 else phones[-1]]


def _with_open_vowel(phones: Sequence[str]) -> list[str]:
    """ "cut" with an open vowel: words of one vowel, with a sound behind it."""
    one = sum(phone in _VOWELS for phone in phones) == 1 and phones[-1] not in _VOWELS
    return ["AA" if phone == "AH" and one else phone for phone in phones]


def _with_round_vowel(phones: Sequence[str]) -> list[str]:
    """ "took" with the vowel of "toe" made short."""
    return ["OW" if phone == "UH" and phones[at + 1 : at + 2] != ["R"] else phone for at, phone in enumerate(phones)]


def read_dictionary(path: Path) -> dict[str, list[Phones]]:
    """The recogniser's dictionary: `word(2) P H O N E S`, a line each."""
    words: dict[str, list[Phones]] = {}
    for line in path.read_text(encoding="utf-8").splitlines():
        head, _, phones = line.partition(" ")
        if phones.strip():
            words.setdefault(head.split("(")[0], []).append(phones.strip())
    return words
