"""The figures' tables in the rules, and the table of what each figure needs."""

from __future__ import annotations

import ast
import doctest
import inspect
import math
import tomllib
from importlib import import_module
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from reckoning_files import RULES

import benchmate.reckoning as reckoning
from benchmate.reckoning import FIGURES, Band, bind
from benchmate.reckoning.section import gpa_from_mpsi, mpa_from_psi
from benchmate.reckoning.wood import Wood, wood_for

ROOM = Path(reckoning.__file__).parent
MODULES = sorted(path.stem for path in ROOM.glob("*.py") if path.stem != "__init__")
VOCABULARY = {
    "wire-diameter",
    "wire-length",
    "bend-limit",
    "guy-pull",
    "bite-date",
    "leaf-share",
    "taper",
    "union-ratio",
    "pipe-sum",
    "day-length",
    "degree-days",
    "frost-margin",
    "regrowth-date",
    "feed-dose",
    "water-need",
    "days-to-dry",
    "pot-size",
    "pot-volume",
    "growth-forecast",
    "dilution",
    "wound-close",
}


def test_the_table_holds_the_figures_of_the_vocabulary() -> None:
    assert set(FIGURES) == VOCABULARY


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_needs_are_the_arguments_of_the_function(name: str) -> None:
    """Every need is an argument, every argument a need; what the function must have is required or has a default."""
    spec = FIGURES[name]
    module = import_module(spec.work_out.__module__)
    arguments = inspect.signature(getattr(module, spec.work_out.__name__)).parameters
    needs = {need.name: need for need in spec.needs}
    assert len(needs) == len(spec.needs)
    # Which day is the margin's business and the grower's standing risk are set by callers, not asked.
    assert set(needs) == set(arguments), set(needs) ^ set(arguments)
    for argument in arguments.values():
        need = needs[argument.name]
        if argument.default is inspect.Parameter.empty:
            assert need.required or need.default is not None or need.rules, f"{name}.{argument.name} may lack"
        if need.required and not need.rules:
            assert need.question, f"{name}.{need.name} is required and has no question"


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_with_nothing_known_it_asks_for_what_the_grower_must_say(name: str, tables: dict[str, Any]) -> None:
    bound = bind(FIGURES[name], {}, tables)
    assert bound.lacks, f"{name} needs nothing"
    assert all(need.question.endswith("?") for need in bound.lacks), [need.name for need in bound.lacks]
    for need in FIGURES[name].needs:
        if need.rules and need.required and not need.by:
            assert need.name in bound.values, f"rules/figures has no {need.rules}"


def test_a_number_said_becomes_a_band_without_spread(tables: dict[str, Any]) -> None:
    bound = bind(FIGURES["feed-dose"], {"label": (20, 20, 20), "ppm": 80.0}, tables)
    assert bound.values["ppm"] == Band(80.0, 80.0, 80.0, "ppm")
    assert "ppm" not in bound.assumed and "volume_l" in bound.assumed


def test_the_nearest_key_wins(tables: dict[str, Any]) -> None:
    spec = FIGURES["degree-days"]
    for species, base in (("Picea glauca", 1.0), ("Picea abies", 5.0), ("Acer saccharum", 10.0), (None, 5.0)):
        assert bind(spec, {"species": species}, tables).values["base_c"].value == base


def test_unknown_is_not_known_but_no_frost_is(tables: dict[str, Any]) -> None:
    lacks = bind(FIGURES["day-length"], {"latitude_deg": None}, tables).lacks
    assert [need.name for need in lacks] == ["latitude_deg", "on"]
    assert "first_frost" in bind(FIGURES["frost-margin"], {"first_frost": None}, tables).values


def figure_rows() -> list[tuple[str, str, dict[str, Any]]]:
    return [
        (path.name, kind, row)
        for path in sorted((RULES / "figures").glob("*.toml"))
        for kind, rows in tomllib.loads(path.read_text(encoding="utf-8")).items()
        for row in rows
    ]


def test_each_row_says_what_it_rests_on(tables: dict[str, Any]) -> None:
    listed = {source["id"] for source in tables["source"]}
    for file, kind, row in figure_rows():
        where = f"{file} {kind} {row.get('id', row.get('name', row.get('key')))}"
        assert row["mark"] in ("published", "practice", "memory"), where
        assert "source" not in row or row["source"] in listed, f"{where}: {row.get('source')} is not a listed source"
        assert row["mark"] != "published" or row.get("source"), f"{where}: published by nobody"
        if kind in ("band", "step"):
            assert row.get("low", row["value"]) <= row["value"] <= row.get("high", row["value"]), where


def test_each_band_list_and_step_is_used_by_a_figure() -> None:
    used = {need.rules for spec in FIGURES.values() for need in spec.needs if need.rules}
    ids = {row.get("id", kind) for _, kind, row in figure_rows()}
    assert ids == used


def test_steps_meet_without_gap() -> None:
    steps: dict[str, list[dict[str, Any]]] = {}
    for _, kind, row in figure_rows():
        if kind == "step":
            steps.setdefault(row["id"], []).append(row)
    for id, rows in steps.items():
        for below, above in pairwise(rows):
            assert below["high"] == above["low"], id


def of_rows(function: Any) -> Any:
    function.kind_of_case = "row"
    return function


@of_rows
def test_wood_row_is_the_handbooks(case_file: Any, tables: dict[str, Any]) -> None:
    """The metric row in the rules, and the inch-pound one converted, agree to the table's own rounding."""
    _, row, _ = case_file
    listed = [
        Wood(**{key: value for key, value in wood.items() if key in Wood.__dataclass_fields__})
        for wood in tables["wood"]
    ]
    wood = next(
        wood
        for wood in listed
        if wood.species == row["species"] and math.isclose(wood.specific_gravity, row["specific_gravity"])
    )
    assert wood.mark == "published"
    assert (wood.mor_mpa, wood.moe_gpa) == (row["mor_mpa"], row["moe_gpa"])
    assert abs(mpa_from_psi(row["mor_psi"]) - wood.mor_mpa) <= 0.75
    assert abs(gpa_from_mpsi(row["moe_mpsi"]) - wood.moe_gpa) <= 0.06


def test_only_rows_that_were_read_are_called_published(tables: dict[str, Any]) -> None:
    from reckoning_files import cases

    read = {row["species"] for _, row, _ in cases("row")}
    assert {wood["species"] for wood in tables["wood"] if wood["mark"] == "published"} == read


def test_wood_of_a_genus_is_its_middle_row() -> None:
    rows = [Wood("a", "Ulmus a", 0.5, 50, 8.0), Wood("b", "Ulmus b", 0.5, 60, 8.0), Wood("c", "Ulmus c", 0.5, 80, 8.0)]
    assert wood_for("Ulmus", rows).name == "b" and not wood_for("Ulmus", rows).borrowed
    assert wood_for("Ulmus d", rows).borrowed and wood_for("Ulmus c", rows).name == "c"
    assert wood_for(None, rows).borrowed and wood_for("Olea", rows).mark == "practice"


@pytest.mark.parametrize("module", MODULES)
def test_examples_in_docstrings_run(module: str) -> None:
    assert doctest.testmod(import_module(f"benchmate.reckoning.{module}")).failed == 0


@pytest.mark.parametrize("module", MODULES)
def test_no_import_beyond_the_room_and_the_standard_library(module: str) -> None:
    allowed = {"__future__", "collections", "csv", "dataclasses", "datetime", "importlib", "io", "math", "typing"}
    for node in ast.walk(ast.parse((ROOM / f"{module}.py").read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            assert {name.name.split(".")[0] for name in node.names} <= allowed
        if isinstance(node, ast.ImportFrom) and node.level == 0:
            assert str(node.module).split(".")[0] in allowed


@pytest.mark.parametrize("module", [name for name in MODULES if name not in ("ask", "table", "figure", "bounds")])
def test_public_sums_say_their_units(module: str) -> None:
    """Each public function has a docstring, and a number it takes or gives is named with its unit or told there."""
    held = import_module(f"benchmate.reckoning.{module}")
    for name, function in inspect.getmembers(held, inspect.isfunction):
        if function.__module__ == held.__name__ and not name.startswith("_"):
            assert function.__doc__ and len(function.__doc__) > 30, f"{module}.{name}"
