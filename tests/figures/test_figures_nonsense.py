"""Measures that cannot be: one plain line, exit status 1, nothing logged."""

import pytest
from asked import make_garden, read_cases

from benchmate.cli import main

CASES = read_cases("questions.toml")
NONSENSE = read_cases("nonsense.toml")["nonsense"]


@pytest.fixture(scope="module")
def garden(tmp_path_factory):
    return make_garden(tmp_path_factory.mktemp("nonsense") / "garden", CASES, trees=True)


def files(folder):
    return {path: path.read_bytes() for path in folder.rglob("*.toml") if ".benchmate" not in path.parts}


@pytest.mark.parametrize("case", NONSENSE, ids=lambda case: case["id"])
def test_nonsense_is_refused(case, garden, capsys):
    before = files(garden)
    status = main(["say", case["said"], "--json", "--garden", str(garden), "--tree", "Quoin", "--on", "2026-06-14"])
    told = capsys.readouterr()
    assert status == 1, told.out
    assert told.out == ""
    assert len(told.err.splitlines()) == 1 and case["says"] in told.err, told.err
    assert files(garden) == before
