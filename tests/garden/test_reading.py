"""A journal's text as in cases/reading.toml: what is read of it and what is told."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.garden.journal import read_journal, union

CASES = tomllib.loads((Path(__file__).parent / "cases/reading.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_reading(case: dict[str, Any]) -> None:
    text = case["text"].replace("DEEP", "[" * 5000)
    journal = read_journal(text.encode(), "journal.toml")
    entries, clashes = union([("journal.toml", journal)])
    told = [str(fault).removeprefix("journal.toml:") for fault in (*journal.faults, *clashes)]
    assert [entry.id for entry in entries] == case["ids"]
    assert len(told) == len(case.get("faults", ())), told
    for line, wanted in zip(told, case.get("faults", ()), strict=True):
        place, _, words = wanted.partition(": ") if wanted[0].isdigit() else ("", "", wanted)
        assert line.startswith(f"{place}:" if place else ""), line
        assert words in line, line


def test_letters_that_are_not_utf8_are_told_and_the_entry_counts() -> None:
    one = b'[[entry]]\nid = "%s"\nat = 2026-01-01\nkind = "note"\nsaid = "%s"\n\n'
    journal = read_journal(one % (b"a", b"fine") + one % (b"b", b"\xe9lan") + one % (b"c", b"fine"), "journal.toml")
    assert [entry.said for entry in journal.entries] == ["fine", "\ufffdlan", "fine"]
    assert [(fault.line, fault.problem) for fault in journal.faults] == [
        (11, "letters that are not UTF-8, shown as \ufffd")
    ]
