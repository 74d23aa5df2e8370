"""One advice case played through the command line's own entrance, in a garden of its own."""

from __future__ import annotations

import io
import json
import tomllib
from collections.abc import Mapping
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any

import tomli_w
from judging import dangers, error_faults, faults

from benchmate.cli import main

Case = Mapping[str, Any]
PLACE = {"latitude": 51.5, "longitude": -0.5, "last_frost": "04-25", "first_frost": "10-20"}


def play(case: Case, home: Path) -> tuple[list[str], list[str]]:
    """What is wrong with the last answer, and the works that were dangerously let go. home: an empty folder."""
    expect = case["expect"]
    tree = lay_garden(case, home)
    before = entries_of(home)
    for number, statement in enumerate(case["say"], 1):
        status, answer, complaint = say(statement, str(case["on"]), home, tree)
        if status and number < len(case["say"]):
            return [f"statement {number}: {complaint}"], []
    new = [entry for entry in entries_of(home) if entry not in before]
    if expect.get("error"):
        return error_faults(status, complaint, new), []
    if status:
        return [f"exit status {status}: {complaint}"], []
    return faults(expect, answer, new), dangers(expect, answer)


def lay_garden(case: Case, home: Path) -> str | None:
    """Write the garden's files. Returns the tree's name, or None where the case is about no tree of the garden."""
    place = {"name": "Test garden"} | case.get("place", PLACE)
    (home / "garden.toml").write_text(tomli_w.dumps({"place": place}), encoding="utf-8")
    tree = case.get("tree")
    if not tree:
        return None
    folder = home / tree["name"].lower().replace(" ", "-")
    folder.mkdir()
    (folder / "tree.toml").write_text(tomli_w.dumps(tree), encoding="utf-8")
    entries = [{"id": f"{entry['at']}-{n}", "said": "", **entry} for n, entry in enumerate(case.get("journal", ()))]
    (folder / "journal.toml").write_text(tomli_w.dumps({"entry": entries} if entries else {}), encoding="utf-8")
    return str(tree["name"])


def entries_of(home: Path) -> list[dict[str, Any]]:
    """All entries of the garden's journals, whatever the journal files are called."""
    files = sorted(home.glob("*/journal*.toml"))
    return [entry for file in files for entry in tomllib.loads(file.read_text(encoding="utf-8")).get("entry", ())]


def say(statement: str, on: str, home: Path, tree: str | None) -> tuple[int, dict[str, Any], str]:
    """Exit status, the answer as data (empty where there is none) and what stands on standard error."""
    words = ["say", statement, "--on", on, "--garden", str(home), "--json", *(("--tree", tree) if tree else ())]
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        status = main(words)
    return status, json.loads(out.getvalue() or "{}"), err.getvalue()
