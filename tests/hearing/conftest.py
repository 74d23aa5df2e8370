"""One ear over the rules of this checkout, for all tests of hearing."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.hearing import Ear, build_lexicon, grammar_data

RULES = Path(__file__).parents[2] / "rules"


def rule_tables() -> dict[str, Any]:
    """Every rule file, parsed, by its path relative to the rules folder."""
    return {
        path.relative_to(RULES).as_posix(): tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted(RULES.rglob("*.toml"))
    }


@pytest.fixture(scope="session")
def tables() -> dict[str, Any]:
    return rule_tables()


@pytest.fixture(scope="session")
def ear(tables: dict[str, Any]) -> Ear:
    return Ear(build_lexicon(tables), grammar_data())
