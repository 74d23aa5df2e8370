"""Which day is meant by a date that may lie before or ahead ("3 May", "the 18th"), and the days of measurements."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from benchmate.hearing.figures.small import SmallWords
from benchmate.hearing.reading import Reading
from benchmate.talk.dates import first_day, span_of

_FARTHEST_BACK = 330  # days: what was done longer ago is told with its year
_A_YEAR = 365.25


def day_meant(
    told: tuple[str | None, str | None],
    reading: Reading,
    texts: Sequence[str],
    on: dt.date,
    southern: bool,
    small: SmallWords,
) -> Any:
    """The day of a date told as (looking back, looking ahead), or None. texts: the statement's words. small: those that
    tell which way is meant."""
    back, ahead = (first_day(text, southern) if text else None for text in told)
    spans = [span_of(text, southern) for text in told if text]
    for span in spans:
        if span and span[0] <= on <= span[1] and span[0] < span[1]:
            return None  # "this year" is no other day than today
    if back is None or ahead is None or back == ahead:
        return back or ahead
    if small.meant_ahead.intersection(texts) or any(pair in small.meaning for pair in pairwise(texts)):
        return ahead
    done = any(work.done == "done" for work in (*reading.work, *reading.supposes))
    if (small.meant_back.intersection(texts) or done) and 0 <= (on - back).days <= _FARTHEST_BACK:
        return back
    return min((back, ahead), key=lambda day: abs((day - on).days))


def year_day(text: str | None, on: dt.date, southern: bool) -> dt.date | None:
    """A day for a date that may be a year alone: the same day of that year as today."""
    if text and len(text) == 4 and text.isdigit():
        return dt.date(int(text), on.month, min(on.day, 28))
    return first_day(text, southern) if text else None


def measured_on(
    sizes: Sequence[float], places: Sequence[int], dates: Sequence[tuple[float, dt.date]], on: dt.date
) -> tuple[tuple[dt.date, float], ...]:
    """Sizes with their days. places: each size's place in the statement; dates: (place, day), in the order said.

    A size has the date that stands beside it; between two dated ones days are spread evenly, and where only the first
    has one each further size is a year later. Without any date there are no readings.
    """
    if not dates or len(sizes) < 2:
        return ()
    days: list[dt.date | None] = [None] * len(sizes)
    for place, day in dates:
        near = sorted(range(len(sizes)), key=lambda n: (abs(places[n] - place), places[n] > place))
        free = next((n for n in near if days[n] is None and abs(places[n] - place) <= 1), None)
        if free is not None:
            days[free] = day
    known = [n for n, day in enumerate(days) if day is not None]
    if not known:
        first = min(day for _, day in dates)
        days[0], known = first, [0]
    start, at = days[known[0]] or on, known[0]
    if known == [0] and (on - start).days >= (len(sizes) - 1) * _A_YEAR - 100:
        days[-1] = on  # "30 three years ago and 40 now"
        days = _between(days, [0, len(days) - 1])
    elif len(known) == 1:
        days = [start + dt.timedelta(days=round((n - at) * _A_YEAR)) for n in range(len(sizes))]
    else:
        days = _between(days, known)
    told = [(day, size) for day, size in zip(days, sizes, strict=True) if day is not None]
    return tuple(sorted(told))


def _between(days: Sequence[dt.date | None], known: Sequence[int]) -> list[dt.date | None]:
    """Days without a date spread evenly between their neighbours, or a year from the last."""
    out = list(days)
    for left, right in pairwise(known):
        start, end = days[left], days[right]
        if start and end:
            for n in range(left + 1, right):
                out[n] = start + (end - start) * (n - left) / (right - left)
    last = days[known[-1]]
    for n in range(known[-1] + 1, len(days)):
        if last:
            out[n] = last + dt.timedelta(days=round((n - known[-1]) * _A_YEAR))
    return out
