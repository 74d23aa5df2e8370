"""Which days and which trees a question to the record means."""

import datetime as dt
from pathlib import Path

import pytest

from benchmate.hearing.reading import Reading
from benchmate.talk.asked.asked_how import asks_for_all, points_at_one, with_days
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
LEXICON = House(DEMO).lexicon
ON = dt.date(2026, 6, 17)  # a Wednesday


def heard(words, **more):
    return with_days(Reading(words, ("ask",), "recall", **more), ON, LEXICON).when


@pytest.mark.parametrize(
    "words, when, days",
    [
        ("what did I do last week", "2026-06-10", "2026-06-08/2026-06-14"),
        ("what have I done this week", None, "2026-06-15/2026-06-17"),
        ("what did I do the week before last", "2026-06-03", "2026-06-01/2026-06-07"),
        ("what did I do the past fortnight", "2026-06-03", "2026-06-03/2026-06-17"),
        ("what did I do a week ago", "2026-06-10", "2026-06-10"),
        ("what did I do two weeks ago", "2026-06-03", "2026-06-03"),
        ("what did I do a week before now", "2026-06-10", "2026-06-10"),
        ("what did I do today", "2026-06-17", "2026-06-17"),
        ("what did I do last month", "2026-05", "2026-05"),
        ("what have I done", None, None),
    ],
)
def test_a_week_is_seven_days(words, when, days):
    assert heard(words, when=when) == days


def test_a_count_of_days_ends_today():
    assert heard("what did I do in the last ten days", series=(("days", 10.0),)) == "2026-06-07/2026-06-17"


@pytest.mark.parametrize(
    "words, points",
    [
        ("what have I done to it today", True),
        ("what did I do on this one last week", True),
        ("what did I do to it", True),
        ("what have I done this week", False),
        ("what did I do this spring", False),
        ("what have I done today", False),
    ],
)
def test_a_word_that_points_at_the_tree(words, points):
    assert points_at_one(words, LEXICON) == points


@pytest.mark.parametrize(
    "words, whole",
    [
        ("what did I decide about repotting it", True),
        ("what was decided about the wire", True),
        ("when did I last repot it", False),
        ("did I feed it", False),
    ],
)
def test_all_that_was_said_is_asked_for(words, whole):
    assert asks_for_all(words, LEXICON) == whole


# ---- in the talk


def names(says):
    return {words.split(", ")[1].partition(":")[0] for words in says[1:] if ", " in words.partition(":")[0]}


@pytest.mark.parametrize("tree", ["Minnow", None])
def test_last_week_is_told_of_all_trees(demo, tree):
    says = Bench(House(demo), dt.date(2026, 6, 14), tree=tree).answer("what did I do last week").says
    assert says[0] == "The record holds 10 entries from 1 to 7 June, newest first"
    assert {"Cellar", "Crag", "Gatepost"} <= names(says)


def test_today_is_told_of_all_trees(bench):
    bench.answer("fed the elm")
    bench.answer("let's do the beech")
    bench.answer("wired the left branch")
    says = bench.answer("what have I done today").says
    assert says[0] == "The record holds 2 entries on 14 June, newest first" and names(says) == {"Minnow", "Parchment"}


def test_today_of_it_is_told_of_the_tree_at_hand(bench):
    bench.answer("fed the elm")
    assert (
        bench.answer("what have I done to it today").says[0]
        == "The record holds 1 entry for Minnow on 14 June, newest first"
    )


def test_a_long_time_is_told_of_the_tree_at_hand(bench):
    assert "for Gatepost" in bench.answer("what did I do this spring").says[0]


def test_a_question_that_was_not_read_through_is_answered_in_a_few_lines(bench):
    answer = bench.carry(Reading("what about the zork", ("ask",), "recall", missed=(missed("zork"),)))
    assert len(answer.says) == 5 and "more stand in the record of Gatepost" in answer.says[-1]


def missed(words):
    from benchmate.hearing.reading import Missed

    return Missed(words, (0, 4))


@pytest.mark.parametrize("words", ["which trees did I repot this spring", "which did I repot this spring"])
def test_which_trees_were_done_is_a_list(bench, words):
    answer = bench.answer(words)
    assert {row["tree"] for row in answer.found} == {"Minnow", "Sprint"}


def test_which_to_do_in_a_time_to_come_is_no_list(bench):
    assert bench.answer("which should I repot next spring").advice is not None


def test_what_was_taken_off_is_every_cut(bench):
    bench.answer("shortened the left branch")
    bench.answer("pinched the shoots")
    says = bench.answer("what did I take off it this year").says
    assert any("shortened" in words for words in says) and any("pinched" in words for words in says)
    assert not any("no day when" in words for words in says)
