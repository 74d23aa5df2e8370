"""One thing said in many forms: whatever the form, the same work, place and finding must be heard.

forms.toml holds verbs, things and frames; each frame is filled with each verb and thing. What differs between the
forms is only who does it and when, which the frame tells.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchmate.hearing import Ear

FORMS: dict[str, Any] = tomllib.loads((Path(__file__).parent / "forms.toml").read_text(encoding="utf-8"))
ON = dt.date(2026, 6, 14)
PLACE = ("part", "side", "level", "ordinal")


def place_of(table: dict[str, Any]) -> dict[str, Any]:
    return {key: table[key] for key in PLACE if table.get(key)}


@pytest.mark.parametrize("frame", FORMS["work_frame"], ids=lambda frame: str(frame["say"]))
def test_the_same_work_in_every_form(frame: dict[str, Any], ear: Ear) -> None:
    wrong = []
    for verb in FORMS["verb"]:
        for thing in FORMS["thing"]:
            said = frame["say"].format(**verb, thing=thing["say"])
            heard = ear.hear(said, ON).as_json()
            work = next((work for work in heard["work"] if work["work"] == verb["work"]), {})
            got = (frame["act"] in heard["acts"], heard["topic"], work.get("done"), place_of(work), heard["missed"])
            if got != (True, frame.get("topic"), frame.get("done"), place_of(thing), []):
                wrong.append(f"{said!r}: {heard['acts']} {got}")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("frame", FORMS["finding_frame"], ids=lambda frame: str(frame["say"]))
def test_the_same_finding_in_every_form(frame: dict[str, Any], ear: Ear) -> None:
    wrong = []
    for finding in FORMS["finding"]:
        for thing in FORMS["place"]:
            said = frame["say"].format(finding=finding["say"], place=thing["say"])
            heard = ear.hear(said, ON).as_json()
            fact = next((fact for fact in heard["facts"] if fact["value"] == finding["value"]), {})
            got = ("observe" in heard["acts"], bool(fact.get("not")), place_of(fact), heard["missed"])
            if got != (True, frame.get("not", False), place_of(thing), []):
                wrong.append(f"{said!r}: {heard['acts']} {got}")
    assert not wrong, "\n".join(wrong)
