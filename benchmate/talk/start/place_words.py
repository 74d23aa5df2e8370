"""A latitude and a day of the year as a grower may type them."""

from __future__ import annotations

import re

from benchmate.fault import UserError
from benchmate.telling.dates import MONTHS

_LATITUDE = re.compile(
    r"""\s*(?P<sign>[-+\u2212])?\s*(?P<degrees>\d{1,3}(?:[.,]\d+)?)\s*(?:\u00b0|deg(?:rees)?)?
    (?:\s*(?P<minutes>\d{1,2}(?:[.,]\d+)?)\s*['\u2032])?\s*(?P<side>n(?:orth)?|s(?:outh)?)?\s*""",
    re.VERBOSE | re.IGNORECASE,
)
_SKIP = {"", "skip", "later", "don't know", "dont know", "?"}
_NONE = {"none", "no", "never", "frost-free", "frost free", "no frost"}
_FREE = re.compile(
    r"(?:there is |there are |we (?:have|get) |i (?:have|get) |it (?:has|gets) )?"
    r"(?:no|never any|hardly any) frosts?\b[\w ,']*|[\w ']*\bfrost[- ]free|[\w ']*\bnever (?:freezes|frosts)[\w ]*"
)
_BESIDE = {
    "of",
    "the",
    "on",
    "in",
    "about",
    "around",
    "roughly",
    "early",
    "mid",
    "late",
    "st",
    "nd",
    "rd",
    "th",
    "usually",
    "it",
    "is",
    "s",
    "week",
    "beginning",
    "start",
    "first",
    "middle",
    "end",
    "last",
}
_PARTS = {
    "early": 5,
    "beginning": 5,
    "start": 5,
    "first": 5,
    "mid": 15,
    "middle": 15,
    "late": 25,
    "end": 28,
    "last": 25,
}
_LONGEST = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def read_latitude(words: str) -> float | None:
    """Degrees, south negative, or None where it is left for later. Raises UserError for anything else.

    >>> read_latitude("33.9 S"), read_latitude("52 30' N"), read_latitude("")
    (-33.9, 52.5, None)
    """
    if words.strip().casefold() in _SKIP:
        return None
    match = _LATITUDE.fullmatch(words)
    if not match:
        raise UserError(f"'{words.strip()}' is no latitude; type degrees, as 52.1 or 33.9 S, or press Enter to skip it")
    degrees = float(match["degrees"].replace(",", ".")) + float((match["minutes"] or "0").replace(",", ".")) / 60
    if match["sign"] in ("-", "\u2212") or (match["side"] or "").lower().startswith("s"):
        degrees = -degrees
    if not -90 <= degrees <= 90:
        raise UserError(f"a latitude lies between -90 and 90 degrees, and {words.strip()} does not")
    return degrees


def read_month_day(words: str) -> tuple[int, int] | None:
    """Month and day, or None where it is left for later or there is none. Raises UserError for anything else.

    >>> read_month_day("28 April"), read_month_day("Oct 16"), read_month_day("04-28"), read_month_day("none")
    ((4, 28), (10, 16), (4, 28), None)
    >>> read_month_day("mid October"), read_month_day("last week of April"), read_month_day("28/4")
    ((10, 15), (4, 25), (4, 28))
    """
    plain = words.strip().casefold().rstrip(".")
    if plain in _SKIP | _NONE or _FREE.fullmatch(plain):
        return None
    numbers = [int(number) for number in re.findall(r"\d+", plain)]
    names = [name for name in re.findall(r"[a-z]+", plain) if name not in _BESIDE]
    month = next(
        (
            n
            for name in names
            for n, whole in enumerate(MONTHS, 1)
            if len(name) > 2 and whole.casefold().startswith(name)
        ),
        0,
    )
    parts = [day for part, day in _PARTS.items() if part in re.findall(r"[a-z]+", plain)]
    if month and len(numbers) == len(names) == 1:
        day = numbers[0]
    elif month and not numbers and len(parts) == 1 and len(names) <= 2:  # "mid October": a mean is no sharper than that
        day = parts[0]
    elif (match := re.fullmatch(r"(\d{1,2})[./](\d{1,2})[./]?", plain)) and max(map(int, match.groups())) > 12:
        day, month = sorted(map(int, match.groups()), reverse=True)  # which of the two is the month, only one can be
    elif re.fullmatch(r"\d{1,2}-\d{1,2}", plain):
        month, day = numbers
    else:
        raise UserError(
            f"'{words.strip()}' is no day of the year; type it as 28 April or 04-28, or press Enter to skip it"
        )
    if not (1 <= month <= 12 and 1 <= day <= _LONGEST[month - 1]):
        raise UserError(
            f"there is no such day as '{words.strip()}'; type it as 28 April or 04-28, or press Enter to skip it"
        )
    return month, day


def day_of_year(day: tuple[int, int]) -> str:
    """The month and day in words: "28 April"."""
    return f"{day[1]} {MONTHS[day[0] - 1]}"
