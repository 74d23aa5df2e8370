"""The shape of the two files of figure questions: rules/words/figures.toml and figure_questions.toml."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from benchmate.rulebase.model_rules import MonthDay, Shape

KINDS = (
    "length",
    "celsius",
    "degree",
    "volume",
    "share",
    "ppm",
    "mass",
    "force",
    "days",
    "years",
    "number",
    "label",
    "gauge",
    "date",
)
TAGS = (
    "by1",
    "by2",
    "by3",
    "from",
    "to",
    "part",
    "whole",
    "each",
    "yearly",
    "monthly",
    "weekly",
    "daily",
    "side",
    "ago",
    "since",
    "per",
    "ratio1",
    "ratio2",
    "in1",
    "in2",
    "again",
    "dosed",
)


def _kind(value: str) -> str:
    kind, _, noun = value.partition(":")
    if value not in KINDS and not (kind == "count" and noun):
        raise ValueError(f"'{value}' is no kind of number; use count:NOUN or one of {', '.join(KINDS)}")
    return value


def _tag(value: str) -> str:
    if value not in TAGS:
        raise ValueError(f"'{value}' is no tag; use one of {', '.join(TAGS)}")
    return value


def _weight(value: str) -> str:
    try:
        weight = float(value)
    except ValueError:
        weight = 0.0
    if not 0 < weight <= 10:
        raise ValueError(f"'{value}' must be a weight from 0 to 10")
    return value


Phrase = Annotated[str, Field(min_length=1)]
Phrases = list[Phrase]
Kind = Annotated[str, AfterValidator(_kind)]
Tag = Annotated[str, AfterValidator(_tag)]
Weight = Annotated[str, AfterValidator(_weight)]
Size = Annotated[float, Field(gt=0, strict=False)]


class FigureUnit(Shape):
    kind: Literal["length", "volume", "mass", "force", "ppm", "days", "years", "share", "celsius", "degree"]
    size: Size
    says: Phrases


class RoleShape(Shape):
    """What a number of one role looks like; near, before, after: words on either side of it, before it, behind it."""

    is_: Kind = Field(alias="is")
    near: Phrases = Field(default=[])
    before: Phrases = Field(default=[])
    after: Phrases = Field(default=[])
    tags: list[Tag] = Field(default=[])
    not_tags: list[Tag] = Field(default=[])
    order: Annotated[int, Field(ge=1)] | None = None
    many: bool = False
    rises: bool = False
    up_to: Annotated[int, Field(ge=2)] | None = None
    only: bool = False
    prefer: bool = False
    unit_said: bool = False
    smallest: bool = False
    biggest: bool = False
    equals: Size | None = None
    least: Size | None = None
    most: Size | None = None
    bare_most: Size | None = None
    like: str | None = None


class CuesShape(Shape):
    of: dict[Weight, Phrases] = Field(default={})
    asked: dict[Weight, Phrases] = Field(default={})
    with_: dict[Weight, Phrases] = Field(default={}, alias="with")
    against: dict[Weight, Phrases] = Field(default={})


class FigureShape(Shape):
    """of_work: whether it is what work takes, so that work told in the imperative beside it is only supposed."""

    needs: list[str] = Field(default=[])
    of_work: bool = False
    cues: CuesShape
    values: dict[str, dict[str, Phrases]] = Field(default={})
    roles: dict[str, RoleShape]


class SmallShape(Shape):
    """The small words, by what they do beside numbers; benchmate/hearing/figures/small.py reads them."""

    stops: Phrases = Field(default=[])
    pauses: Phrases = Field(default=[])
    listed: Phrases = Field(default=[])
    list_breaks: Phrases = Field(default=[])
    apart: Phrases = Field(default=[])
    breaths: Phrases = Field(default=[])
    taken_back: Phrases = Field(default=[])
    of_whole: Phrases = Field(default=[])
    up_to: Phrases = Field(default=[])
    between: Phrases = Field(default=[])
    added: Phrases = Field(default=[])
    one_in: Phrases = Field(default=[])
    ratio: Phrases = Field(default=[])
    of_growth: Phrases = Field(default=[])
    each: Phrases = Field(default=[])
    again: Phrases = Field(default=[])
    articles: Phrases = Field(default=[])
    named: Phrases = Field(default=[])
    kinds_of: Phrases = Field(default=[])
    filling: Phrases = Field(default=[])
    leading: Phrases = Field(default=[])
    one_at: Phrases = Field(default=[])
    of_them: Phrases = Field(default=[])
    before_one: Phrases = Field(default=[])
    cut_into: Phrases = Field(default=[])
    point: Phrases = Field(default=[])
    nought: Phrases = Field(default=[])
    since: Phrases = Field(default=[])
    past: Phrases = Field(default=[])
    after_in: Phrases = Field(default=[])
    after_short: Phrases = Field(default=[])
    before_rate: Phrases = Field(default=[])
    before_asked: Phrases = Field(default=[])
    percent: Phrases = Field(default=[])
    after_unit: Phrases = Field(default=[])
    unit_asked: Phrases = Field(default=[])
    never_apart: Phrases = Field(default=[])
    spans: Phrases = Field(default=[])
    feet: Phrases = Field(default=[])
    mil: Phrases = Field(default=[])
    gauges: Phrases = Field(default=[])
    gauge_kinds: Phrases = Field(default=[])
    before_gauge: Phrases = Field(default=[])
    unitless: Phrases = Field(default=[])
    glued: Phrases = Field(default=[])
    numbered: Phrases = Field(default=[])
    no_number: Phrases = Field(default=[])
    day_leads: Phrases = Field(default=[])
    middle: Phrases = Field(default=[])
    in_month: Phrases = Field(default=[])
    month_leads: Phrases = Field(default=[])
    year_leads: Phrases = Field(default=[])
    two_edged: Phrases = Field(default=[])
    single_days: Phrases = Field(default=[])
    year_counts: Phrases = Field(default=[])
    no_date_before: Phrases = Field(default=[])
    no_date: Phrases = Field(default=[])
    nights: Phrases = Field(default=[])
    of_the_sun: Phrases = Field(default=[])
    extremes: Phrases = Field(default=[])
    supposing: Phrases = Field(default=[])
    meant_ahead: Phrases = Field(default=[])
    meant_back: Phrases = Field(default=[])
    meaning: Phrases = Field(default=[])
    rates_only: Phrases = Field(default=[])
    times: dict[str, Size] = Field(default={})
    parts_of: dict[str, Size] = Field(default={})
    same_as: dict[str, str] = Field(default={})
    also: dict[str, str] = Field(default={})


class AskingPhrases(Shape):
    says: Phrases


class FigureQuestionsFile(Shape):
    asking: AskingPhrases
    unit: dict[str, FigureUnit]
    small: SmallShape
    counted: dict[str, Phrases]
    told_in: dict[str, dict[str, Size]]
    rate: dict[Tag, Phrases]
    named_day: dict[str, MonthDay]


class AskingWords(Shape):
    words: Phrases
    inverted: Phrases
    joining: Phrases = Field(default=[])
    tellers: Phrases = Field(default=[])
    ordering: Phrases = Field(default=[])
    objects: Phrases = Field(default=[])
    finite: Phrases = Field(default=[])
    subjects: Phrases
    parts: Phrases
    named: Phrases
    headings: Phrases = Field(default=[])


class FigureOpenings(Shape):
    asks: Phrases
    bare: str | None = None
    beside: list[str] = Field(default=[])
    degree: str | None = None
    alone: bool = False


class FiguresFile(Shape):
    asking: AskingWords


#: Each file's shape without its figures, and that of each figure in it.
SHAPES: dict[str, tuple[type[Shape], type[Shape]]] = {
    "words/figures.toml": (FiguresFile, FigureOpenings),
    "words/figure_questions.toml": (FigureQuestionsFile, FigureShape),
}
