"""The small words of figure questions, by what they do there: section [small] of rules/words/figure_questions.toml."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .words import same_stems

Words = frozenset[str]


class SmallWords:
    """The lists of [small], each as a set; what it is for stands beside it in the file. A list that is missing there is
    empty, so that a damaged rule base still hears something."""

    # between numbers and the words that speak for them
    stops: Words
    pauses: Words
    # between numbers
    listed: Words
    list_breaks: Words
    apart: Words
    breaths: Words
    of_whole: Words
    up_to: Words
    between: Words
    added: Words
    one_in: Words
    ratio: Words
    each: Words
    of_growth: Words
    # before and behind a number
    again: Words
    articles: Words
    named: Words
    kinds_of: Words
    filling: Words
    leading: Words
    no_number: Words
    before_one: Words
    one_at: Words
    of_them: Words
    cut_into: Words
    point: Words
    nought: Words
    since: Words
    past: Words
    # units
    after_in: Words
    after_short: Words
    unit_asked: Words
    before_asked: Words
    before_rate: Words
    percent: Words
    after_unit: Words
    never_apart: Words
    spans: Words
    feet: Words
    mil: Words
    gauges: Words
    gauge_kinds: Words
    before_gauge: Words
    unitless: Words
    glued: Words
    numbered: Words
    # what is not so
    supposing: Words
    # dates
    day_leads: Words
    month_leads: Words
    year_leads: Words
    middle: Words
    in_month: Words
    two_edged: Words
    single_days: Words
    year_counts: Words
    no_date: Words
    no_date_before: Words
    nights: Words
    of_the_sun: Words
    extremes: Words
    meant_ahead: Words
    meant_back: Words

    def __init__(self, data: Mapping[str, Any]) -> None:
        for name in self.__annotations__:
            setattr(self, name, frozenset(data.get(name, ())))
        self.taken_back = [tuple(said.split()) for said in data.get("taken_back", ())]
        self.rates_only = [tuple(said.split()) for said in data.get("rates_only", ())]
        self.meaning = [tuple(said.split()) for said in data.get("meaning", ())]
        self.also: Mapping[str, str] = data.get("also", {})
        self.times: Mapping[str, float] = data.get("times", {})
        self.parts_of: Mapping[str, float] = data.get("parts_of", {})
        self.same_as: Mapping[str, str] = same_stems(data.get("same_as", {}))

    def takes_back(self, texts: Sequence[str], at: int) -> bool:
        """Whether words that take back what was said begin at a place."""
        return any(tuple(texts[at : at + len(said)]) == said for said in self.taken_back)
