"""A record that could not be read whole says so, in the talk and behind each command that tells of it."""

import datetime as dt

import pytest

from benchmate.cli import main
from benchmate.garden import Entry, new_garden, new_tree, open_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

DAY = dt.date(2026, 6, 14)


@pytest.fixture
def damaged(tmp_path):
    """A garden whose second tree has an entry that cannot be read."""
    home = tmp_path / "garden"
    new_garden(home, Place("Here", 52.2, None, (4, 28), (10, 18)))
    garden = open_garden(home)
    for name, species in (("Whole", "Larix"), ("Holed", "Acer campestre")):
        garden.append(new_tree(garden, name, species), Entry("", DAY, "done", "fed it", work=({"work": "feed"},)))
    path = home / "holed" / "journal.toml"
    path.write_text(path.read_text().replace('kind = "done"', "kind = done"), encoding="utf-8")
    return home


def lacking(answer):
    return [words for words in answer.aside if "not read" in words]


def test_the_talk_tells_once_what_the_record_lacks(damaged):
    bench = Bench(House(damaged), DAY)
    assert lacking(bench.answer("how is Whole")) == []
    (told,) = lacking(bench.answer("how is Holed"))
    assert "holed/journal.toml:" in told
    assert lacking(bench.answer("how is Holed")) == []


COMMANDS = [
    ("due",),
    ("record", "Holed"),
    ("export",),
    ("calendar",),
    ("sheet", "Holed", "--text"),
    ("plan", "Holed"),
]


@pytest.mark.parametrize("words", COMMANDS, ids=[words[0] for words in COMMANDS])
def test_a_command_tells_it_beside_what_it_gives(damaged, capsys, words):
    assert main([*words, "--garden", str(damaged), "--on", DAY.isoformat()]) == 0
    assert "holed/journal.toml:" in capsys.readouterr().err


def test_where_all_is_read_nothing_is_told(damaged, capsys):
    main(["record", "Whole", "--garden", str(damaged), "--on", DAY.isoformat()])
    assert capsys.readouterr().err == ""
