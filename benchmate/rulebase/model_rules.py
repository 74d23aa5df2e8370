"""The shape of practice rules, caps and cautions as files have them. Imported only when rules are checked: pydantic
is slow
to load."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

MANNERS = ("hard", "bare-wood", "all", "stub", "flush-cut", "fork", "tight", "light")


class Shape(BaseModel):
    """A table whose keys are all known. Numbers are not taken from text, nor the other way round."""

    model_config = ConfigDict(extra="forbid", strict=True)


class Provenance(Shape):
    """What a value rests on: a source of sources.toml, or the mark of a fact of the trade or of memory."""

    mark: Literal["published", "practice", "memory"] | None = None
    source: str | None = None
    where: str | None = None

    @model_validator(mode="after")
    def _one_of_them(self) -> Provenance:
        if self.source is None and self.mark is None:
            raise ValueError("no provenance: give `source`, or `mark` as practice or memory")
        if self.mark == "published" and self.source is None:
            raise ValueError("published, but by no `source`")
        if self.source is not None and self.mark in ("practice", "memory"):
            raise ValueError(f"a `source` and the mark '{self.mark}' at once; leave one out")
        if self.where is not None and self.source is None:
            raise ValueError("`where` says a place in a source, and there is no `source`")
        return self


def _kebab(id: str) -> str:
    if not re.fullmatch(r"[a-z]+(-[a-z]+)*", id):
        raise ValueError(f"'{id}' must be lower-case words joined by hyphens, without numbers")
    return id


def _month_day(value: str) -> str:
    found = re.fullmatch(r"(\d\d)-(\d\d)", value)
    if not found or not 1 <= int(found[1]) <= 12 or not 1 <= int(found[2]) <= 31:
        raise ValueError(f"'{value}' must be a month and a day, as 04-25")
    return value


def _sentence(value: str) -> str:
    if not value.strip() or not value.rstrip().endswith((".", "!", "?")):
        raise ValueError("must be a whole sentence with its full stop")
    return value


Kebab = Annotated[str, AfterValidator(_kebab)]
MonthDay = Annotated[str, AfterValidator(_month_day)]
Sentence = Annotated[str, AfterValidator(_sentence)]
Names = str | list[str]
Share = Annotated[float, Field(ge=0, le=1)]
Days = Annotated[int, Field(ge=0, le=4000)]


class Opens(Shape):
    """What lifts a hold: a stage, days after work, a date, the taxon's own window, or the next season."""

    stage: str | None = None
    after: str | None = None
    days: Days | None = None
    date: MonthDay | None = None
    trait: str | None = None
    season: Literal["next"] | None = None

    @model_validator(mode="after")
    def _one_way(self) -> Opens:
        ways = [self.stage, self.after, self.date, self.trait, self.season]
        if sum(way is not None for way in ways) != 1:
            raise ValueError("give exactly one of stage, after, date, trait, season")
        if (self.after is None) != (self.days is None):
            raise ValueError("`after` names a work and `days` how long after it: both or neither")
        return self


class Closes(Shape):
    frost_days: Days | None = None
    stage: str | None = None
    date: MonthDay | None = None

    @model_validator(mode="after")
    def _one_way(self) -> Closes:
        if sum(way is not None for way in (self.frost_days, self.stage, self.date)) != 1:
            raise ValueError("give exactly one of frost_days, stage, date")
        return self


class FollowUp(Shape):
    """When to come back: after some days, at a stage, or on the next such date, no sooner than `days` from now.
    between: only where the work is done in that part of the year, northern."""

    work: str
    part: str | None = None
    days: Days | None = None
    stage: str | None = None
    date: MonthDay | None = None
    between: Annotated[list[MonthDay], Field(min_length=2, max_length=2)] | None = None
    says: Sentence
    weather: str | None = None

    @model_validator(mode="after")
    def _when(self) -> FollowUp:
        if self.stage is not None and (self.days is not None or self.date is not None):
            raise ValueError("`stage` stands alone; give `days` or `date` without it")
        if self.stage is None and self.days is None and self.date is None:
            raise ValueError("give `days`, `stage` or `date`")
        return self


class Example(Shape):
    """A statement and what the rule must make of it; one of gives, fires and asks."""

    say: str
    gives: Literal["go", "hold", "avoid", "ask"] | None = None
    fires: Literal[False] | None = None
    asks: str | None = None
    on: Any = None
    tree: dict[str, Any] | None = None
    journal: list[dict[str, Any]] | None = None
    place: dict[str, Any] | None = None

    @model_validator(mode="after")
    def _one_claim(self) -> Example:
        if sum(claim is not None for claim in (self.gives, self.fires, self.asks)) != 1:
            raise ValueError("give exactly one of gives, fires, asks")
        return self


class Condition(Provenance):
    """What rules, caps and cautions share: when they hold."""

    when: str | None = None
    limits: dict[str, float | int] = Field(default={})
    within: dict[str, Days | Literal["season"]] = Field(default={})
    not_within: dict[str, Days | Literal["season"]] = Field(default={})
    between: Annotated[list[MonthDay], Field(min_length=2, max_length=2)] | None = None

    @model_validator(mode="after")
    def _limits_end(self) -> Condition:
        for key in self.limits:
            if not key.endswith(("_over", "_under")):
                raise ValueError(f"limit '{key}' must end in _over or _under")
        return self


CutManner = Literal["hard", "bare-wood", "all", "stub", "flush-cut", "fork", "tight", "light"]
Manner = (
    CutManner | Literal["bare-root", "warm-room", "indoors", "old-leaves", "bad-leaves", "in-sun", "midday", "staged"]
)


class RuleShape(Condition):
    id: Kebab
    work: Names
    part: Names | None = None
    manner: Manner | None = None
    verdict: Literal["go", "hold", "avoid"] | None = None
    weight: Annotated[int, Field(ge=-3, le=3)] | None = None
    offers: bool = False
    first: bool = False
    bring: Literal["warm", "frost-free", "cover", "ground"] | None = None
    spot: Literal["finding"] | None = None
    unseen: list[str] = Field(default=[])
    says: Sentence
    amount: dict[str, float | int] = Field(default={})
    opens: Opens | None = None
    closes: Closes | None = None
    follow: list[FollowUp] = Field(default=[])
    cautions: list[str] = Field(default=[])
    beats: list[str] = Field(default=[])
    disputes: list[str] = Field(default=[])
    ask: bool = True
    yours: bool = False
    example: list[Example] = Field(default=[])

    @model_validator(mode="after")
    def _speaks(self) -> RuleShape:
        if self.verdict is None and self.weight is None:
            raise ValueError("give `verdict` or `weight`: a rule must count for something")
        if self.verdict in ("hold", "avoid") and self.weight is not None:
            raise ValueError(f"a rule whose verdict is {self.verdict} has no `weight`: a block outweighs every number")
        if self.opens is not None and self.verdict != "hold":
            raise ValueError("`opens` belongs to a hold: only that is lifted")
        if self.offers and self.verdict in ("hold", "avoid"):
            raise ValueError("a rule that holds back or avoids cannot put its work forward")
        if self.first and not self.offers:
            raise ValueError("`first` puts forward what `offers` alone would not: give both")
        return self


class CapShape(Condition):
    id: Kebab
    share: Share
    says: Sentence
    cautions: list[str] = Field(default=[])
    yours: bool = False


Fitting = Literal[
    "frost_days_over", "frost_days_under", "spring_frost_days_over", "spring_frost_days_under", "pot_l_over"
]


class CautionShape(Condition):
    kind: Literal["tree", "person", "law"]
    work: Names | None = None
    says: Sentence
    short: Sentence
    fits: dict[Fitting, int] = Field(default={})
    told: list[str] = Field(default=[])
    beside: list[str] = Field(default=[])
    across: bool = False
    seen: str | None = None
    eaten: bool = False


class KnownAnswer(Provenance):
    """An answer to a question, for kinds whose traits have these values, or that are of one of these groups or taxa."""

    of: dict[str, list[str]] = Field(default={})
    groups: list[str] = Field(default=[])
    taxa: list[str] = Field(default=[])
    # month-days within which it holds, northern; half a year later in the south
    between: Annotated[list[MonthDay], Field(min_length=2, max_length=2)] | None = None
    says: list[Sentence]


class SinceShape(Shape):
    """From when to when after work that is on record something is looked for, in days, and what that is."""

    work: str
    days: Annotated[list[Days], Field(min_length=2, max_length=2)]
    says: str


class QuestionShape(Shape):
    asked: list[str]
    but: list[str] = Field(default=[])
    since: SinceShape | None = None
    answer: list[KnownAnswer] = Field(default=[])
    lists: str | None = None
    kind: list[str] = Field(default=[])
    heard_as: str | None = None
    amount: str | None = None
    verdict: bool = False
    in_place_of: str | None = None
    of_no_kind: bool = False
    whole_first: bool = False
    before_figures: bool = False
    cautions: list[str] = Field(default=[])
