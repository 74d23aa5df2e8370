"""CSV from elsewhere, its columns told in plain words, as in cases/foreign.toml."""

from __future__ import annotations

import io
import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.fault import UserError
from benchmate.garden.foreign import import_foreign
from benchmate.garden.record import Tree
from benchmate.garden.store import Garden

CASES = tomllib.loads((Path(__file__).parent / "cases/foreign.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_foreign(garden: Garden, tree: Tree, case: dict[str, Any]) -> None:
    def take() -> Any:
        return import_foreign(garden, io.StringIO(case["csv"], newline=""), case["words"], name="in.csv")

    if "says" in case:
        with pytest.raises(UserError) as caught:
            take()
        assert str(caught.value).startswith(case["says"])
        return
    taken = take()
    told = [
        " ".join([str(entry.day), entry.kind, entry.said, *(table["work"] for table in entry.work)])
        for entry in garden.entries(tree)
    ]
    assert told == case["entries"]
    assert len(taken.faults) == len(case.get("faults", ()))
    for fault, wanted in zip(taken.faults, case.get("faults", ()), strict=True):
        assert str(fault).startswith(wanted)
    assert (taken.added, take().added) == (len(told), 0)
