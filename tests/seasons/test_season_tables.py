"""The season tables stand without a fault, and each kind of fault in them is told."""

from __future__ import annotations

import copy
import doctest
from collections.abc import Callable
from typing import Any

import pytest
from season_files import RULES, TABLES, read

from benchmate.seasons import season_faults, year

SOURCES = read(RULES / "sources.toml")["source"]
Spoil = Callable[[dict[str, Any]], object]

SPOILT: dict[str, tuple[Spoil, str, str, str]] = {
    "implied-stage": (
        lambda t: t["stages"]["stage"]["hardened"].update(implies=["leaves-ful"]),
        "seasons/stages.toml", "'implies' names 'leaves-ful', which is no stage", "did you mean 'leaves-full'?",
    ),
    "stage-without-list": (
        lambda t: t["stages"]["stage"]["hardened"].pop("allows"),
        "seasons/stages.toml", "'allows' is missing", "write allows = [] where there are none",
    ),
    "step-stage": (
        lambda t: t["clocks"]["clock"][0]["steps"][0].update(stage="extendng"),
        "seasons/clocks.toml", "a step names 'extendng', which is no stage", "did you mean 'extending'?",
    ),
    "step-anchor": (
        lambda t: t["clocks"]["clock"][0]["steps"][0].update(autumn=3),
        "seasons/clocks.toml", "the days count from neither or both of spring and autumn",
        "give whole days from one of them, as in spring = -45",
    ),
    "clock-without-steps": (
        lambda t: t["clocks"]["clock"][0].pop("steps"),
        "seasons/clocks.toml", "'steps' is missing", "a clock has id, about, fits and steps",
    ),
    "leafing-days": (
        lambda t: t["clocks"]["leafing"]["late"].update(days="nine"),
        "seasons/clocks.toml", "'days' is not a whole number", "give the days by which its spring shifts",
    ),
    "window-anchor": (
        lambda t: t["windows"]["window"]["autumn"].pop("opens"),
        "seasons/windows.toml", "the days count from neither or both of spring and autumn",
        "give whole days from one of them, as in spring = -45",
    ),
    "month-day": (
        lambda t: t["frost"]["mild"].update(last_frost="15 March"),
        "seasons/frost.toml", "'last_frost' is no month-day", 'write it as in "03-15"',
    ),
    "no-provenance": (
        lambda t: t["frost"]["ripening"].pop("mark"),
        "seasons/frost.toml", "it has no provenance", 'give source = "...", mark = "practice" or mark = "memory"',
    ),
    "source": (
        lambda t: t["clocks"]["leafing"]["late"].update(source="klein-2061"),
        "seasons/clocks.toml", "'klein-2061' is no source", "did you mean 'klein-2016'?",
    ),
    "no-stages": (
        lambda t: t.update(stages={}),
        "seasons/stages.toml", "no stage is told", "give each stage a table [stage.NAME]",
    ),
}  # fmt: skip


def test_the_tables_are_sound() -> None:
    assert season_faults(TABLES, SOURCES) == []


@pytest.mark.parametrize("name", SPOILT)
def test_a_spoilt_table_is_told(name: str) -> None:
    spoil, path, problem, remedy = SPOILT[name]
    tables = copy.deepcopy(TABLES)
    spoil(tables)
    assert (path, problem, remedy) in {(f.path, f.problem, f.remedy) for f in season_faults(tables, SOURCES)}


def test_every_stage_of_the_vocabulary_has_codes() -> None:
    codes = {name: cell["codes"] for name, cell in TABLES["stages"]["stage"].items()}
    assert all(len(code) == 2 and code.isdigit() for found in codes.values() for code in found)
    assert set(codes) == {
        "dormant", "buds-swelling", "bud-break", "leafing-out", "leaves-full", "extending", "candles", "hardened",
        "growth-stopped", "flowering", "after-flowering", "colouring", "leaf-fall", "leafless",
    }  # fmt: skip


def test_every_clock_and_every_bloom_serves_some_taxon() -> None:
    """A clock that no taxon follows, or a time of bloom that none has, is dead weight."""
    from test_season_windows import SPECIES, _traits

    from benchmate.seasons.course import clock_for

    traits = [_traits(path) for path in SPECIES]
    followed = {clock["id"] for found in traits if (clock := clock_for(found, TABLES))}
    assert followed == {clock["id"] for clock in TABLES["clocks"]["clock"]}
    assert {found["bloom"] for found in traits if "bloom" in found} == set(TABLES["windows"]["bloom"])
    assert {found["leafing"] for found in traits if "leafing" in found} == set(TABLES["clocks"]["leafing"])
    assert all(clock_for(found, TABLES) for found in traits)


def test_the_examples_in_the_docstrings_hold() -> None:
    assert doctest.testmod(year).failed == 0
