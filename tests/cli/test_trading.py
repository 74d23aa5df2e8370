"""`export` and `import` through the command line's entrance."""

import io
import os
import shutil
import signal
from pathlib import Path

import pytest

from benchmate.cli import main
from benchmate.garden import check_garden, new_garden, open_garden
from benchmate.garden.record import Place
from benchmate.garden.store import Garden
from benchmate.talk.commands import waiting

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"


@pytest.fixture
def demo(tmp_path):
    home = tmp_path / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


@pytest.fixture
def empty(tmp_path):
    """A garden without trees."""
    return new_garden(tmp_path / "empty", Place("Test garden", 51.5, -0.5)).path


@pytest.fixture
def run(capsys):
    def run(*words):
        status = main([str(word) for word in words])
        told = capsys.readouterr()
        return status, told.out, told.err

    return run


def entries(home):
    garden = open_garden(home)
    return {tree.name: repr(garden.entries(tree)) for tree in garden.trees()}


@pytest.mark.parametrize("form", ["csv", "jsonl"])
def test_what_goes_out_comes_in_without_loss(demo, empty, run, tmp_path, form):
    file = tmp_path / f"out.{form}"
    status, out, _ = run("export", "--as", form, "--out", file, "--garden", demo)
    assert status == 0 and f"writtento{file}" in "".join(out.split())  # a long path parts at its hyphens
    status, _, err = run("import", file, "--new-trees", "--garden", empty)
    assert (status, err) == (0, "")
    assert entries(empty) == entries(demo)
    status, out, _ = run("import", file, "--garden", empty)
    assert status == 0 and out.startswith("0 entries are taken in") and "in the garden already" in out


def test_one_tree_to_standard_output_in_the_form_of_the_files_name(demo, run, tmp_path):
    _, out, _ = run("export", "Ratchet", "--garden", demo)
    assert len(out.splitlines()) == len(open_garden(demo).entries(open_garden(demo).find("Ratchet")))
    assert all(line.startswith('{"tree": "ratchet"') for line in out.splitlines())
    run("export", "Ratchet", "--out", tmp_path / "r.CSV", "--garden", demo)
    assert (tmp_path / "r.CSV").read_text(encoding="utf-8").startswith("tree,name,id,at,kind")


@pytest.mark.parametrize(
    "words", ["date is when, note is said, tree is Gatepost", "when is date, said is note, tree is Gatepost"]
)
def test_columns_are_told_in_plain_words_in_either_order(demo, run, tmp_path, words):
    file = tmp_path / "old.csv"
    file.write_text("date,note\n2024-05-01,first leaves\n2024-06-02,watered well\n", encoding="utf-8")
    before = entries(demo)
    status, out, _ = run("import", file, "--map", words, "--dry", "--garden", demo)
    assert status == 0 and out.startswith("2 entries would be taken in") and entries(demo) == before
    status, out, _ = run("import", file, "--map", words, "--garden", demo)
    assert status == 0 and out.startswith("2 entries are taken in")
    assert [entry.said for entry in of_tree(demo, "Gatepost") if entry.day.year == 2024][-2:] != []
    assert {"first leaves", "watered well"} <= {entry.said for entry in of_tree(demo, "Gatepost")}


def of_tree(home, name):
    garden = open_garden(home)
    return garden.entries(garden.find(name))


REFUSALS = {
    "no such file": (None, (), "no such file or directory; name a file of CSV or JSON Lines"),
    "no map": (
        "Date,Notes\n2024-05-01,x\n",
        (),
        'its columns are Date, Notes; say what its columns mean, as in --map "',
    ),
    "empty": ("", (), "it is empty"),
    "a column that is none": ("Date,Notes\n2024-05-01,x\n", ("--map", "day is When"), "there is no column 'When'"),
    "no words of ours": ("Date,Notes\n2024-05-01,x\n", ("--map", "colour is Date"), "says nothing of a column"),
    "a day that is none": (
        "Date,Notes\n2024-15-01,x\n",
        ("--map", "day is Date, said is Notes, tree is Gatepost"),
        ":2: no day that can be read: 2024-15-01",
    ),
    "no such tree": (
        "Date,Notes\n2024-05-01,x\n",
        ("--map", "day is Date, said is Notes, tree is Nobody"),
        "no tree 'Nobody' in the garden",
    ),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_a_refusal_is_one_plain_line(demo, run, tmp_path, case):
    text, words, told = REFUSALS[case]
    file = tmp_path / "in.csv"
    if text is not None:
        file.write_text(text, encoding="utf-8")
    status, _, err = run("import", file, *words, "--garden", demo)
    assert status == 1 and len(err.splitlines()) == 1 and told in err.replace('"Nobody"', "'Nobody'")


def test_bytes_that_are_no_words_are_refused(demo, run, tmp_path):
    (tmp_path / "in.csv").write_bytes(b"Date,Notes\n2024-05-01,\xff\xfe\n")
    status, _, err = run("import", tmp_path / "in.csv", "--garden", demo)
    assert status == 1 and "it is no UTF-8" in err and len(err.splitlines()) == 1


def test_ctrl_c_between_two_writes_leaves_the_record_whole(demo, empty, run, tmp_path, monkeypatch):
    file = tmp_path / "out.jsonl"
    run("export", "--out", file, "--garden", demo)
    write, calls = Garden.append_all, []

    def stopped(garden, tree, found):
        calls.append(tree.name)
        if len(calls) == 2:
            os.kill(os.getpid(), signal.SIGINT)
        return write(garden, tree, found)

    monkeypatch.setattr(Garden, "append_all", stopped)
    status, _, err = run("import", file, "--new-trees", "--garden", empty)
    assert status == 1 and len(calls) == 2
    kept = sum(len(of_tree(empty, name)) for name in calls)
    assert err.strip() == f"benchmate: stopped: {kept} entries are taken in, whole; run it again for the rest"
    assert check_garden(empty) == []
    monkeypatch.setattr(Garden, "append_all", write)
    assert run("import", file, "--new-trees", "--garden", empty)[0] == 0
    assert entries(empty) == entries(demo)


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.mark.parametrize(
    "out, plain, told",
    [
        (Terminal(), False, "\rread: 1 of 3\rread: 2 of 3\rread: 3 of 3\r            \r"),
        (Terminal(), True, "read: 1 of 3\nread: 2 of 3\nread: 3 of 3\n"),
        (io.StringIO(), False, "read: 1 of 3\nread: 2 of 3\nread: 3 of 3\n"),
    ],
)
def test_progress_is_drawn_on_one_line_or_told_in_lines(out, plain, told, monkeypatch):
    for name in ("QUIET_S", "AGAIN_S", "LINE_S"):
        monkeypatch.setattr(waiting, name, -1.0)
    monkeypatch.setenv("TERM", "xterm")
    with waiting.Waiting("read", out, plain=plain) as progress:
        for done in (1, 2, 3):
            progress(done, 3)
    assert out.getvalue() == told


def test_work_that_is_soon_over_says_nothing():
    out = Terminal()
    with waiting.Waiting("read", out) as progress:
        progress(1, 1)
    assert out.getvalue() == ""
