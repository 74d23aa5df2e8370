"""The shape of works, questions, the glossary and the word files that have tables of their own."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from benchmate.rulebase.model_rules import CapShape, CautionShape, Provenance, RuleShape, Sentence, Shape, Share


class ToldShape(Shape):
    do: str
    done: str
    own_parts: list[str] = Field(default=[])


class SickShape(Shape):
    manner: str
    findings: list[str]
    whole: str | None = None
    pronouns: list[str] = Field(default=[])
    bare: str | None = None
    leaves: list[str] = Field(default=[])
    them: bool = False


class WorkShape(Shape):
    group: Literal["cutting", "shaping", "roots", "care", "none"]
    takes: Literal["foliage", "root", "none"]
    share: Share | None = None
    heavy: bool = False
    heavy_when: list[str] = Field(default=[])
    leaves: list[str] = Field(default=[])
    says: list[str]
    nouns: list[str] = Field(default=[])
    part_named: list[str] = Field(default=[])
    remind: Any = None
    told: ToldShape | None = None
    lessens: str | None = None
    manners: dict[str, str] = Field(default={})
    ways: dict[str, str] = Field(default={})
    where: dict[str, str] = Field(default={})
    stages: bool = False
    beside: dict[str, str] = Field(default={})
    sick: SickShape | None = None
    old: SickShape | None = None


class WorksFile(Shape):
    work: dict[str, WorkShape]


class QuestionsFile(Shape):
    ask: dict[str, dict[str, str | list[str]]]


class TermShape(Shape):
    names: list[str] = Field(default=[])
    says: Sentence


class GlossaryFile(Shape):
    term: dict[str, TermShape]


class TraitWords(Shape):
    says: list[str]


class TraitsFile(Shape):
    trait: dict[str, dict[str, TraitWords]]


class AskedTrait(Shape):
    name: str
    says: dict[str, str]
    lacking: Sentence


class AskedOfKind(Shape):
    about: str
    lacking: str
    of_works: list[str]
    asks: list[str]
    rules: list[str]
    cautions: list[str] = Field(default=[])
    frost_dates: list[str] = Field(default=[])
    trait: list[AskedTrait]


class ZoneShape(Provenance):
    coldest_c: float
    step_c: float
    says: Sentence


class KindQuestionsFile(Shape):
    asked: dict[str, AskedOfKind]
    zone: ZoneShape
    # classes of words, by their name
    class_: dict[str, list[str]] = Field(alias="class")


class StateShape(Shape):
    says: list[str]
    alone: str | None = None
    on: str | None = None
    of: dict[str, str] = Field(default={})
    some: str | None = None
    event: str | None = None
    place: bool = False
    ends: bool = False
    denies: bool = False
    not_yet: bool = False


class StatesFile(Shape):
    state: dict[str, StateShape]


class PracticeFile(Shape):
    rule: list[RuleShape] = Field(default=[])


class BudgetFile(PracticeFile):
    cap: list[CapShape]
    root_cap: list[CapShape]
    unknown: dict[str, Any]
    over: dict[str, Any]
    serious: dict[str, Any]
    apart: dict[str, Any]
    of_part: dict[str, Any]
    light: dict[str, Any]
    free: dict[str, Any]


class Phenology(Shape):
    stages: list[str]
    most_days: Annotated[int, Field(ge=0)]


class PlacesFile(Shape):
    local: list[str]
    whole_tree_works: list[str]
    needs_object: list[str]
    finding_part: dict[str, str]
    beside: dict[str, list[str]]
    work_part: dict[str, str]
    holds: dict[str, list[str]]
    kinds_of: dict[str, list[str]]
    ends: dict[str, list[str]]
    leaves_behind: dict[str, str]
    ageing: dict[str, Annotated[int, Field(ge=0)]]
    measured: dict[str, str]
    phenology: Phenology
    young_record: dict[str, list[str]]
    origin: dict[str, list[str]]


class CautionsFile(Shape):
    caution: dict[str, CautionShape]
