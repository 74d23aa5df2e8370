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


@pytest.fixture(scope="module")
def heard(ear: Ear) -> dict[str, tuple[Verdict, dict[str, Any]]]:
    """Each case's verdict and the reading it was passed on."""
    given = {name: ear.hear(case["say"], case["on"]).as_json() for name, case in CASES.items()}
    return {name: (judge(CASES[name], reading), reading) for name, reading in given.items()}


def test_share_read_exactly_keeps_its_floor(heard: dict[str, tuple[Verdict, dict[str, Any]]]) -> None:
    exact = sum(verdict.exact for verdict, _ in heard.values()) / len(heard)
    wrong = {name: pair for name, pair in heard.items() if not pair[0].exact}
    assert exact >= FLOORS["exact_share"], _account(f"exact {exact:.4f}", wrong)


def test_share_misread_in_silence_keeps_its_ceiling(heard: dict[str, tuple[Verdict, dict[str, Any]]]) -> None:
    wrong = {name: pair for name, pair in heard.items() if pair[0].silent}
    silent = len(wrong) / len(heard)
    assert silent <= FLOORS["silent_share"], _account(f"silent {silent:.4f}", wrong)


def test_corpus_keeps_its_size() -> None:
    missed = sum(bool(case.get("missed_some")) for case in CASES.values())
    assert len(CASES) >= FLOORS["cases"], f"{len(CASES)} cases; none may be dropped to raise a share"
    assert missed >= FLOORS["cases_missed_some"], f"{missed} cases with words from outside the bench"


def _account(head: str, wrong: dict[str, tuple[Verdict, dict[str, Any]]]) -> str:
    """Every misreading: its id, the words, what lacks (-), what is too much (+), and the warning given, if any."""
    files = Counter(name.split("-")[0] for name in wrong)
    lines = [f"{head} over {len(CASES)} cases; misread by file: {dict(files)}"]
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
