"""`rules check` names what is wrong with the words: a bad file for each fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmate.hearing.vocabulary.check import check_words
from benchmate.rulebase import read_tables
from benchmate.rulebase.where import RuleFolders, find_rules

CASES = [
    ("words/places.toml", '[PART]\nleaf = ["blade"]\nneedle = ["blade"]\n', "'blade' already means leaf"),
    ("words/findings.toml", '[FINDING]\nscale = ["crust"]\ngalls = ["crust", "lump"]\n', "'crust' already means scale"),
    ("words/little.toml", '[NOUN]\nthing = ["thing"]\n', "no sentence of the grammar takes such words"),
    (
        "works/cutting.toml",
        '[work.remove]\nsays = ["cut off: wire"]\n[work.unwire]\nsays = ["cut off: guy, wire"]\n',
        "already means remove",
    ),
    (
        "words/states.toml",
        '[state.dry]\nsays = ["gone"]\nalone = "finding:dry"\n'
        '[state.bare]\nsays = ["gone"]\nalone = "stage:leafless"\n',
        "'gone' already means dry",
    ),
]


@pytest.mark.parametrize(("name", "text", "problem"), CASES, ids=[case[2] for case in CASES])
def test_a_fault_is_named_with_its_place(tmp_path: Path, name: str, text: str, problem: str) -> None:
    path = tmp_path / name
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    faults = check_words(read_tables(RuleFolders(tmp_path)))
    assert [fault.problem for fault in faults if problem in fault.problem], faults
    assert all(fault.path.endswith(name) and fault.line and fault.remedy for fault in faults)


def test_the_words_that_ship_have_no_fault() -> None:
    assert check_words(read_tables(find_rules())) == []
