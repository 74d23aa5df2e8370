"""A small rule base by hand, enough to show every way a rule can bear on advice."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from practice_ear import hear_by_hand

from benchmate.practice.compile import compile_book

HERE = Path(__file__).parent
RULES = Path(__file__).parents[2] / "rules"


def small_tables() -> dict:
    tables = {"practice/few.toml": tomllib.loads((HERE / "few_rules.toml").read_text())}
    kept = ("practice/places.toml", "words/questions.toml")
    for name in (*kept, *(f"seasons/{path.name}" for path in (RULES / "seasons").glob("*.toml"))):
        tables[name] = tomllib.loads((RULES / name).read_text())
    few = tables["practice/few.toml"]
    for taxon in few.pop("species"):
        tables[f"species/{taxon['taxon'].lower().replace(' ', '-')}.toml"] = taxon
    tables["works/few.toml"] = {"work": few.pop("work")}
    tables["cautions/few.toml"] = {"caution": few.pop("caution")}
    tables["practice/budget.toml"] = few.pop("budget")
    return tables


@pytest.fixture(scope="session")
def book():
    made = compile_book(small_tables(), None, hear=hear_by_hand)
    assert made.faults == ()
    return made
