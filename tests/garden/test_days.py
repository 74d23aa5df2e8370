"""The days on which trees were worked on: as the journals have them, kept while they stay, and read in small pieces."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from pathlib import Path

import pytest
from entries import said
from orchard import plant

from benchmate.garden.days import EVERY, FILE, entries_of_days
from benchmate.garden.journal import standing
from benchmate.garden.record import Entry
from benchmate.garden.store import Garden, open_garden

WORKS = ("repot", "wire", "shorten", "defoliate")
KEPT = ("done", "left")
DAY = dt.date(2026, 6, 14)


@pytest.fixture
def orchard(tmp_path: Path) -> Garden:
    plant(tmp_path / "orchard", 24, 30)
    return open_garden(tmp_path / "orchard")


def by_journals(garden: Garden, folder: str, work: str, kinds: tuple[str, ...]) -> list[int]:
    tree = garden.find(folder)
    return sorted(
        entry.day.toordinal()
        for entry in standing(open_garden(garden.path).entries(tree))
        if not work or (entry.kind in kinds and any(table.get("work") == work for table in entry.work))
    )


def compare(garden: Garden) -> None:
    days = garden.days()
    for tree in garden.trees():
        for work, kinds in [
            (EVERY, ("done",)),
            *((work, ("done",)) for work in WORKS),
            ("defoliate", ("done", "left")),
        ]:
            assert sorted(days.of(tree.folder, work, kinds)) == by_journals(garden, tree.folder, work, kinds)


def test_days_are_those_of_the_journals_whatever_happens_to_them(orchard: Garden) -> None:
    compare(orchard)
    tree = orchard.trees()[3]
    done = orchard.append(tree, Entry("", DAY, "done", "repotted it", work=({"work": "repot"},)))
    compare(orchard)
    orchard.append(tree, Entry("", DAY, "struck", strikes=done.id))
    compare(orchard)
    compare(open_garden(orchard.path))


@pytest.mark.parametrize("harm", ["cut", "foreign", "gone", "of another garden"])
def test_what_is_kept_of_them_is_never_trusted(orchard: Garden, harm: str) -> None:
    orchard.days()
    kept = orchard.path / ".benchmate" / FILE
    body = kept.read_bytes()
    orchard.append(orchard.trees()[0], Entry("", DAY, "done", "repotted it", work=({"work": "repot"},)))
    match harm:
        case "cut":
            kept.write_bytes(body[:-9])
        case "foreign":
            kept.write_bytes(b'{"trees": 3}')
        case "gone":
            kept.unlink()
        case "of another garden":
            kept.write_bytes(body.replace(b"anvil-1", b"anvil-x"))
    compare(open_garden(orchard.path))


def test_entries_of_a_day_are_read_from_their_pieces_alone(orchard: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    tree = orchard.trees()[5]
    entries = orchard.entries(tree)
    asked = {entries[3].day.toordinal(), entries[-1].day.toordinal()}
    expected = Counter(entry.day.toordinal() for entry in entries if entry.day.toordinal() in asked)
    monkeypatch.setattr("benchmate.garden.days.read_journals", lambda folder: pytest.fail("all was read"))
    found = entries_of_days(orchard.path / tree.folder, asked, expected)
    assert found == tuple(entry for entry in entries if entry.day.toordinal() in asked)


@pytest.mark.parametrize("how", ["struck", "two files", "by hand", "broken"])
def test_where_pieces_do_not_tell_all_of_the_journals_are_read(orchard: Garden, how: str) -> None:
    tree = orchard.trees()[5]
    folder = orchard.path / tree.folder
    day = orchard.entries(tree)[4].day
    match how:
        case "struck":
            orchard.append(tree, Entry("", day, "struck", strikes=orchard.append(tree, said("no", day)).id))
        case "two files":
            open_garden(orchard.path, "phone").append(tree, said("from the phone", day))
        case "by hand":
            with (folder / "journal.toml").open("a", encoding="utf-8") as file:
                file.write(f'\n[[entry]]\nid = "mine"\nat = "{day}"\nkind = "note"\n')
        case "broken":
            with (folder / "journal.toml").open("a", encoding="utf-8") as file:
                file.write(f'\n[[entry]]\nid = "mine"\nat = {day}\nkind = note\n')
    asked = {day.toordinal()}
    held = Counter(number for number in orchard.days().of(tree.folder) if number in asked)
    wanted = [entry for entry in standing(open_garden(orchard.path).entries(tree)) if entry.day == day]
    assert list(orchard.entries_of_days(tree, asked, held)) == wanted
