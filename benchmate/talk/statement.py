"""What may be said at all: words that no reading could be made of are refused here, in one plain line."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

from benchmate.fault import UserError
from benchmate.hearing.reading import Reading

LONGEST = 2000
_BELOW_ZERO = {"temperature_c"}
_COLDEST, _HOTTEST = -90.0, 70.0
_MINUS = r"(?:^|[\s(])(?:[-\u2212]\s?|minus\s+|negative\s+)\d+(?:[.,/]\d+)?\s*"


def checked(words: str) -> str:
    """The words of one statement, trimmed. Raises UserError for none, too many, or control characters."""
    for at, letter in enumerate(words, 1):
        if unicodedata.category(letter) in ("Cc", "Cs") and letter not in "\t\n\r":
            shown = letter.encode("unicode_escape").decode("ascii")
            raise UserError(f"the statement holds a control character ({shown}) at character {at}; say it without")
    plain = " ".join(words.split())
    if not plain:
        raise UserError('nothing was said; say what you see, do or ask, as "second flush is hardened, what now"')
    if len(plain) > LONGEST:
        raise UserError(f"the statement is {len(plain):,} characters long; say it in pieces of {LONGEST:,} at most")
    return plain


def check_measures(reading: Reading, units: Iterable[str]) -> None:
    """Refuse measures that cannot be. units: words of the units that lie above zero ("mm", "leaves").

    Raises UserError for a length, count or share below zero, a share over 100 %, an angle over 360 degrees, or a
    temperature that no tree meets.
    """
    told = any(letter.isdecimal() for letter in reading.said)
    words = "|".join(sorted(map(re.escape, units), key=len, reverse=True)) if told else ""
    if words and (match := re.search(rf"{_MINUS}(?:{words})\b", reading.said, re.IGNORECASE)):
        raise UserError(f"'{match.group().strip()}' is below zero; say a measure above zero")
    groups = [reading.measures, *(fact.measures for fact in (*reading.facts, *reading.candidates))]
    groups += [work.measures for work in reading.work]
    for key, value in ((key, value) for group in groups for key, value in group.items()):
        name = key.rpartition("_")[0] or key
        if key == "temperature_c":
            if not _COLDEST <= value <= _HOTTEST:
                raise UserError(f"{value:g} C is no temperature for a tree; say one from {_COLDEST:g} to {_HOTTEST:g}")
        elif value < 0:
            raise UserError(f"a {name.replace('_', ' ')} of {value:g} is below zero; say a measure above zero")
        elif key == "share" and value > 1:
            raise UserError(f"a share of {value * 100:g} % is more than all; say one up to 100 %")
        elif key == "angle_deg" and value > 360:
            raise UserError(f"an angle of {value:g} degrees is more than a full turn; say one up to 360")


_YES = {"yes", "y", "yeah", "yep", "aye", "yes please", "right", "that's right", "thats right", "correct", "ok", "okay"}
_YES |= {"do it", "do it anyway", "go on", "log it", "sure", "yes do it", "yes that's right"}
_NO = {"no", "n", "nope", "no thanks", "don't", "dont", "leave it out", "no don't", "cancel", "neither"}


def yes_or_no(words: str) -> bool | None:
    """True for a plain yes, False for a plain no, None for anything else. An empty line is neither."""
    plain = words.strip().casefold().rstrip(".!")
    return True if plain in _YES else False if plain in _NO else None
