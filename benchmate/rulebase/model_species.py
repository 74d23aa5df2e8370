"""The shape of species files, groups and sources."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from benchmate.rulebase.model_rules import Kebab, MonthDay, Names, Provenance, Sentence, Shape

# trait -> the values that its cells may have; None: a number or a list of stages
TRAITS: dict[str, tuple[str, ...] | type] = {
    "leaf": ("deciduous", "semi-evergreen", "evergreen", "needle", "scale", "deciduous-needle", "succulent"),
    "flush": ("single", "lammas", "repeat", "continuous"),
    "leafing": ("early", "middle", "late"),
    "back-budding": ("good", "moderate", "poor", "none"),
    "leaf-removal": ("full", "partial", "none"),
    "bleeding": ("yes", "slight", "no", "latex", "resin", "gum"),
    "dominance": ("strong", "medium", "weak", "basal"),
    "light": ("sun", "bright", "part", "shade"),
    "toxicity": ("none", "mild", "irritant", "toxic", "deadly"),
    "tender": ("no", "part", "yes"),
    "bloom": str,
    "thorns": bool,
    "candles": bool,
    "hardiness-zone": float,
    "root-frost-c": float,
    "repot": list,
    "collect": list,
}


class Cell(Provenance):
    value: Any = Field(alias="is")


class TaxonCaution(Provenance):
    says: Sentence
    work: Names | None = None
    between: Annotated[list[MonthDay], Field(min_length=2, max_length=2)] | None = None


class Hazard(Provenance):
    says: Sentence


class TaxonShape(Shape):
    taxon: Annotated[str, Field(pattern=r"^[A-Z][a-z-]+( [a-z-]+)?$")]
    names: list[str]
    groups: list[str] = Field(default=[])
    family: Cell | None = None
    traits: dict[str, Cell] = Field(default={})
    caution: list[TaxonCaution] = Field(default=[])
    hazard: Hazard | None = None

    @model_validator(mode="after")
    def _cells(self) -> TaxonShape:
        for name, cell in self.traits.items():
            if problem := cell_problem(name, cell.value):
                raise ValueError(problem)
        return self


def cell_problem(name: str, value: Any) -> str | None:
    """What is wrong with a trait's name or value, or None."""
    if name not in TRAITS:
        return f"unknown trait '{name}'"
    allowed = TRAITS[name]
    if isinstance(allowed, tuple):
        return None if value in allowed else f"trait {name} cannot be '{value}'; it is one of {', '.join(allowed)}"
    if allowed is float:
        number = isinstance(value, int | float) and not isinstance(value, bool)
        return None if number else f"trait {name} must be a number"
    return None if isinstance(value, allowed) else f"trait {name} must be a {allowed.__name__}, not '{value}'"


class GroupShape(Provenance):
    says: list[str] = Field(default=[])


class GroupsFile(Shape):
    group: dict[Kebab, GroupShape]


class SourceShape(Shape):
    by: str
    title: str
    year: int | None = None
    kind: Literal["paper", "book", "bulletin", "standard", "law", "label", "software", "web", "news"]
    at: str | None = None
    read: Any = None
    note: str | None = None


class SourcesFile(Shape):
    source: dict[str, SourceShape]
