"""Bad files: `check` says file, line and remedy, as in cases/check.toml; the talk goes on with the other trees."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path
from typing import Any

import pytest
from entries import said

from benchmate.garden.check import check_garden
from benchmate.garden.making import new_tree
from benchmate.garden.record import Place, Tree
from benchmate.garden.store import Garden, open_garden

CASES = tomllib.loads((Path(__file__).parent / "cases/check.toml").read_text(encoding="utf-8"))
WORDS = {"phase": ["structure", "trunk"], "health": ["strong", "healthy", "weak"], "work": ["repot", "wire", "check"]}


@pytest.fixture
def sound(garden: Garden, tree: Tree) -> Garden:
    garden.append(tree, said("first"))
    garden.append(tree, said("second"))
    assert check_garden(garden.path, WORDS) == []
    return garden


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_check(sound: Garden, case: dict[str, Any]) -> None:
    path = sound.path / case["file"]
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(case["text"].replace("LARGE", "x" * (1 << 20)), encoding="utf-8", newline="\n")
    told = [str(fault).removeprefix(f"{sound.path}/") for fault in check_garden(sound.path, WORDS)]
    assert len(told) == len(case["told"]), told
    for line, wanted in zip(told, case["told"], strict=True):
        assert line.startswith(wanted), line
        assert line.isprintable(), line


def test_links_out_pipes_and_folders_are_told_and_passed_over(sound: Garden, tmp_path: Path) -> None:
    outside = tmp_path / "elsewhere"
    outside.mkdir()
    (outside / "tree.toml").write_text('name = "Stranger"\n', encoding="utf-8")
    (outside / "journal.toml").write_text("", encoding="utf-8")
    (sound.path / "stranger").symlink_to(outside)
    (sound.path / "gatepost/journal-link.toml").symlink_to(outside / "journal.toml")
    os.mkfifo(sound.path / "gatepost/journal-pipe.toml")
    (sound.path / "gatepost/journal-folder.toml").mkdir()
    (sound.path / "piped").mkdir()
    os.mkfifo(sound.path / "piped/tree.toml")
    told = [str(fault).removeprefix(f"{sound.path}/").partition(";")[0] for fault in check_garden(sound.path)]
    assert told == [
        "gatepost/journal-folder.toml: it is a link or no plain file, and is not read",
        "gatepost/journal-link.toml: it is a link or no plain file, and is not read",
        "gatepost/journal-pipe.toml: it is a link or no plain file, and is not read",
        "piped/tree.toml: it is a link or no plain file, and is not read",
        "stranger: a link that leads out of the garden is not followed",
    ]
    garden = open_garden(sound.path)
    assert garden.names() == ("Gatepost",)
    assert len(garden.entries(garden.find("gatepost"))) == 2


def test_a_huge_journal_is_told_and_can_still_be_appended_to(sound: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    from benchmate.garden import reader

    monkeypatch.setattr(reader, "LARGEST_BYTES", 100)
    (fault,) = check_garden(sound.path)
    assert fault.problem == "it is larger than 0 MB, and is not read"
    tree = sound.find("gatepost")
    assert sound.append(tree, said("third")) == sound.tail(tree, 1)[0]


def test_one_broken_tree_leaves_the_others(sound: Garden) -> None:
    new_tree(sound, "Broken")
    (sound.path / "broken/tree.toml").write_text("name = [", encoding="utf-8")
    (sound.path / "broken/journal.toml").write_bytes(b"\xff\xfe\x00junk = \n[[entry")
    (sound.path / "garden.toml").write_text("][", encoding="utf-8")
    garden = open_garden(sound.path)
    assert garden.place == Place()
    assert [tree.name for tree in garden.trees()] == ["broken", "Gatepost"]
    assert len(garden.entries(garden.find("gatepost"))) == 2
    assert garden.entries(garden.find("broken")) == ()
    assert {Path(fault.path).name for fault in garden.faults} == {"garden.toml", "tree.toml", "journal.toml"}
    assert all(str(fault).isprintable() for fault in garden.faults)


def test_a_folder_that_is_no_garden(tmp_path: Path) -> None:
    assert [fault.problem for fault in check_garden(tmp_path / "missing")][-1] == "no such file or directory"
    (fault,) = check_garden(tmp_path)
    assert Path(fault.path).name == "garden.toml"
