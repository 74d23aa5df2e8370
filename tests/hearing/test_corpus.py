"""Plain statements from many voices, each with the reading it must give; the share read right may only rise."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from scoring import Verdict, judge, told

from benchmate.hearing import Ear

HERE = Path(__file__).parent
FLOORS = tomllib.loads((HERE / "floors.toml").read_text(encoding="utf-8"))
Case = dict[str, Any]


def load_cases() -> dict[str, Case]:
    """Every case by its id: the file's name and the first words said."""
    cases: dict[str, Case] = {}
    for path in sorted((HERE / "corpus").glob("*.toml")):
        for case in tomllib.loads(path.read_text(encoding="utf-8"))["case"]:
            slug = "-".join(re.findall(r"[a-z0-9]+", case["say"].lower()))
            name = f"{path.stem}-{slug}"
            assert name not in cases, f"{path.name}: {case['say']!r} stands twice; drop one"
            cases[name] = case
    return cases


CASES = load_cases()
# Files with floors of their own; all the others are held to the floors at the head of the table together.
OWN: dict[str, dict[str, float]] = FLOORS["file"]
GROUPS = ["together", *OWN]


def cases_of(group: str) -> list[str]:
    """The ids of one file with its own floors, or of all files without."""
    own = {name: next((f for f in OWN if name.startswith(f"{f}-")), "together") for name in CASES}
    return [name for name, file in own.items() if file == group]


@pytest.fixture(scope="module")
def heard(ear: Ear) -> dict[str, tuple[Verdict, dict[str, Any]]]:
    """Each case's verdict and the reading it was passed on."""
    given = {name: ear.hear(case["say"], case["on"]).as_json() for name, case in CASES.items()}
    return {name: (judge(CASES[name], reading), reading) for name, reading in given.items()}


@pytest.mark.parametrize("group", GROUPS)
def test_share_read_exactly_keeps_its_floor(group: str, heard: dict[str, tuple[Verdict, dict[str, Any]]]) -> None:
    names = cases_of(group)
    wrong = {name: heard[name] for name in names if not heard[name][0].exact}
    exact = 1 - len(wrong) / len(names)
    assert exact >= OWN.get(group, FLOORS)["exact_share"], _account(f"exact {exact:.4f}", wrong)


@pytest.mark.parametrize("group", GROUPS)
def test_share_misread_in_silence_keeps_its_ceiling(
    group: str, heard: dict[str, tuple[Verdict, dict[str, Any]]]
) -> None:
    names = cases_of(group)
    wrong = {name: heard[name] for name in names if heard[name][0].silent}
    silent = len(wrong) / len(names)
    assert silent <= OWN.get(group, FLOORS)["silent_share"], _account(f"silent {silent:.4f}", wrong)


@pytest.mark.parametrize("group", GROUPS)
def test_corpus_keeps_its_size(group: str) -> None:
    names, floors = cases_of(group), OWN.get(group, FLOORS)
    missed = sum(bool(CASES[name].get("missed_some")) for name in names)
    assert len(names) >= floors["cases"], f"{len(names)} cases; none may be dropped to raise a share"
    assert missed >= floors.get("cases_missed_some", 0), f"{missed} cases with words from outside the bench"


def _account(head: str, wrong: dict[str, tuple[Verdict, dict[str, Any]]]) -> str:
    """Every misreading: its id, the words, what lacks (-), what is too much (+), and the warning given, if any."""
    files = Counter(name.split("-")[0] for name in wrong)
    lines = [f"{head}; misread by file: {dict(files)}"]
    for name, (verdict, reading) in wrong.items():
        lines.append(
            f"\n{name}{' (silent)' if verdict.silent else ''}\n  {CASES[name]['say']!r} on {CASES[name]['on']}"
        )
        lines += [f"    - {told(thing)}" for thing in verdict.lacking]
        lines += [f"    + {told(thing)}" for thing in verdict.extra]
        if verdict.nothing_missed:
            lines.append("    - missed: something")
        if not verdict.unsaid:
            lines.append(f"    (missed {reading.get('missed')}, guessed {reading.get('guessed')})")
    return "\n".join(lines)
