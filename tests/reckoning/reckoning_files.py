"""Cases and rules' tables of the figures, read from their files."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from benchmate.reckoning import gather

CASES = Path(__file__).parent / "cases"
RULES = Path(__file__).parents[2] / "rules"


def cases(kind: str) -> Iterator[tuple[str, dict[str, Any], dict[str, Any]]]:
    """Every case of a kind: its file's name, the case, the file's other tables."""
    for path in sorted(CASES.glob("*.toml")):
        parsed = tomllib.loads(path.read_text(encoding="utf-8"))
        for case in parsed.get(kind, ()):
            yield path.name, case, parsed


def rules_tables() -> dict[str, Any]:
    """The rows of rules/figures and the listed sources, by kind."""
    files = [*sorted((RULES / "figures").glob("*.toml")), RULES / "sources.toml"]
    return gather(tomllib.loads(path.read_text(encoding="utf-8")) for path in files)
