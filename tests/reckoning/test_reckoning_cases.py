"""Each case of cases/*.toml: sums against their sources, figures as the bench asks them, input that must be refused."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from importlib import import_module
from typing import Any, TypeVar

import pytest
from reckoning_files import cases

from benchmate.reckoning import FIGURES, Figure, FigureError, answer

Test = TypeVar("Test", bound=Callable[..., None])


def of_kind(kind: str) -> Callable[[Test], Test]:
    def mark(function: Test) -> Test:
        function.kind_of_case = kind  # type: ignore[attr-defined]
        return function

    return mark


def sum_of(name: str) -> Any:
    module, function = name.split(".")
    return getattr(import_module(f"benchmate.reckoning.{module}"), function)


def argument(value: Any, parsed: dict[str, Any], tables: dict[str, Any]) -> Any:
    """A case's argument: `$data.path` of its file, `#id` of a list of the rules, `@module.function`, or itself."""
    if isinstance(value, str) and value[:1] in "$#@" and len(value) > 1:
        if value[0] == "@":
            return sum_of(value[1:])
        if value[0] == "#":
            rows = next(row["values"] for row in tables["list"] if row["id"] == value[1:])
            return tuple(tuple(row) for row in rows)
        table, key = value[1:].split(".")
        return parsed["data"][table][key]
    return value


def apart(got: Any, expected: Any) -> float:
    """How far two values lie apart: in their unit, or in days."""
    if isinstance(expected, list):
        assert len(got) == len(expected)
        return max(apart(one, other) for one, other in zip(got, expected, strict=True))
    if isinstance(expected, dt.date):
        return abs((dt.date.fromisoformat(got) - expected).days)
    return float(abs(got - expected))


@of_kind("case")
def test_sum(case_file: Any, tables: dict[str, Any]) -> None:
    file, case, parsed = case_file
    got = sum_of(case["sum"])(**{name: argument(value, parsed, tables) for name, value in case["with"].items()})
    got = getattr(got, case["of"]) if "of" in case else got
    where = f"{file} {case['id']}"
    assert apart(got, case["gives"]) <= case["within"] + 1e-12, f"{where}: {case['gives']} expected, got {got}"


@of_kind("ask")
def test_ask(case_file: Any, tables: dict[str, Any]) -> None:
    file, case, parsed = case_file
    known = dict(parsed["place"] if case.get("place") else {}) | case.get("known", {})
    known |= {name: None for name in case.get("none", ())}
    figure = answer(case["figure"], known, tables)
    where = f"{file} {case['id']}: {figure.how}"
    assert (figure.value is None) == case.get("empty", False), where
    for key in ("value", "low", "high"):
        if key in case:
            assert apart(getattr(figure, key), case[key]) <= case["within"], f"{where}: {key} {getattr(figure, key)}"
    beside = {more.name: more.value for more in figure.beside}
    for name, expected in case.get("beside", {}).items():
        near = case["within"] if isinstance(expected, dt.date) else 5e-3 * abs(expected)
        assert apart(beside[name], expected) <= near, f"{where}: {name} {beside[name]}"
    told = " ".join((figure.opens, figure.how, *figure.notes))
    for words in case.get("says", ()):
        assert words in told, f"{where}: {words!r} is not in {told!r}"
    sound(figure)


def sound(figure: Figure) -> None:
    """What every figure must be: known, with a unit, a source, a mark, limits, and a range that holds its value."""
    assert figure.figure in FIGURES
    assert figure.mark in ("published", "practice", "memory")
    assert figure.unit and figure.how and figure.source and figure.limits
    assert "\n" not in figure.how + "".join(figure.notes)
    if isinstance(figure.value, float):
        assert isinstance(figure.low, float) and isinstance(figure.high, float)
        assert figure.low <= figure.value <= figure.high
    if isinstance(figure.value, str):
        dt.date.fromisoformat(figure.value)


@of_kind("refused")
def test_refused(case_file: Any, tables: dict[str, Any]) -> None:
    file, case, _ = case_file
    with pytest.raises(FigureError) as caught:
        if "sum" in case:
            sum_of(case["sum"])(**case["with"])
        else:
            answer(case["figure"], case["known"], tables)
    told = str(caught.value)
    assert case["says"] in told, f"{file} {case['id']}: {told}"
    assert "\n" not in told and len(told) < 400


def test_every_figure_has_a_case() -> None:
    seen = {case["figure"] for _, case, _ in cases("ask")}
    assert set(FIGURES) == seen, f"no case asks for {set(FIGURES) - seen}"


def test_case_ids_are_unique_and_every_case_names_its_source() -> None:
    found = [case for kind in ("case", "ask") for _, case, _ in cases(kind)]
    ids = [case["id"] for case in found]
    assert len(ids) == len(set(ids))
    for case in found:
        assert case["source"] and case["mark"] in ("published", "practice", "memory", "computed"), case["id"]
