"""The sheet of a tree in the talk, and what its record taught."""

import pytest

from benchmate.fault import UserError
from benchmate.talk.bench import Bench
from benchmate.telling import lay, tell


def told(answer, width=None):
    return lay(tell(answer), width)


@pytest.mark.parametrize(
    "words, name",
    [
        ("sheet", "Gatepost"),
        ("Show me its sheet.", "Gatepost"),
        ("show me the sheet", "Gatepost"),
        ("sheet of Crag", "Crag"),
        ("show me Crag's sheet", "Crag"),
    ],
)
def test_the_sheet_is_told_and_nothing_moves(bench, words, name):
    answer = bench.answer(words)
    assert told(answer).startswith(f"{name}, as of 14 June 2026.")
    assert "Its line of years" in told(answer) and bench.context.tree == "Gatepost" and not answer.logged


def test_it_fits_forty_columns(bench):
    rows = told(bench.answer("show me its sheet"), 40).split("\n")
    assert max(map(len, rows)) <= 40


def test_for_a_screen_reader_it_has_no_bars(demo, bench):
    assert "#####" in told(bench.answer("sheet"))
    plain = Bench(bench.house, bench.on, tree="Gatepost", plain=True)
    assert "##" not in told(plain.answer("sheet"))


def test_a_sheet_of_no_tree_is_refused_in_one_line(bench, bare_bench):
    with pytest.raises(UserError, match="Nobody"):
        bench.answer("sheet of Nobody")
    assert "No tree is at hand" in told(bare_bench.answer("sheet"))


def test_what_the_record_taught_is_told_with_how_often_it_was_seen(bench):
    words = told(bench.answer("what has it taught?"))
    assert words.startswith("What Gatepost and its kind taught:")
    # 58 mm on 2025-03-22 and 64 mm on 2026-03-21 stand in its journal
    assert "Growth of the trunk's thickness" in words and "seen once here (6)" in words
    assert "seen once here (6)" in " ".join(told(bench.answer("sheet")).split())


def test_a_record_that_taught_nothing_says_so(empty_bench):
    empty_bench.answer("new tree, field maple, call it Slate")
    assert "too short to teach anything" in told(empty_bench.answer("what has it taught"))
