"""Dates of a figure question: months and days, years, named days, and days of a month alone ("the 18th")."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Sequence

from ..amounts.dates import FIRST_FROST, DateWords, spot_dates
from .said import NumberWords, SaidNumber
from .small import SmallWords

_DAY = re.compile(r"(\d{1,2})(?:st|nd|rd|th)$")
_WEEK = 7  # days
_MIDDLE = 15  # of a month
DATE_REACH = 7  # words from the first of a date to the one that makes it a date
_YEAR = re.compile(r"(?:19|20)\d\d$")


def date_words(texts: Sequence[str], known: NumberWords, dates: DateWords) -> set[int]:
    """Places of words without which nothing is a date: months, weekdays, seasons, spans, years and the like."""
    phrases = [*dates.day, *(spelt for named in known.days.values() for spelt, _ in named)]
    named = {word for phrase in phrases for word in phrase}
    named |= {"'", "’", *dates.month, *dates.weekday, *dates.season, *dates.span} - known.small.no_date
    return {
        at for at, text in enumerate(texts) if text in named or _YEAR.match(text) or _DAY.match(text) or "-" in text
    }


def date_at(texts: Sequence[str], at: int, known: NumberWords, dates: DateWords) -> SaidNumber | None:
    """The longest date at a word. A count of years ahead or back stays a number, and so does a bare word that may be
    another ("may", "sun")."""
    for spelt, day in known.days.get(texts[at], ()):
        if texts[at : at + len(spelt)] == spelt:
            return SaidNumber(at, at + len(spelt), 0, 0, "date", " ".join(spelt), told=_named(spelt, day, dates, known))
    short = texts[at] in ("'", "’") and at + 1 < len(texts) and re.fullmatch(r"\d\d", texts[at + 1])
    if short and not known.small.gauges.intersection(texts[at + 2 : at + 3]) and known.unit_at(texts, at + 2) is None:
        year_text = str(2000 + int(texts[at + 1]))
        return SaidNumber(at, at + 2, 0, 0, "date", "year", told=(year_text, year_text))
    match = _DAY.match(texts[at])
    if (
        match
        and known.small.day_leads.intersection(texts[at - 1 : at])
        and not known.small.of_whole.intersection(texts[at + 1 : at + 2])
    ):
        longest = max((when.end for when in spot_dates(dates, texts, at)), default=0)
        if 1 <= int(match[1]) <= 31 and longest <= at + 1:
            return SaidNumber(at, at + 1, 0, 0, "date", "day", told=_nearest(int(match[1]), dates))
    if _bare_year(texts, at, known):
        return SaidNumber(at, at + 1, 0, 0, "date", "year", told=(texts[at], texts[at]))
    best, small = None, known.small
    if found := _week_of(texts, at, known, dates) or _middle_of(texts, at, known, dates):
        return found
    of_year = texts[at] in dates.season and small.of_whole.intersection(texts[at + 1 : at + 2])
    if of_year and at + 2 < len(texts) and _YEAR.match(texts[at + 2]):
        season = f"{texts[at + 2]}-{dates.season[texts[at]]}"
        return SaidNumber(at, at + 3, 0, 0, "date", " ".join(texts[at : at + 3]), told=(season, season))
    for when in spot_dates(dates, texts, at):
        if when.future is None or when.future == FIRST_FROST:
            continue
        inner = texts[at : when.end]
        if dates.day.get(tuple(inner)) == 0 or small.nights.intersection(inner):
            continue  # today is no other day than the one that is asked on
        if small.year_counts.intersection(inner) and any(
            word[0].isdigit() or (word,) in known.values.number for word in inner
        ):
            continue
        led = (
            at > 0 and texts[at - 1] in small.month_leads and inner[0] in dates.month
        )  # "in March", and no march or may
        single = when.end == at + 1 and not led
        if single and not (
            inner[0] in small.single_days or _YEAR.match(inner[0]) or _is_day_name(inner[0], dates, small)
        ):
            continue
        if best is None or when.end > best.end:
            best = when
    if best is None or small.no_date_before.intersection(texts[best.end : best.end + 1]):
        return None  # "the last spring frost" is no spring
    if tuple(texts[at : best.end]) in small.rates_only:
        return None  # "how much light in a day"
    lead = dates.match("lead", texts, at)
    if lead and any(when.end == best.end for when in spot_dates(dates, texts, lead)):
        return None  # "since 3 May": the small word stays one of the statement's
    return SaidNumber(at, best.end, 0, 0, "date", " ".join(texts[at : best.end]), told=(best.past, best.future))


def _bare_year(texts: Sequence[str], at: int, known: NumberWords) -> bool:
    """Whether a number is a year by itself: behind a size, or beside another year ("20 mm 2023, 26 mm now, 2029?")."""
    if not _YEAR.match(texts[at]) or known.unit_at(texts, at + 1):
        return False
    behind = known.unit_at(texts, at - 1) if at else None
    sized = behind is not None and behind[0] == "length" and behind[2] == at
    led = known.small.year_leads.intersection(texts[max(0, at - 1) : at])
    return (
        sized
        or bool(led)
        or any(_YEAR.match(text) for n, text in enumerate(texts) if n != at and not known.unit_at(texts, n + 1))
    )


def _week_of(texts: Sequence[str], at: int, known: NumberWords, dates: DateWords) -> SaidNumber | None:
    """The middle of a week of a month: "the first week of May"."""
    here = texts[at : at + 4]
    if len(here) < 4 or here[1] not in known.small.spans or not known.small.in_month.intersection(here[2:3]):
        return None
    month = dates.month.get(here[3])
    which = known.values.ordinal.get((here[0],)) or (4 if here[0] in known.small.past else 0)
    if month is None or not 1 <= which <= 4 or known.units.get((here[1],), ("", 0))[1] != _WEEK:
        return None
    day = f"{month:02}-{round(which) * 7 - 3:02}"
    return SaidNumber(at, at + 4, 0, 0, "date", " ".join(here), told=_named(here, day, dates, known))


def _middle_of(texts: Sequence[str], at: int, known: NumberWords, dates: DateWords) -> SaidNumber | None:
    """The middle of a month: "the middle of March", "mid October"."""
    if texts[at] not in known.small.middle:
        return None
    end = at + (3 if known.small.in_month.intersection(texts[at + 1 : at + 2]) else 2)
    here = texts[at:end]
    month = dates.month.get(here[-1])
    if month is None:
        return None
    told = _named(here, f"{month:02}-{_MIDDLE}", dates, known)
    return SaidNumber(at, end, 0, 0, "date", " ".join(here), told=told)


def _named(spelt: Sequence[str], day: str, dates: DateWords, known: NumberWords) -> tuple[str, str]:
    """The last and the next of a named day (month-day, northern) as ISO dates; those of the sun turn with the south."""
    month, of_month = (int(part) for part in day.split("-"))
    if dates.southern and known.small.of_the_sun.intersection(spelt):
        month = (month + 5) % 12 + 1
    year = dates.on.year + ((month, of_month) < (dates.on.month, dates.on.day))
    return f"{year - 1}-{month:02}-{of_month:02}", f"{year}-{month:02}-{of_month:02}"


def _is_day_name(text: str, dates: DateWords, small: SmallWords) -> bool:
    """A month or a weekday that is nothing else."""
    return (text in dates.month and text not in small.two_edged) or (text in dates.weekday and len(text) > 3)


def _nearest(day: int, dates: DateWords) -> tuple[str, str]:
    """The last and the next such day of a month, as ISO dates; the month's last day where it is shorter."""

    def of_month(step: int) -> str:
        month0 = dates.on.year * 12 + dates.on.month - 1 + step
        year, month = month0 // 12, month0 % 12 + 1
        return dt.date(year, month, min(day, calendar.monthrange(year, month)[1])).isoformat()

    return of_month(0 if day <= dates.on.day else -1), of_month(0 if day >= dates.on.day else 1)
