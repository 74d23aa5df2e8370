"""Advice cases by subject: a tree's state, a date, a place and what is said -> what any sound answer must contain.

Each case file is a list of `[[scenario]]`: id, about, on (today; a string where the date itself is at fault), place
(left out: a mild northern garden with frost from 20 October to 25 April; without frost dates there is no frost), tree
and journal as in a garden, say (statements in order, the last answer is judged), expect (see judging.py) and basis
(who says so). Failures that stand are in known.toml with their reason; one that passes again must leave it. A work
that would harm is never let go, known or not.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from at_the_bench import play
from judging import EXPECTS

HERE = Path(__file__).parent
KEYS = {"id", "about", "on", "place", "tree", "journal", "say", "expect", "basis"}
NEEDED = {"id", "about", "on", "say", "expect", "basis"}


def load_cases() -> dict[str, dict[str, Any]]:
    cases: dict[str, dict[str, Any]] = {}
    for path in sorted(HERE.glob("*.toml")):
        for case in tomllib.loads(path.read_text(encoding="utf-8")).get("scenario", ()):
            where = f"{path.name}: {case.get('id')}"
            assert case.keys() >= NEEDED, f"{where} lacks {sorted(NEEDED - case.keys())}"
            assert case.keys() <= KEYS, f"{where} has keys that nothing reads: {sorted(case.keys() - KEYS)}"
            assert case["expect"].keys() <= EXPECTS, f"{where} expects {sorted(case['expect'].keys() - EXPECTS)}"
            assert case["expect"], f"{where} expects nothing"
            assert case["id"] not in cases, f"{where} stands twice"
            cases[case["id"]] = case
    return cases


CASES = load_cases()
KNOWN: dict[str, str] = tomllib.loads((HERE / "known.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", CASES)
def test_sound_advice(name: str, tmp_path: Path) -> None:
    case = CASES[name]
    wrong, dangerous = play(case, tmp_path)
    account = "\n".join([" / ".join(case["say"]), f"basis: {case['basis']}", *wrong])
    assert not dangerous, f"would harm: {dangerous}\n{account}"
    if name in KNOWN:
        assert wrong, f"{name} passes now: take it out of known.toml"
        pytest.xfail(KNOWN[name])
    assert not wrong, account


def test_known_failures_are_cases_with_reasons() -> None:
    assert not [name for name, reason in KNOWN.items() if name not in CASES or not reason.strip()]
