"""What waits: late things first, what was long ago only counted, plans without a day told as such."""

import datetime as dt

import pytest
from page_sheets import ON, entry, sheet

from benchmate.garden import DueTree, follow_ups
from benchmate.garden.agenda import due_items
from benchmate.telling.page.waiting import MOST, waiting_words


def waiting(*entries):
    waits = follow_ups(entries)
    one = sheet(entries, undated=tuple(item for item in waits if item.on is None))
    return waiting_words(sheet(entries, due=DueTree(one.tree, due_items(waits, ON, 36_500)), undated=one.undated))


def asks(day, number=0, **more):
    follow = {"work": "check", "part": "wire", "on": day, "says": "Look whether it bites."} | more
    return entry("2026-01-10", work=[{"work": "feed"}], follow=[follow], number=number)


def test_late_things_stand_first_and_say_so():
    told, remarks = waiting(asks(dt.date(2026, 9, 1)), asks(dt.date(2026, 6, 1), 1, part="root"))
    assert told == [
        "Check the roots (overdue since 1 June): Look whether it bites.",
        "Check the wire (in 11 weeks, 1 September): Look whether it bites.",
    ]
    assert remarks == []


@pytest.mark.parametrize("count, words", [(1, "1 thing is"), (2, "2 things are")])
def test_what_a_rule_asked_for_long_ago_is_counted(count, words):
    parts = ("wire", "root")
    past = [asks(dt.date(2026, 1, 20), n, rule="some-rule", part=parts[n]) for n in range(count)]
    assert waiting(*past) == ([], [f"{words} over 120 days late: see benchmate due --all."])


def test_a_plan_without_a_day_waits_too():
    told, _ = waiting(entry("2026-06-01", "plan", "air-layer the top some day", work=[{"work": "air-layer"}]))
    assert told == ["Air-layer it (no day was told): air-layer the top some day."]


def test_nothing_waits_says_so():
    assert waiting() == ([], ["Nothing waits."])


def test_a_long_list_is_cut_and_counted():
    days = [dt.date(2026, 7, 1) + dt.timedelta(days=n) for n in range(MOST + 3)]
    told, remarks = waiting(*(asks(day, n) for n, day in enumerate(days)))
    assert len(told) == MOST and remarks == ["3 more wait for later days."]
