"""The season tables, the places and the kinds of tree that the cases name."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.garden.record import Place
from benchmate.seasons import month_day

HERE = Path(__file__).parent
RULES = HERE.parents[1] / "rules"


def read(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


def cases(name: str) -> list[Any]:
    """The cases of a file as test parameters, under their ids."""
    found = read(HERE / "cases" / f"{name}.toml")["case"]
    ids = [case["id"] for case in found]
    assert len(ids) == len(set(ids)), f"{name}.toml gives an id twice"
    return [pytest.param(case, id=case["id"]) for case in found]


def season_tables() -> dict[str, Any]:
    return {path.stem: read(path) for path in sorted((RULES / "seasons").glob("*.toml"))}


def place_of(cell: dict[str, Any]) -> Place:
    last, first = (month_day(cell[key]) if key in cell else None for key in ("last_frost", "first_frost"))
    return Place(latitude=cell.get("latitude"), last_frost=last, first_frost=first)


TABLES = season_tables()
PLACES = {name: place_of(cell) for name, cell in read(HERE / "cases" / "places.toml").items()}
KINDS = read(HERE / "cases" / "kinds.toml")
