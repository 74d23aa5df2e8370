"""README.md and DEVELOPERS.md say what is so."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest

from benchmate.talk.commands.registry import COMMANDS
from tests.documents.pictures import HERE as PICTURES
from tests.documents.pictures import WIDTHS, picture, typed
from tests.documents.sessions import ROOT, blocks, commands, renewed

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ALLOWED = {"README.md", "DEVELOPERS.md", "pyproject.toml", "benchmate", "rules", "tests", "demo_trees"}


def test_the_session_in_the_readme_is_what_the_program_says() -> None:
    assert sum(len(commands(block)) for block in blocks(README)) >= 6
    assert renewed(README) == README, "run: python tests/documents/sessions.py"


@pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals there")
@pytest.mark.parametrize("name", WIDTHS)
def test_a_picture_is_what_the_screen_shows(name: str) -> None:
    kept = (PICTURES / name).read_text(encoding="utf-8")
    assert name in README
    assert picture(typed(WIDTHS[name])) == kept, "run: python tests/documents/pictures.py"


def test_the_gate_runs_the_test_command_of_the_readme() -> None:
    shell = re.findall(r"```sh\n(.*?)\n```", README, re.S)
    assert len(shell) == 2, "one command runs the main job, one passes the tests"
    assert shell[1] in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_the_readme_opens_with_the_job() -> None:
    first = README.split("\n\n")[1]
    assert first.startswith("A grower who trains trees in pots")
    assert "```" not in first


@pytest.mark.parametrize("command", [c.name for c in COMMANDS if " " not in c.name])
def test_every_command_stands_in_the_readme(command: str) -> None:
    assert re.search(rf"`[^`]*\b{command}\b", README), f"{command} is not in README.md"


def test_files_that_the_developers_page_names_are_there() -> None:
    named = set(re.findall(r"`((?:benchmate|rules|tests|\.ci)/[\w./-]+)`", DEVELOPERS))
    assert len(named) > 15
    missing = sorted(name for name in named if not (ROOT / name).exists())
    assert not missing


def test_the_top_level_holds_what_was_agreed() -> None:
    found = {path.name for path in Path(ROOT).iterdir() if not path.name.startswith(".")}
    left_over = {"build", "dist"} | {name for name in found if name.endswith(".egg-info")}
    assert found - left_over == ALLOWED
