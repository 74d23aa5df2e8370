"""Two copies of a garden, both spoken to, merged by git: the union of their entries; `check` explains conflicts."""

import os
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest

from benchmate.cli import main
from benchmate.garden import open_garden

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed here")
ENV = {
    **{key: value for key, value in os.environ.items() if not key.startswith("GIT_")},
    "GIT_AUTHOR_NAME": "grower", "GIT_AUTHOR_EMAIL": "grower@example.org",
    "GIT_COMMITTER_NAME": "grower", "GIT_COMMITTER_EMAIL": "grower@example.org",
    "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull,
}  # fmt: skip


def git(home, *words, fails=False):
    done = subprocess.run(["git", *words], cwd=home, env=ENV, capture_output=True, text=True)
    assert fails or done.returncode == 0, done.stderr
    return done


def say(home, tree, *statements):
    for statement in statements:
        assert main(["say", statement, "--tree", tree, "--garden", str(home), "--on", "2026-06-14"]) == 0


def keep(home, words):
    git(home, "add", "-A")
    git(home, "commit", "-q", "-m", words)


def entries(home, tree):
    garden = open_garden(home)
    return {entry.id: entry for entry in garden.entries(garden.find(tree))}


@pytest.fixture
def copies(tmp_path):
    """A garden in git and its clone."""
    here, there = tmp_path / "bench", tmp_path / "phone"
    shutil.copytree(DEMO, here, ignore=shutil.ignore_patterns(".benchmate"))
    git(here, "init", "-q", "-b", "main")
    keep(here, "the garden")
    git(tmp_path, "clone", "-q", str(here), str(there))
    return here, there


def both_say(here, there):
    say(here, "Ratchet", "wired the left branch", "fed it", "note: the bench side")
    say(there, "Ratchet", "shortened the shoots to two leaves", "fed it", "scratch that")
    say(there, "Crag", "the wire is biting on the right branch")
    keep(here, "said at the bench")
    keep(there, "said on the phone")


def test_the_merge_is_the_union_of_both_copies(copies, capsys):
    here, there = copies
    both_say(here, there)
    said = {tree: entries(here, tree) | entries(there, tree) for tree in ("Ratchet", "Crag")}
    git(here, "pull", "-q", "--no-rebase", "--no-edit", str(there), "main")
    for tree, wanted in said.items():
        assert entries(here, tree) == wanted
        text = (here / tree.lower() / "journal.toml").read_text(encoding="utf-8")
        assert len(tomllib.loads(text)["entry"]) == len(wanted)
    capsys.readouterr()
    assert main(["check", "--garden", str(here)]) == 0
    assert capsys.readouterr().out == ""
    git(there, "pull", "-q", "--no-rebase", "--no-edit", str(here), "main")
    assert entries(there, "Ratchet") == said["Ratchet"]


def test_check_explains_a_merge_that_git_left_unfinished(copies, capsys):
    here, there = copies
    for home in copies:
        (home / ".gitattributes").write_text("# nothing of journals\n", encoding="utf-8")
    both_say(here, there)
    wanted = entries(here, "Ratchet") | entries(there, "Ratchet")
    assert git(here, "pull", "-q", "--no-rebase", "--no-edit", str(there), "main", fails=True).returncode != 0
    assert entries(here, "Ratchet") == wanted, "both sides count, though git's marks stand between them"
    capsys.readouterr()
    assert main(["check", "--garden", str(here)]) == 1
    lines = capsys.readouterr().out.splitlines()
    (marks,) = [line for line in lines if "ratchet" in line and "unfinished merge" in line]
    assert "journal.toml:" in marks and "; " in marks
    (rule,) = [line for line in lines if "git is not told" in line]
    assert "merge=union" in rule


def test_check_explains_one_id_with_two_meanings(copies, capsys):
    here, _ = copies
    say(here, "Crag", "fed it")
    journal = here / "crag" / "journal.toml"
    text = journal.read_text(encoding="utf-8")
    last = text[text.rindex("[[entry]]") :]
    (here / "crag" / "journal-phone.toml").write_text(last.replace('"fed it"', '"watered it"'), encoding="utf-8")
    capsys.readouterr()
    assert main(["check", "--garden", str(here)]) == 1
    (line,) = capsys.readouterr().out.splitlines()
    assert "two unlike entries have this id" in line and "; " in line
