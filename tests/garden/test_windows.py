"""The branches for Windows, as far as another system can run them: its lock, its names, its line ends."""

from __future__ import annotations

import errno
import importlib.util
import os
import re
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest
from entries import said

from benchmate.garden import disk, lock
from benchmate.garden.making import new_tree
from benchmate.garden.naming import NameRefused, folder_for, refuse_name
from benchmate.garden.reader import LARGEST_BYTES
from benchmate.garden.record import Tree
from benchmate.garden.store import Garden, open_garden

RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))} - {
    "com0",
    "lpt0",
}


class FakeLocks:
    """msvcrt's locking over a table: one byte at the place where the descriptor stands."""

    LK_NBLCK, LK_UNLCK = 2, 0

    def __init__(self) -> None:
        self.held: dict[tuple[int, int], int] = {}
        self.places: set[int] = set()

    def locking(self, descriptor: int, mode: int, count: int) -> None:
        at = os.lseek(descriptor, 0, os.SEEK_CUR)
        self.places.add(at)
        key = (os.fstat(descriptor).st_ino, at)
        if mode == self.LK_UNLCK:
            if self.held.pop(key, None) is None:
                raise OSError(errno.EACCES, "not locked")
        elif key in self.held:
            raise OSError(errno.EACCES, "held")
        else:
            self.held[key] = count


@pytest.fixture
def locks(monkeypatch: pytest.MonkeyPatch) -> FakeLocks:
    fake = FakeLocks()
    monkeypatch.setitem(sys.modules, "msvcrt", fake)  # type: ignore[arg-type]
    return fake


@pytest.fixture
def windows_lock(locks: FakeLocks, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The module of the lock as it is on Windows."""
    spec = importlib.util.spec_from_file_location("windows_lock", lock.__file__)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    monkeypatch.setattr(sys, "platform", "win32")
    spec.loader.exec_module(module)
    monkeypatch.undo()
    return module


def test_the_lock_lies_past_any_journal_and_where_the_system_can_count(
    windows_lock: ModuleType, locks: FakeLocks, tmp_path: Path
) -> None:
    path = tmp_path / "journal.toml"
    path.write_bytes(b"words\n")
    with windows_lock.held(path, os.O_RDWR | os.O_APPEND) as descriptor:
        os.write(descriptor, b"more\n")
        assert len(locks.held) == 1
    assert not locks.held
    assert path.read_bytes() == b"words\nmore\n"
    (place,) = locks.places
    assert LARGEST_BYTES < place < 1 << 31


def test_a_lock_that_is_held_is_waited_for_and_no_reader_is_kept_out(
    windows_lock: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    path = tmp_path / "journal.toml"
    path.write_bytes(b"words\n")
    monkeypatch.setattr(windows_lock, "PATIENCE_S", 0.02)
    with windows_lock.held(path, os.O_RDWR):
        with pytest.raises(windows_lock.Busy), windows_lock.held(path, os.O_RDWR):
            pass
        assert windows_lock.read_undisturbed(path, 0.02) == b"words\n"
    assert windows_lock.read_undisturbed(path) == b"words\n"


def test_a_folder_is_not_flushed_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(disk, "os", SimpleNamespace(name="nt"))
    disk.flush_folder(Path("no such folder"))


@pytest.mark.parametrize("name", [*sorted(RESERVED), "CON", "Aux.", "nul.txt", "C:", "C: drive", "a<b>|?*", "end. "])
def test_a_tree_of_any_name_has_a_folder_that_every_system_takes(garden: Garden, name: str) -> None:
    folder = folder_for(name)
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", folder)
    assert folder not in RESERVED
    tree = new_tree(garden, name)
    assert garden.find(name) == tree and tree.folder.startswith(folder)


@pytest.mark.parametrize("name", ["..\\up", "C:\\trees", "\\\\shed\\trees", "a/b", "..", ". hidden", "a\0b"])
def test_a_name_that_leads_elsewhere_is_refused(name: str) -> None:
    with pytest.raises(NameRefused):
        refuse_name(name)


def test_every_file_that_is_made_has_a_name_for_every_system(garden: Garden, tree: Tree) -> None:
    garden.append(tree, said("words"))
    open_garden(garden.path, "CON: my phone?").append(tree, said("more"))
    with (garden.path / tree.folder / "journal.toml").open("a", encoding="utf-8") as file:
        file.write('\n[[entry]]  # 2026-06-14:a?\nid = "2026-06-14:a?"\nsaid = "cut of')
    garden.append(tree, said("after it"))
    garden.days()
    names = {part for path in garden.path.rglob("*") for part in path.relative_to(garden.path).parts}
    assert any(name.startswith("journal.torn-") for name in names)
    for name in names:
        assert re.fullmatch(r"[A-Za-z0-9._-]*[A-Za-z0-9_-]", name)
        assert name.split(".")[0].lower() not in RESERVED


def test_lines_that_end_in_two_signs_are_read_and_added_to(garden: Garden, tree: Tree) -> None:
    first = garden.append(tree, said("words"))
    path = garden.path / tree.folder / "journal.toml"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    again = open_garden(garden.path)
    second = again.append(tree, said("more"))
    assert again.entries(tree) == open_garden(garden.path).entries(tree) == (first, second)
    assert again.tail(tree, 1) == (second,)
    assert again.faults == ()
