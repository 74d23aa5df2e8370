"""When a stage or a time for work next opens, for the kinds of the cases and for every taxon of the rules."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from season_files import KINDS, PLACES, RULES, TABLES, cases, read

from benchmate.seasons import first_window, next_stage, next_window

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2090, 12, 31))
NAMES = sorted({*TABLES["stages"]["stage"], *TABLES["windows"]["window"]})


@pytest.mark.parametrize("case", cases("windows"))
def test_window_opens_and_closes(case: dict[str, Any]) -> None:
    window = first_window(case["names"], case["on"], KINDS[case["kind"]], PLACES[case["place"]], TABLES)
    if case.get("always"):
        assert window and window.holds(case["on"]) and window.closes is None
    elif "opens" not in case:
        assert window is None
    else:
        assert window and window.closes
        assert case["opens"][0] <= window.opens <= case["opens"][1]
        assert case["closes"][0] <= window.closes <= case["closes"][1]


@given(st.sampled_from(NAMES), DAYS, st.sampled_from(sorted(KINDS)), st.sampled_from(sorted(PLACES)))
def test_a_window_holds_or_lies_ahead_within_a_year_and_a_half(name: str, on: dt.date, kind: str, place: str) -> None:
    window = next_window(name, on, KINDS[kind], PLACES[place], TABLES)
    day = next_stage(name, on, KINDS[kind], PLACES[place], TABLES)
    assert (window is None) == (day is None)
    if window and day:
        assert window.closes is None or window.opens <= window.closes >= on
        assert on <= day <= on + dt.timedelta(days=548)
        assert window.holds(day)


@given(
    DAYS, st.sampled_from(["maple", "pine", "fig", "satsuki"]), st.sampled_from(["north", "south", "mild", "mountain"])
)
def test_windows_that_touch_are_one(on: dt.date, kind: str, place: str) -> None:
    names = ["buds-swelling", "bud-break", "warm-season", "after-flowering"]
    joined = first_window(names, on, KINDS[kind], PLACES[place], TABLES)
    each = [next_window(name, on, KINDS[kind], PLACES[place], TABLES) for name in names]
    opens = [window.opens for window in each if window]
    assert joined and joined.opens <= min(opens) and joined.closes and joined.closes >= on


def _traits(path: Any) -> dict[str, Any]:
    """A taxon's traits, those of its genus first."""
    genus = RULES / "species" / f"{path.stem.split('-')[0]}.toml"
    out: dict[str, Any] = {}
    for file in (genus, path):
        out |= {name: cell["is"] for name, cell in read(file)["traits"].items()}
    return out


SPECIES = [path for path in sorted((RULES / "species").glob("*.toml")) if path.stem != "groups"]


@pytest.mark.parametrize("path", SPECIES, ids=lambda path: path.stem)
def test_every_taxon_can_be_repotted_some_day_in_either_hemisphere(path: Any) -> None:
    traits = _traits(path)
    assert traits.get("repot"), "neither the taxon nor its genus says when it may be repotted"
    for name in ("north", "south", "mild", "mountain"):
        window = first_window(traits["repot"], dt.date(2026, 7, 15), traits, PLACES[name], TABLES)
        assert window and window.opens <= dt.date(2027, 7, 15), name
        assert set(traits["repot"]) <= set(NAMES)
