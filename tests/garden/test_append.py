"""Appending: what is acknowledged stays, what is there already stays as it is, what cannot be written is told."""

from __future__ import annotations

import datetime as dt
import os
import resource
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from entries import ROUNDS, said
from orchard import entries_of

from benchmate.garden.append import NotLogged, append_entries
from benchmate.garden.journal import read_journal
from benchmate.garden.record import Entry, Tree
from benchmate.garden.store import Garden, open_garden
from benchmate.garden.toml_text import entry_text

DAY = dt.date(2026, 6, 14)


def journal_of(garden: Garden, tree: Tree) -> Path:
    return garden.path / tree.folder / "journal.toml"


def test_an_entry_is_read_back_as_given(garden: Garden, tree: Tree) -> None:
    entry = Entry(
        "",
        DAY,
        "left",
        "won't cut the left leader",
        work=({"work": "select-leader", "side": "left", "done": "not"},),
        measures={"diameter_mm": 9.5},
        reason="it is the only green on that side",
        refused=("select-leader", "shorten"),
        follow=({"work": "check", "part": "leader", "on": "2026-07-05", "says": "Look again.", "rule": None},),
        photo="june.jpg",
        when="2026-06",
        more={"mood": "fine"},
    )
    written = garden.append(tree, entry)
    (again,) = open_garden(garden.path).entries(tree)
    assert again == written == garden.entries(tree)[0]
    assert again.follow == ({"work": "check", "part": "leader", "on": dt.date(2026, 7, 5), "says": "Look again."},)
    for name in ("said", "reason", "refused", "photo", "when", "more", "measures"):
        assert getattr(again, name) == getattr(entry, name)


def test_ids_carry_the_day_and_do_not_repeat(garden: Garden, tree: Tree) -> None:
    ids = [garden.append(tree, said(f"words {n}")).id for n in range(50)]
    assert len(set(ids)) == 50
    assert all(own.startswith("2026-06-14-") and len(own) == 17 for own in ids)


def test_what_a_grower_wrote_stays_as_it_was(garden: Garden, tree: Tree) -> None:
    before = (
        '# mine\r\n\n[[entry]]   # spring\nid = "a"\nat = 2026-03-14\nkind = "note"\n\n\n# end of spring, no newline'
    )
    journal_of(garden, tree).write_bytes(before.encode())
    written = garden.append(tree, said("more"))
    assert journal_of(garden, tree).read_bytes() == before.encode() + b"\n\n" + entry_text(written).encode()
    assert [entry.id for entry in garden.entries(tree)] == ["a", written.id]


def test_a_clock_that_jumps_back_breaks_neither_order_nor_ids(garden: Garden, tree: Tree) -> None:
    days = [
        dt.datetime(2026, 6, 14, 12),
        dt.datetime(2026, 6, 14, 11),
        dt.datetime(2020, 1, 1, 9),
        dt.datetime(2026, 6, 14, 11),
    ]
    written = [garden.append(tree, Entry("", day, "note", str(n))) for n, day in enumerate(days)]
    written.append(garden.append(tree, Entry("", dt.datetime(2020, 1, 1, 8), "struck", strikes=written[3].id)))
    assert [entry.said for entry in garden.entries(tree)] == ["2", "", "0", "1", "3"]
    assert [entry.id for entry in garden.tail(tree, 2)] == [written[3].id, written[4].id]
    assert len({entry.id for entry in written}) == 5
    assert open_garden(garden.path).entries(tree) == garden.entries(tree)


def test_several_at_once_keep_their_order(garden: Garden, tree: Tree) -> None:
    entries = entries_of("several", 20)
    assert garden.append_all(tree, entries) == tuple(entries)
    assert garden.entries(tree) == tuple(entries)
    assert garden.append_all(tree, ()) == ()


def test_the_tail_is_the_end_without_the_rest(garden: Garden, tree: Tree) -> None:
    entries = entries_of("tail", 300)
    garden.append_all(tree, entries)
    for count in (1, 2, 20, 299, 300, 400):
        assert garden.tail(tree, count) == tuple(entries[-count:])


def test_another_process_is_seen(garden: Garden, tree: Tree) -> None:
    other = open_garden(garden.path)
    first, second, third = garden.append(tree, said("1")), other.append(tree, said("2")), garden.append(tree, said("3"))
    assert garden.entries(tree) == other.entries(tree) == (first, second, third)


def test_devices_append_to_files_of_their_own(garden: Garden, tree: Tree) -> None:
    phone, laptop = open_garden(garden.path, "Phone 1"), open_garden(garden.path, "laptop")
    written = [device.append(tree, said(str(n))) for n, device in enumerate((phone, laptop, garden, phone))]
    files = {path.name for path in (garden.path / tree.folder).glob("*.toml")}
    assert files == {"tree.toml", "journal.toml", "journal-phone-1.toml", "journal-laptop.toml"}
    assert sorted(entry.id for entry in garden.entries(tree)) == sorted(entry.id for entry in written)
    assert garden.entries(tree) == phone.entries(tree) == laptop.entries(tree)


def test_the_device_may_be_named_in_the_garden_or_the_surroundings(
    garden: Garden, tree: Tree, monkeypatch: pytest.MonkeyPatch
) -> None:
    (garden.path / ".benchmate/device").write_text("../../shed\n", encoding="utf-8")
    garden.append(tree, said("1"))
    monkeypatch.setenv("BENCHMATE_DEVICE", "phone")
    garden.append(tree, said("2"))
    assert {path.name for path in (garden.path / tree.folder).glob("journal*")} == {
        "journal-shed.toml",
        "journal-phone.toml",
    }


def test_a_journal_cut_at_any_byte_keeps_what_was_acknowledged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Entries whose every byte is there load; the cut one is told with its words and set aside by the next append."""
    monkeypatch.setattr(os, "fsync", lambda descriptor: None)  # this is about bytes, not about the disk
    path = tmp_path / "journal.toml"
    entries = [
        Entry("2026-06-14-aaaaaa", DAY, "note", 'a "quoted" word'),
        Entry(
            "2026-06-14-bbbbbb", DAY, "done", "élan\nover lines", work=({"work": "wire"},), reason="it [[entry]] grew"
        ),
        Entry("2026-06-14-cccccc", DAY, "struck", strikes="2026-06-14-aaaaaa"),
    ]
    texts = [entry_text(entry) for entry in entries]
    whole = "\n".join(texts).encode()
    ends = [len("\n".join(texts[: n + 1]).encode()) for n in range(3)]
    for cut in range(len(whole) + 1):
        for old in tmp_path.iterdir():
            old.unlink()
        path.write_bytes(whole[:cut])
        acknowledged = [entry.id for entry, end in zip(entries, ends, strict=True) if end <= cut]
        journal = read_journal(path.read_bytes(), "journal.toml")
        read = [entry.id for entry in journal.entries]
        assert read in (acknowledged, [entry.id for entry in entries[: len(acknowledged) + 1]]), cut
        if read != acknowledged:  # all but its last line end: whole, though never acknowledged
            assert cut == ends[len(read) - 1] - 1
            acknowledged = read
        left_over = whole[ends[len(read) - 1] if read else 0 : cut].strip()
        assert bool(journal.faults) == bool(left_over)
        new = append_entries(path, [said("after the cut")])
        after = read_journal(path.read_bytes(), "journal.toml")
        assert after.faults == ()
        assert [entry.id for entry in after.entries] == [*acknowledged, new.entries[0].id], cut
        tomllib.loads(path.read_text(encoding="utf-8"))
        aside = [torn.read_bytes().strip() for torn in tmp_path.glob("journal.torn-*.txt")]
        assert aside == ([left_over] if left_over else []), cut
        assert len(new.faults) == len(aside)


def test_words_set_aside_are_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "journal.toml"
    for words in ("one", "two", "two"):
        with path.open("a", encoding="utf-8") as file:
            file.write(f'[[entry]]  # 2026-06-14-aaaaaa\nid = "2026-06-14-aaaaaa"\nsaid = "{words}')
        append_entries(path, [said("next")])
    kept = sorted(torn.read_text(encoding="utf-8")[-3:] for torn in tmp_path.glob("journal.torn-*.txt"))
    assert kept == ["one", "two"]


def test_words_by_hand_that_are_not_toml_stay_where_they_are(garden: Garden, tree: Tree) -> None:
    by_hand = '[[entry]]\nid = "a"\nat = 2026-06-14\nkind = note\n'
    journal_of(garden, tree).write_text(by_hand, encoding="utf-8")
    written = garden.append(tree, said("next"))
    assert journal_of(garden, tree).read_text(encoding="utf-8").startswith(by_hand)
    assert garden.entries(tree) == (written,)
    assert [(fault.line, fault.problem) for fault in garden.faults] == [(4, "a line that cannot be read: kind = note")]


def test_a_cut_line_inside_long_words_is_no_torn_entry(garden: Garden, tree: Tree) -> None:
    by_hand = '[[entry]]\nid = "a"\nat = 2026-06-14\nkind = "note"\nsaid = """\n[[entry]]  # x\nid = "x"\n"""'
    journal_of(garden, tree).write_text(by_hand, encoding="utf-8")
    written = garden.append(tree, said("next"))
    assert [entry.id for entry in garden.entries(tree)] == ["a", written.id]
    assert garden.faults == ()


@contextmanager
def smallest_files(size: int) -> Iterator[None]:
    """As on a full disk: no file may grow beyond a size; the system writes what fits and refuses the rest."""
    import signal

    old = resource.getrlimit(resource.RLIMIT_FSIZE)
    before = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, old[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, old)
        signal.signal(signal.SIGXFSZ, before)


@pytest.mark.parametrize("room", [0, 1, 20, 100])
def test_without_room_nothing_changes_and_the_words_come_back(garden: Garden, tree: Tree, room: int) -> None:
    path = journal_of(garden, tree)
    garden.append(tree, said("before"))
    before = path.read_bytes()
    with smallest_files(len(before) + room), pytest.raises(NotLogged) as caught:
        garden.append(tree, said("words that matter " * 20))
    assert str(caught.value).startswith(f"not logged: {path}: ")
    assert "\n" not in str(caught.value)
    assert caught.value.entries[0].said.startswith("words that matter")
    assert path.read_bytes() == before
    assert garden.append(tree, caught.value.entries[0]) == garden.entries(tree)[-1]


@pytest.mark.parametrize("kind", ["folder", "link", "pipe", "gone"])
def test_a_journal_that_is_none_is_refused_in_one_line(garden: Garden, tree: Tree, kind: str, tmp_path: Path) -> None:
    path = journal_of(garden, tree)
    outside = tmp_path / "outside.toml"
    outside.write_text("", encoding="utf-8")
    match kind:
        case "folder":
            path.mkdir()
        case "link":
            path.symlink_to(outside)
        case "pipe":
            os.mkfifo(path)
        case "gone":
            (path.parent / "tree.toml").unlink()
            path.parent.rmdir()
    with pytest.raises(NotLogged, match=r"^not logged: [^\n]+$"):
        garden.append(tree, said("words"))
    assert garden.entries(tree) == ()
    assert outside.read_text(encoding="utf-8") == ""


def test_a_tree_folder_that_leads_out_is_neither_read_nor_written(garden: Garden, tree: Tree, tmp_path: Path) -> None:
    outside = tmp_path / "garden-outside"
    outside.mkdir()
    (outside / "tree.toml").write_text('name = "Stranger"\n', encoding="utf-8")
    (garden.path / "stranger").symlink_to(outside)
    garden = open_garden(garden.path)
    assert garden.names() == ("Gatepost",)
    assert [fault.problem for fault in garden.faults] == ["a link that leads out of the garden is not followed"]
    with pytest.raises(NotLogged):
        garden.append(Tree("Stranger", "stranger"), said("words"))
    with pytest.raises(NotLogged):
        garden.append(Tree("Up", ".."), said("words"))
    assert sorted(path.name for path in outside.iterdir()) == ["tree.toml"]


def test_a_held_journal_is_waited_for_only_so_long(garden: Garden, tree: Tree, monkeypatch: pytest.MonkeyPatch) -> None:
    from benchmate.garden import lock

    garden.append(tree, said("before"))
    monkeypatch.setattr(lock, "PATIENCE_S", 0.05)
    with lock.held(journal_of(garden, tree), os.O_RDWR), pytest.raises(NotLogged, match="another program"):
        garden.append(tree, said("words"))
    assert garden.append(tree, said("words")).said == "words"


@pytest.mark.parametrize("processes", [2, 4])
def test_processes_at_once_lose_nothing(garden: Garden, tree: Tree, processes: int) -> None:
    each = 25 * ROUNDS
    children = []
    for process in range(processes):
        child = os.fork()
        if child == 0:
            try:
                own = open_garden(garden.path)
                for n in range(each):
                    own.append(tree, said(f"{process} {n}"))
                os._exit(0)
            except BaseException:
                os._exit(1)
        children.append(child)
    assert [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children] == [0] * processes
    entries = garden.entries(tree)
    assert garden.faults == ()
    assert sorted(entry.said for entry in entries) == sorted(f"{p} {n}" for p in range(processes) for n in range(each))
    for process in range(processes):
        own = [entry.said for entry in entries if entry.said.startswith(f"{process} ")]
        assert own == [f"{process} {n}" for n in range(each)]
