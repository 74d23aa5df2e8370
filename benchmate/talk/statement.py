"""What may be said at all: words that no reading could be made of are refused here, in one plain line."""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable, Mapping

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


_OLDEST = 1900  # a year before which nothing in a pot was told of
_LONGEST_MONTH, _NO_DAY = 31, 40  # numbers between are meant as days, and are none; more is a count
_DAYS_OF = {2: 29, 4: 30, 6: 30, 9: 30, 11: 30}
_WHOLE = re.compile(r"\b(\d{4})-(\d{1,2})-(\d{1,2})\b|\b(\d{1,2})[/.](\d{1,2})[/.](\d{4})\b")
_ON_THE = re.compile(r"\bon the (\d{1,3})(?:st|nd|rd|th)\b", re.IGNORECASE)
_IN_YEAR = re.compile(r"\b(?:in|since) (1\d{3})(?=\s*(?:[.,;!?]|$))", re.IGNORECASE)


def check_days(reading: Reading, months: Mapping[str, int]) -> None:
    """Refuse days that no calendar has ("30 February", "31/2/2026"): what is told of them would go down for today.

    months: their names, with their numbers. Raises UserError.
    """
    said = reading.said
    if not any(letter.isdecimal() for letter in said):
        return
    for match in _WHOLE.finditer(said):
        one, two, three = (int(part) for part in match.groups() if part is not None)
        days = [(one, two, three)] if match.group(1) else [(three, two, one), (three, one, two)]
        if not any(_is_day(*day) for day in days):
            raise _no_day(match.group())
    for match in _ON_THE.finditer(said):
        if not 1 <= int(match.group(1)) <= _LONGEST_MONTH:
            raise _no_day(match.group())
    names = "|".join(sorted(months, key=len, reverse=True))
    ends = "(?:st|nd|rd|th)?"
    for pattern in (
        rf"\b(?P<day>\d\d?){ends}(?: of)? (?P<month>{names})\b",
        rf"\b(?P<month>{names}) (?P<day>\d\d?){ends}\b",
    ):
        for match in re.finditer(pattern, said, re.IGNORECASE):
            last = _DAYS_OF.get(months[match["month"].casefold()], _LONGEST_MONTH)
            if last < int(match["day"]) < _NO_DAY:
                raise _no_day(match.group())
    if (old := _IN_YEAR.search(said)) and int(old.group(1)) < _OLDEST:
        raise UserError(f"{old.group(1)} lies too far back for this record; say the year again")


def _is_day(year: int, month: int, day: int) -> bool:
    try:
        dt.date(year, month, day)
    except ValueError:
        return False
    return True


def _no_day(words: str) -> UserError:
    return UserError(f"'{words}' is no day of the calendar; say the day again, as 14 June")


_YES = {"yes", "y", "yeah", "yep", "aye", "yes please", "right", "that's right", "thats right", "correct", "ok", "okay"}
_YES |= {"do it", "do it anyway", "go on", "log it", "sure", "yes do it", "yes that's right"}
_NO = {"no", "n", "nope", "no thanks", "don't", "dont", "leave it out", "no don't", "cancel", "neither"}


def yes_or_no(words: str) -> bool | None:
    """True for a plain yes, False for a plain no, None for anything else. An empty line is neither."""
    plain = words.strip().casefold().rstrip(".!")
    return True if plain in _YES else False if plain in _NO else None
