"""The derived index: it tells what the journals tell, notices every change, and may be damaged or deleted."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import time
from pathlib import Path

import pytest
from entries import said
from orchard import plant

from benchmate.garden.agenda import due
from benchmate.garden.follow import follow_ups
from benchmate.garden.journal import standing
from benchmate.garden.making import new_tree
from benchmate.garden.record import Entry, Tree
from benchmate.garden.store import Garden, open_garden

ON = dt.date(2026, 6, 14)


@pytest.fixture
def orchard(tmp_path: Path) -> Garden:
    plant(tmp_path / "orchard", 12, 40)
    return open_garden(tmp_path / "orchard")


def seen(garden: Garden, on: dt.date = dt.date(2018, 6, 1)) -> list[object]:
    return [garden.glances(), due(garden, on, 30), garden.faults]


def settle(garden: Garden) -> None:
    """Make all files older than the moment within which a file is not trusted."""
    old = time.time_ns() - 10**10
    for path in garden.path.rglob("*"):
        if ".benchmate" not in path.parts:
            os.utime(path, ns=(old, old))


def test_the_index_tells_what_the_journals_tell(orchard: Garden) -> None:
    glances = orchard.glances()
    assert len(glances) == 12
    for tree in orchard.trees():
        entries = standing(orchard.entries(tree))
        glance = glances[tree.folder]
        assert glance.open == follow_ups(entries)
        assert (glance.count, glance.newest) == (len(entries), entries[-1].day)
        for work, day in glance.last.items():
            done = [e.day for e in entries if e.kind == "done" and work in [table["work"] for table in e.work]]
            assert day == max(done)
        health = [fact["value"] for e in entries for fact in e.facts if fact["kind"] == "health"]
        assert glance.health == (health[-1] if health else None)


def test_cold_and_warm_and_after_deletion_tell_the_same(orchard: Garden) -> None:
    (orchard.path / "anvil-1/journal.toml").write_text('[[entry]]\nid = "a"\nat = x\n', encoding="utf-8")
    settle(orchard)
    cold = seen(orchard)
    assert cold[2]
    assert seen(open_garden(orchard.path)) == cold
    shutil.rmtree(orchard.path / ".benchmate")
    assert seen(orchard) == cold
    assert seen(open_garden(orchard.path)) == cold


def read_again(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The trees whose journals a new process would read."""
    from benchmate.garden import store

    read: list[str] = []
    real = store.read_journals
    monkeypatch.setattr(store, "read_journals", lambda folder: (read.append(folder.name), real(folder))[1])
    open_garden(garden.path).glances()
    monkeypatch.undo()
    return read


def test_only_what_changed_is_read_again(orchard: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    settle(orchard)
    assert len(read_again(orchard, monkeypatch)) == 12
    assert read_again(orchard, monkeypatch) == []
    orchard.append(orchard.find("kiln 1"), said("words"))
    assert read_again(orchard, monkeypatch) == ["kiln-1"]


def _append_by_hand(folder: Path) -> None:
    with (folder / "journal.toml").open("a", encoding="utf-8") as file:
        file.write('\n[[entry]]\nid = "x"\nat = 2026-01-01\nkind = "plan"\nwork = [{ work = "repot" }]\n')


def _another_file(folder: Path) -> None:
    (folder / "journal-phone.toml").write_text(
        '[[entry]]\nid = "x"\nat = 2026-01-01\nkind = "plan"\nwork = [{ work = "repot" }]\n', encoding="utf-8"
    )


def _last_bytes_with_the_same_size_and_time(folder: Path) -> None:
    path = folder / "journal.toml"
    state = path.stat()
    data = path.read_bytes()
    end = data.rindex(b"[[entry]]")
    path.write_bytes(data[:end] + b"#" * (len(data) - end))
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns))


def _no_file(folder: Path) -> None:
    (folder / "journal.toml").unlink()


def _shorter(folder: Path) -> None:
    data = (folder / "journal.toml").read_bytes()
    (folder / "journal.toml").write_bytes(data[: data.rindex(b"[[entry]]")])


CHANGES = (_append_by_hand, _another_file, _last_bytes_with_the_same_size_and_time, _no_file, _shorter)


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__.strip("_"))
def test_every_change_is_noticed(orchard: Garden, change: object) -> None:
    settle(orchard)
    orchard.glances()
    before = orchard.glances()["kiln-1"]
    change(orchard.path / "kiln-1")  # type: ignore[operator]
    for garden in (open_garden(orchard.path), orchard):
        if garden is orchard and change is _last_bytes_with_the_same_size_and_time:
            continue  # within a talk size and time are enough
        after = garden.glances()["kiln-1"]
        assert after != before
        assert after.open == garden.follow_ups(garden.find("kiln 1"))


def test_a_change_within_the_same_tick_of_the_clock_is_noticed(garden: Garden, tree: Tree) -> None:
    """Same size, same time, same last bytes: a file that changed a moment ago is not trusted by its marks."""
    path = garden.path / tree.folder / "journal.toml"
    text = '[[entry]]\nid = "a"\nat = 2026-01-01\nkind = "done"\nwork = [{ work = "WORK" }]\n' + "# tail\n" * 60
    path.write_text(text.replace("WORK", "repot"), encoding="utf-8")
    state = path.stat()
    assert "repot" in garden.glances()[tree.folder].last
    path.write_text(text.replace("WORK", "unwir"), encoding="utf-8")
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns))
    assert "unwir" in open_garden(garden.path).glances()[tree.folder].last


def test_a_tree_that_comes_or_goes_is_noticed(orchard: Garden) -> None:
    orchard.glances()
    new_tree(orchard, "Newcomer")
    shutil.rmtree(orchard.path / "anvil-1")
    fresh = open_garden(orchard.path)
    assert {"newcomer"} == set(fresh.glances()) - {tree.folder for tree in fresh.trees() if tree.name != "Newcomer"}
    assert "anvil-1" not in fresh.glances()


def test_the_hemisphere_changes_what_a_season_means(garden: Garden, tree: Tree) -> None:
    garden.append(tree, Entry("", ON, "plan", "repot it", work=({"work": "repot"},), when="2026-spring"))
    assert garden.glances()[tree.folder].open[0].on == dt.date(2026, 3, 1)
    from benchmate.garden.making import tell_place

    tell_place(garden, latitude=-33.0)
    assert garden.glances()[tree.folder].open[0].on == dt.date(2026, 9, 1)
    assert open_garden(garden.path).glances()[tree.folder].open[0].on == dt.date(2026, 9, 1)


def test_a_first_index_may_be_stopped_and_goes_on_where_it_stood(
    orchard: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    settle(orchard)
    told: list[tuple[int, int]] = []

    def progress(done: int, of: int) -> None:
        told.append((done, of))
        if done == 5:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        orchard.glances(progress)
    assert told == [(n, 12) for n in range(1, 6)]
    assert len(read_again(orchard, monkeypatch)) == 7


@pytest.mark.parametrize("folder", ["read-only", "file in its place", "link in its place"])
def test_without_a_place_for_the_index_all_goes_on(orchard: Garden, folder: str, tmp_path: Path) -> None:
    wanted = seen(orchard)
    derived = orchard.path / ".benchmate"
    shutil.rmtree(derived)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    match folder:
        case "read-only":
            (derived / "index.json").mkdir(parents=True)
            (derived / "trees.json").mkdir()
        case "file in its place":
            derived.write_text("", encoding="utf-8")
        case "link in its place":
            derived.symlink_to(elsewhere)
    assert seen(open_garden(orchard.path)) == wanted
    assert list(elsewhere.iterdir()) == []


def test_the_derived_folder_keeps_itself_out_of_git(orchard: Garden) -> None:
    orchard.glances()
    assert (orchard.path / ".benchmate/.gitignore").read_text(encoding="utf-8") == "*\n"
    assert {path.name for path in (orchard.path / ".benchmate").iterdir()} == {".gitignore", "trees.json", "index.json"}


def test_due_puts_the_most_urgent_first_and_groups_by_tree(garden: Garden, tree: Tree) -> None:
    other, third = new_tree(garden, "Anvil"), new_tree(garden, "Barrow")

    def ask(where: Tree, work: str, on: dt.date, **more: str) -> None:
        garden.append(
            where, Entry("", dt.date(2026, 5, 1), "note", "remind me", follow=({"work": work, "on": on, **more},))
        )

    ask(tree, "feed", ON + dt.timedelta(3))
    ask(tree, "check", ON - dt.timedelta(9), part="wire", slips="The wire scars the bark.")
    ask(other, "water", ON)
    ask(other, "sun", ON, weather="frost-free")
    ask(third, "repot", ON + dt.timedelta(8))
    garden.append(third, Entry("", dt.date(2026, 5, 1), "plan", "wire it some day", work=({"work": "wire"},)))
    groups = due(garden, ON, 7)
    told = [(group.tree.name, [(item.follow.work, item.days_left) for item in group.items]) for group in groups]
    assert told == [("Gatepost", [("check", -9), ("feed", 3)]), ("Anvil", [("water", 0), ("sun", 0)])]
    assert [item.overdue for item in groups[0].items] == [True, False]
    assert [item.weather_bound for item in groups[1].items] == [False, True]
    assert groups[0].as_json()["items"][0]["slips"] == "The wire scars the bark."
    assert [group.tree.name for group in due(garden, ON, 8)] == ["Gatepost", "Anvil", "Barrow"]
    assert due(garden, dt.date(2020, 1, 1), 0) == ()
    assert len(due(garden, dt.date.max, 10)) == 3


def test_a_plan_for_a_month_is_overdue_only_when_the_month_is_over(garden: Garden, tree: Tree) -> None:
    garden.append(tree, Entry("", dt.date(2026, 5, 1), "plan", "feed it", work=({"work": "feed"},), when="2026-06"))
    left = {day: [item.days_left for group in due(garden, day, 0) for item in group.items] for day in (
        dt.date(2026, 5, 31), dt.date(2026, 6, 1), dt.date(2026, 6, 30), dt.date(2026, 7, 2))}  # fmt: skip
    assert list(left.values()) == [[], [29], [0], [-2]]


def test_what_was_written_of_later_days_is_not_due_yet(garden: Garden, tree: Tree) -> None:
    asked = Entry("", dt.date(2026, 6, 10), "plan", "wire it", work=({"work": "wire"},), when="2026-06-20")
    later = Entry("", dt.date(2026, 6, 16), "plan", "feed it", work=({"work": "feed"},), when="2026-06-18")
    done = Entry("", dt.date(2026, 6, 17), "done", "wired it", work=({"work": "wire"},))
    garden.append_all(tree, [asked, later, done])

    def works(on: dt.date) -> list[str]:
        return [item.follow.work for group in due(garden, on, 14) for item in group.items]

    assert works(ON) == ["wire"] and works(dt.date(2026, 6, 17)) == ["feed"]
