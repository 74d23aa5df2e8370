"""Questions to the record."""

import datetime as dt

import pytest

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading, Work
from benchmate.talk.recorded.recall import recall

ON = dt.date(2026, 6, 14)


def done(day, work, id="x", **more):
    return Entry(f"{day}-{id}", dt.date.fromisoformat(day), "done", work, work=({"work": work, **more},))


SLATE = [
    done("2024-03-20", "repot"),
    done("2025-05-03", "feed"),
    done("2025-06-20", "feed"),
    done("2026-05-10", "feed"),
    Entry("s", ON, "struck", strikes="2026-05-10-x"),
]


def ask(when=None, work=None):
    return Reading("?", ("ask",), "recall", work=(Work(work),) if work else (), when=when)


@pytest.mark.parametrize(
    "work, when, first",
    [
        ("repot", None, "You repotted it on 20 March 2024, 2 years ago"),
        ("feed", None, "You fed it twice; last on 20 June 2025, 12 months ago"),
        ("feed", "2026-05", "No in May 2026: the last time was 20 June 2025"),
        ("feed", "2025-06", "You fed it on 20 June 2025, 12 months ago"),
        ("wire", None, "The record holds no day when you wired it"),
        (None, "2025-summer", "The record holds 1 entry for Slate in summer 2025, newest first"),
        (None, "2023", "The record holds nothing for Slate in 2023"),
    ],
)
def test_the_answer_comes_first(work, when, first):
    assert recall(ask(when, work), {"Slate": SLATE}, ON)[0] == first


def test_what_was_taken_back_does_not_count():
    assert not any("10 May 2026" in line for line in recall(ask(), {"Slate": SLATE}, ON))


def test_over_several_trees_each_line_names_its_tree():
    lines = recall(ask(work="feed"), {"Slate": SLATE, "Gatepost": [done("2026-06-01", "feed")]}, ON)
    assert lines[0] == "You fed it 3 times; last on 1 June 2026 (Gatepost), 13 days ago"
    assert lines[1] == "1 June 2026, Gatepost: done: fed it"


def test_entries_after_today_are_not_told():
    assert recall(ask(work="feed"), {"Slate": SLATE}, dt.date(2025, 5, 10))[0] == "You fed it on 3 May 2025, 7 days ago"
