"""`benchmate sheet`: where the page goes, and where it never goes."""

import os

import pytest
from page_parts import tree_of
from page_sheets import old_yew

from benchmate.cli import main

ON = ("--on", "2026-06-14")


@pytest.fixture
def home(tmp_path):
    old_yew(tmp_path / "garden")
    return tmp_path / "garden"


def run(home, *words):
    return main(["sheet", *words, "--garden", str(home), *ON])


def files(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if ".benchmate" not in path.parts}


def test_the_page_stands_beside_the_journal_unless_another_place_is_named(home, capsys):
    before = files(home.parent)
    assert run(home, "Knuckle") == 0
    assert files(home.parent) - before == {"garden/knuckle/sheet.html"}
    assert "knuckle/sheet.html" in capsys.readouterr().out
    tree_of((home / "knuckle" / "sheet.html").read_text(encoding="utf-8"))


def test_the_garden_stays_faultless_with_a_page_in_it(home, capsys):
    run(home, "Sprig")
    assert main(["check", "--garden", str(home)]) == 0


def test_out_names_a_file(home, tmp_path):
    assert run(home, "Sprig", "--out", str(tmp_path / "a.html")) == 0
    assert (tmp_path / "a.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert not (home / "sprig" / "sheet.html").exists()


def test_a_dash_prints_the_page_and_writes_nothing(home, capsys):
    before = files(home.parent)
    assert run(home, "Sprig", "--out", "-") == 0
    assert files(home.parent) == before
    tree_of(capsys.readouterr().out)


def test_a_second_page_takes_the_place_of_the_first(home):
    run(home, "Sprig")
    first = (home / "sprig" / "sheet.html").read_bytes()
    run(home, "Sprig")
    assert (home / "sprig" / "sheet.html").read_bytes() == first


def test_the_journal_is_left_as_it_is(home):
    before = (home / "knuckle" / "journal.toml").read_bytes()
    run(home, "Knuckle")
    run(home, "Knuckle", "--text")
    assert (home / "knuckle" / "journal.toml").read_bytes() == before


@pytest.mark.skipif(os.name == "nt", reason="links want rights there")
def test_a_link_in_the_pages_place_is_replaced_not_followed(home, tmp_path):
    outside = tmp_path / "outside.txt"
    outside.write_text("mine")
    (home / "sprig" / "sheet.html").symlink_to(outside)
    assert run(home, "Sprig") == 0
    assert outside.read_text() == "mine" and not (home / "sprig" / "sheet.html").is_symlink()


@pytest.mark.skipif(os.name == "nt", reason="links want rights there")
def test_a_tree_whose_folder_leads_out_gets_no_page_there(home, tmp_path, capsys):
    from benchmate.fault import UserError
    from benchmate.talk.commands.sheeting import inside

    (tmp_path / "outside").mkdir()
    (home / "away").symlink_to(tmp_path / "outside")
    with pytest.raises(UserError, match="leads out of the garden"):
        inside(home, "away")


@pytest.mark.parametrize(
    "words, told",
    [
        (("Nobody",), "no tree is called 'Nobody'"),
        (("Sprig", "--out", "{home}"), "it is a folder"),
        (("Sprig", "--out", "{home}/no/such/a.html"), "no such file or directory"),
    ],
    ids=["unknown tree", "a folder", "no such folder"],
)
def test_faults_are_one_plain_line(home, capsys, words, told):
    assert run(home, *(word.format(home=home) for word in words)) == 1
    said = capsys.readouterr()
    assert said.out == "" and told in said.err and said.err.count("\n") == 1


def test_text_is_printed_with_bars_and_plain_without(home, capsys):
    assert run(home, "Knuckle", "--text") == 0
    told = capsys.readouterr().out
    assert told.startswith("Knuckle, as of 14 June 2026.") and "##" in told
    assert run(home, "Knuckle", "--text", "--plain") == 0
    assert "##" not in capsys.readouterr().out


def test_on_is_the_day_of_the_sheet(home, capsys):
    main(["sheet", "Knuckle", "--text", "--garden", str(home), "--on", "2016-06-14"])
    told = capsys.readouterr().out
    assert "as of 14 June 2016" in told and "2015" in told and "2018" not in told
