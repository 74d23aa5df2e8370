"""Copies of a garden that went their own ways: git, a file synchroniser, one device after another."""

from __future__ import annotations

import datetime as dt
import random
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from entries import said
from orchard import entries_of

from benchmate.garden.check import check_garden
from benchmate.garden.record import Entry, Tree
from benchmate.garden.store import Garden, open_garden
from benchmate.garden.toml_text import entry_text

git_there = pytest.mark.skipif(shutil.which("git") is None, reason="git is not there")
DAY = dt.date(2026, 6, 14)
WATERED = Entry("", DAY, "done", "watered it", work=({"work": "water"},), reason="dry", photo="a.jpg")


def git(folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    who = ("-c", "user.name=grower", "-c", "user.email=grower@example.org", "-c", "commit.gpgsign=false")
    return subprocess.run(["git", *who, *words], cwd=folder, capture_output=True, text=True, check=False)


def commit_all(folder: Path) -> None:
    assert git(folder, "add", "-A").returncode == 0
    done = git(folder, "commit", "-qm", "entries")
    assert done.returncode == 0, done.stdout + done.stderr


def two_copies(garden: Garden) -> tuple[Garden, Garden]:
    git(garden.path, "init", "-q", "-b", "main")
    commit_all(garden.path)
    other = garden.path.with_name("other")
    assert git(garden.path.parent, "clone", "-q", str(garden.path), str(other)).returncode == 0
    return garden, open_garden(other)


def merge(into: Garden, other: Garden) -> subprocess.CompletedProcess[str]:
    commit_all(into.path)
    commit_all(other.path)
    assert git(into.path, "fetch", "-q", str(other.path), "main").returncode == 0
    return git(into.path, "merge", "-q", "--no-edit", "FETCH_HEAD")


@git_there
@pytest.mark.parametrize("before", [0, 1, 5])
@pytest.mark.parametrize("alike", [False, True], ids=["unlike", "alike"])
def test_git_merges_two_copies_into_the_union(garden: Garden, tree: Tree, before: int, alike: bool) -> None:
    """Entries that say the same on the same day are the hard case: git takes lines that are alike for one."""
    garden.append_all(tree, entries_of("before", before))
    here, there = two_copies(garden)
    written = list(here.entries(tree))
    for n in range(4):
        written.append(here.append(tree, WATERED if alike else said(f"here {n}")))
        written.append(there.append(tree, WATERED if alike else said(f"there {n}")))
    assert merge(here, there).returncode == 0
    merged = open_garden(here.path)
    assert sorted(entry.id for entry in merged.entries(tree)) == sorted(entry.id for entry in written)
    assert {entry.id: entry for entry in merged.entries(tree)} == {entry.id: entry for entry in written}
    assert check_garden(here.path) == []
    tomllib.loads((here.path / tree.folder / "journal.toml").read_text(encoding="utf-8"))


@git_there
@pytest.mark.parametrize("seed", range(6))
def test_copies_that_meet_again_and_again(garden: Garden, tree: Tree, seed: int) -> None:
    chance = random.Random(seed)
    pool = [*entries_of(f"pool {seed}", 30), WATERED]
    copies = two_copies(garden)
    written = []
    for _ in range(4):
        for copy in copies:
            for _ in range(chance.randint(1, 4)):
                entry = chance.choice(pool)
                written.append(copy.append(tree, Entry("", entry.at, entry.kind, entry.said, entry.facts, entry.work)))
        into, other = chance.sample(copies, 2)
        assert merge(into, other).returncode == 0
        git(other.path, "pull", "-q", "--no-edit", str(into.path), "main")
    for copy in copies:
        entries = open_garden(copy.path).entries(tree)
        assert {entry.id: entry for entry in entries} == {entry.id: entry for entry in written}
        assert len(entries) == len(written)
        assert check_garden(copy.path) == []


@git_there
def test_a_merge_that_git_left_unfinished_counts_both_sides(garden: Garden, tree: Tree) -> None:
    (garden.path / ".gitattributes").write_text("# no rule for journals\n", encoding="utf-8")
    garden.append(tree, said("before"))
    here, there = two_copies(garden)
    written = [*here.entries(tree), here.append(tree, WATERED), there.append(tree, WATERED)]
    assert merge(here, there).returncode != 0
    merged = open_garden(here.path)
    assert {entry.id for entry in merged.entries(tree)} == {entry.id for entry in written}
    assert ["marks of an unfinished merge" in fault.problem for fault in merged.faults] == [True]
    new = merged.append(tree, said("after"))
    assert new in open_garden(here.path).entries(tree)
    told = [fault.problem for fault in check_garden(here.path)]
    assert any("git is not told" in problem for problem in told)


@git_there
def test_a_garden_in_git_is_told_to_merge_when_first_written_to(garden: Garden, tree: Tree) -> None:
    (garden.path / ".gitattributes").unlink()
    git(garden.path, "init", "-q")
    assert any("git is not told" in fault.problem for fault in check_garden(garden.path))
    garden.append(tree, said("words"))
    assert check_garden(garden.path) == []


def test_copies_of_a_synchroniser_count_once(garden: Garden, tree: Tree) -> None:
    first = garden.append(tree, said("first"))
    folder = garden.path / tree.folder
    conflict = folder / "journal (conflicted copy 2026-06-14).toml"
    third = Entry("2026-06-13-zzzzzz", dt.date(2026, 6, 13), "note", "written elsewhere")
    conflict.write_text(
        (folder / "journal.toml").read_text(encoding="utf-8") + "\n" + entry_text(third), encoding="utf-8"
    )
    second = garden.append(tree, said("second"))
    assert garden.entries(tree) == (third, first, second)
    assert check_garden(garden.path) == []


def test_one_id_with_two_meanings_is_explained(garden: Garden, tree: Tree) -> None:
    folder = garden.path / tree.folder
    for name, words in (("journal.toml", "one"), ("journal-phone.toml", "other")):
        entry = Entry("2026-06-14-aaaaaa", DAY, "note", words)
        (folder / name).write_text(entry_text(entry), encoding="utf-8")
    assert [entry.said for entry in garden.entries(tree)] == ["one", "other"]
    (fault,) = check_garden(garden.path)
    assert (Path(fault.path).name, fault.line, fault.id) == ("journal-phone.toml", 1, "2026-06-14-aaaaaa")
    assert "two unlike entries have this id" in fault.problem


def test_times_of_day_order_entries_of_several_devices(garden: Garden, tree: Tree) -> None:
    phone = open_garden(garden.path, "phone")
    times = [(garden, 9), (phone, 8), (garden, 11), (phone, 10)]
    for device, hour in times:
        device.append(tree, Entry("", dt.datetime(2026, 6, 14, hour), "note", str(hour)))
    assert [entry.said for entry in garden.entries(tree)] == ["8", "9", "10", "11"]
