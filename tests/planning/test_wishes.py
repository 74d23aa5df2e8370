"""The files of rules/planning: they compile, go through JSON unchanged, and have a fault for each thing wrong."""

from __future__ import annotations

import copy
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from plan_files import house, planning

from benchmate.hearing import hear
from benchmate.planning import compile_plan_book, plan_book_as_plain, plan_book_from_plain, plan_faults
from benchmate.practice.condition import READ_ON

CASES = tomllib.loads((Path(__file__).parent / "cases" / "faults.toml").read_text(encoding="utf-8"))["case"]


def compiled(tables: dict[str, Any]) -> Any:
    lexicon = house().lexicon
    return compile_plan_book(tables, lambda words: hear(words, lexicon, READ_ON))


def test_the_rules_that_ship_have_no_fault() -> None:
    tables = house().tables
    assert plan_faults(tables.tables, tables.place_of) == []
    assert planning().faults == ()
    assert len(planning().wishes) > 30


def test_a_book_through_json_is_the_same() -> None:
    plain = json.loads(json.dumps(plan_book_as_plain(planning())))
    assert plan_book_from_plain(plain) == planning()


def test_wishes_of_a_grower_stand_beside_those_that_ship() -> None:
    mine = {
        "work": "turn-tree",
        "when": "structure phase",
        "windows": ["extending"],
        "aim": "an even crown",
        "says": "A turned tree grows evenly.",
        "worth": 9,
        "mark": "practice",
    }
    tables = {**house().tables.tables, "mine.toml": {"wish": {"turn-it": mine}}}
    book = compiled(tables)
    assert book.wish("turn-it").work == "turn-tree"
    assert len(book.wishes) == len(planning().wishes) + 1
    assert plan_faults(tables) == []


def laid(target: dict[str, Any], change: dict[str, Any]) -> None:
    """Put a change over a table: null takes a key away."""
    for key, value in change.items():
        if isinstance(value, dict) and isinstance(target.get(key), dict):
            laid(target[key], value)
        elif value == "":
            target.pop(key, None)
        else:
            target[key] = value


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_each_fault_is_told(case: dict[str, Any]) -> None:
    tables = copy.deepcopy(dict(house().tables.tables))
    laid(tables.setdefault(case["file"], {}), case["change"])
    found = [*plan_faults(tables), *compiled(tables).faults]
    assert [str(fault) for fault in found if case["says"] in str(fault)], "\n".join(map(str, found))
    assert all(fault.remedy for fault in found)
