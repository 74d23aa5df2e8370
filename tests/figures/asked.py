"""Figure questions: a garden to ask them in, and what lies between an answer and what was expected of it."""

from __future__ import annotations

import datetime as dt
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from benchmate.fault import UserError
from benchmate.garden import new_garden, new_tree, open_garden
from benchmate.garden.record import Entry, Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import as_json, lay, tell

HERE = Path(__file__).resolve().parent
WARMTH = "date,min,max\n2026-06-01,8,20\n2026-06-02,10,21\n2026-06-03,6,16\n2026-06-04,3,15\n"


def read_cases(name: str) -> dict[str, Any]:
    """One file of cases beside this one."""
    return tomllib.loads((HERE / name).read_text(encoding="utf-8"))


def make_garden(folder: Path, cases: dict[str, Any], trees: bool) -> Path:
    """The garden that a file of cases describes: its place, and with `trees` its trees, journals and temperatures."""
    place = cases["place"]
    frosts = [tuple(int(part) for part in place[key].split("-")) for key in ("last_frost", "first_frost")]
    new_garden(folder, Place(place["name"], place["latitude"], place["longitude"], *frosts))
    if trees:
        garden = open_garden(folder)
        for name, tree in cases["tree"].items():
            new_tree(garden, name, **tree)
        for entry in cases["entry"]:
            told = {key: value for key, value in entry.items() if key not in ("tree", "at")}
            garden.append(garden.find(entry["tree"]), Entry(id="", at=entry["at"], **told))
        (folder / "temperatures.csv").write_text(WARMTH, encoding="utf-8")
    return folder


@cache
def _house(folder: Path) -> House:
    """The garden, opened once: questions log nothing."""
    return House(folder)


def answered(folder: Path, question: dict[str, Any], on: dt.date) -> dict[str, Any]:
    """What `benchmate say --json` prints for a question; {"refused": ...} where it would be one line and exit 1."""
    bench = Bench(_house(folder), question.get("on", on), tree=question.get("tree"), dry=True)
    try:
        answer = bench.answer(question["said"])
    except UserError as error:
        return {"refused": str(error), "reading": bench.house.hear(question["said"], on).as_json()}
    return as_json(answer, lay(tell(answer)))


def amiss(answer: dict[str, Any], question: dict[str, Any]) -> str:
    """What is wrong with an answer, in words, or "" where it is as expected."""
    if "refused" in answer:
        return f"refused: {answer['refused']}"
    heard = answer["figures"][0]["figure"] if answer["figures"] else answer["reading"]["figure"]
    if heard != question["figure"]:
        return f"figure {heard}, not {question['figure']}"
    if "asks" in question:
        asked = [ask["fact"] for ask in answer["asks"]]
        given = [(figure["value"], figure["unit"]) for figure in answer["figures"]]
        wanted = {question["asks"], *question.get("asks_also", ())}
        return "" if wanted & set(asked) and not given else f"asks {asked}, gives {given}"
    if not answer["figures"]:
        return f"no figure; asks {[ask['fact'] for ask in answer['asks']]}"
    figure = answer["figures"][0]
    if lacking := [key for key in ("how", "source") if not figure.get(key)]:
        return f"no {' and no '.join(lacking)}"
    if "value" not in question:
        return ""  # which value is left to the rules
    if question["value"] == "none":
        return "" if figure["value"] is None else f"{figure['value']} instead of none"
    if question.get("unit", figure["unit"]) != figure["unit"]:
        return f"in {figure['unit']}, not {question['unit']}: {figure['value']}"
    off = apart(figure["value"], question["value"])
    return (
        ""
        if off is not None and off <= question["within"] + 1e-9
        else (f"{figure['value']} instead of {question['value']}: {figure['how']}")
    )


def apart(got: Any, expected: Any) -> float | None:
    """How far two values lie apart, days for dates; None where they are of different kinds."""
    if isinstance(expected, dt.date):
        return abs((dt.date.fromisoformat(got) - expected).days) if isinstance(got, str) else None
    return abs(got - expected) if isinstance(got, int | float) else None
