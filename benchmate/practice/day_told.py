"""The day that work is weighed for where the words speak of another than today."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Place
from benchmate.hearing.reading import Reading
from benchmate.practice.when import first_day, span_of

_FORECAST = dt.timedelta(days=10)  # no weather is foretold for longer
_A_SEASON = dt.timedelta(days=100)  # so long a span still tells its time of year


def day_meant(reading: Reading, on: dt.date, place: Place) -> dt.date | None:
    """The later day that a question or a plan speaks of ("can I repot it in October"), or None for today."""
    if not reading.when or "remind" in reading.acts or not reading.work:
        return None
    if not any(work.work and work.done in (None, "later") for work in reading.work):
        return None
    first = first_day(reading.when, place.southern)
    if first and first - on <= _FORECAST and _weather_said(reading):
        return None  # "36 at the weekend, should I shade it": that weather is weighed, and the tree is as it is now
    return first if first and first > on else None


def _weather_said(reading: Reading) -> bool:
    told = any(fact.kind == "weather" for fact in reading.facts) or "temperature_c" in reading.measures
    return told or any("temperature_c" in work.measures for work in reading.work)


def past_told(reading: Reading, on: dt.date, place: Place) -> tuple[dt.date, dt.date] | None:
    """First and last day of what is told of the past and nothing else, where both lie near enough to judge it by."""
    if reading.onward and any("every_days" in work.measures for work in reading.work):
        return None  # "fed it every fortnight since July" goes on today
    if not reading.when or "ask" in reading.acts or not reading.work:
        return None
    if any(work.done != "done" for work in reading.work):
        return None
    first, last = span_of(reading.when, on, place.southern)
    return (first, last) if last < on and last - first <= _A_SEASON else None
