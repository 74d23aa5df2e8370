"""What stays open of a tree's entries, as in cases/follow.toml."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest
from entries import ROUNDS, any_entry
from hypothesis import given, settings
from hypothesis import strategies as st

from benchmate.garden.follow import follow_ups
from benchmate.garden.journal import standing
from benchmate.garden.record import Entry
from benchmate.garden.shapes import entry_of

CASES = tomllib.loads((Path(__file__).parent / "cases/follow.toml").read_text(encoding="utf-8"))


def entry_from(table: dict[str, Any], number: int) -> Entry:
    entry, slips = entry_of({"id": f"entry-{number}"} | table, str)
    assert entry and not slips
    return entry


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_follow_ups(case: dict[str, Any]) -> None:
    entries = [entry_from(table, number) for number, table in enumerate(case["entry"])]
    found = follow_ups(entries, case.get("southern", False))
    told = [" ".join(str(word or "-") for word in (item.work, item.part, item.on, item.until)) for item in found]
    assert told == case["open"]
    assert len({item.uid for item in found}) == len(found)


def test_what_a_follow_up_says_is_kept() -> None:
    told = {"weather": "frost-free", "slips": "The wire scars the bark.", "rule": "wire-bites", "says": "Look."}
    table = {"work": "check", "part": "wire", "on": dt.date(2026, 7, 5)} | told
    (item,) = follow_ups([Entry("a", dt.date(2026, 6, 14), "done", "wired it", follow=(table,))])
    assert {key: getattr(item, key) for key in told} == told
    assert item.as_json()["slips"] == told["slips"]
    assert item.uid == "a-0"


def test_strikes_in_a_ring_or_of_themselves_end() -> None:
    day = dt.date(2026, 6, 14)
    ring = [Entry("a", day, "struck", strikes="b"), Entry("b", day, "struck", strikes="a")]
    ring += [Entry("c", day, "struck", strikes="c"), Entry("d", day, "note"), Entry("e", day, "struck", strikes="none")]
    assert [entry.id for entry in standing(ring)] == ["d"]


def test_a_long_chain_of_strikes() -> None:
    day, count = dt.date(2026, 6, 14), 5000
    chain = [Entry("0", day, "note"), *(Entry(str(n), day, "struck", strikes=str(n - 1)) for n in range(1, count + 1))]
    assert bool(standing(chain)) == (count % 2 == 0)
    assert bool(standing(reversed(chain))) == (count % 2 == 0)


@settings(max_examples=25 * ROUNDS, deadline=None)
@given(st.lists(any_entry(), max_size=5), st.booleans())
def test_no_entry_breaks_them(entries: list[Entry], southern: bool) -> None:
    for item in follow_ups(entries, southern):
        assert item.entry in {entry.id for entry in entries}
