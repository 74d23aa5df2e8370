"""A tree's record told, what is due, rules, and the calendar."""

import datetime as dt

import pytest

from benchmate.garden import Due, DueTree, FollowUp
from benchmate.garden.record import Entry, Tree
from benchmate.telling.calendar import calendar_text
from benchmate.telling.due import due_lines
from benchmate.telling.lines import lay
from benchmate.telling.story import entry_words, matching, season_of, story_lines

ON = dt.date(2026, 6, 14)
TREE = Tree("Gatepost", "gatepost", "Acer campestre", "hedge-collected", "structure", "healthy", dt.date(2022, 3, 12))


def entry(day, kind, id="a", **more):
    return Entry(f"{day}-{id}", dt.date.fromisoformat(day), kind, **more)


WIRED = entry(
    "2025-11-08",
    "done",
    said="wired the low left branch",
    work=({"work": "wire", "part": "branch", "side": "left", "level": "low"},),
    reason="The bark sits tight now.",
)
ENTRIES = (
    entry("2024-03-16", "done", said="repotted", work=({"work": "repot", "share": 0.33},)),
    WIRED,
    entry("2026-01-20", "note", said="snow on the bench"),
    entry("2026-06-06", "seen", said="weak", facts=({"kind": "health", "value": "weak"},)),
    entry("2026-06-07", "struck", said="scratch that", strikes="2026-06-06-a"),
)


def told(**how):
    return lay(story_lines(TREE, ENTRIES, ON, **how)).split("\n")


def test_the_record_is_a_story_by_season():
    assert told(newest_first=False) == [
        "Gatepost: Acer campestre, hedge-collected, since 12 March 2022, phase structure, healthy.",
        "Spring 2024",
        "  16 March: Done: repotted it, 33 % of the roots off.",
        "Autumn 2025",
        "  8 November: Done: wired the low left branch, because the bark sits tight now.",
        "Winter 2025-26",
        "  20 January: Note: snow on the bench.",
        "Summer 2026",
        "  6 June: Seen: weak (taken back).",
    ]


def test_newest_first_turns_seasons_and_entries_round():
    rows = told()
    assert rows[1] == "Summer 2026" and rows[-1].startswith("  16 March")


def test_the_south_has_its_own_seasons():
    assert "Autumn 2024" in told(southern=True)
    assert season_of(dt.date(2026, 1, 5), True) == "Summer 2025-26"


@pytest.mark.parametrize("width", [40, 120])
def test_the_story_keeps_its_width_and_its_words(width):
    rows = lay(story_lines(TREE, ENTRIES, ON), width).split("\n")
    assert all(len(row) <= width for row in rows)
    assert " ".join(rows).split() == " ".join(told()).split()


def test_an_empty_record_says_so():
    assert "Nothing is in its record yet" in lay(story_lines(TREE, (), ON))


@pytest.mark.parametrize(
    "made, words",
    [
        (entry("2026-06-14", "left", work=({"work": "leave"},)), "left: leave it alone"),
        (entry("2026-06-14", "left", work=({"work": "defoliate"},)), "left, did not take all the leaves off"),
        (entry("2026-06-14", "plan", work=({"work": "repot"},), when="2027-spring"), "plan: repot it, spring 2027"),
        (entry("2026-06-14", "seen", measures={"diameter_mm": 64.0}), "seen: diameter 64 mm"),
        (entry("2026-06-14", "done", said="juggled it"), "done: juggled it"),
        (entry("2026-06-14", "seen", facts=({"kind": "flush", "value": "odd"},)), "seen: odd"),
        (entry("2026-06-01", "done", work=({"work": "feed"},)), "done: fed it (1 June)"),
    ],
)
def test_entries_in_words(made, words):
    assert entry_words(made, ON) == words


def test_entries_are_found_by_work_kind_and_day():
    assert matching(ENTRIES, work="wire") == [WIRED]
    assert [one.kind for one in matching(ENTRIES, kinds=("note",))] == ["note"]
    assert matching(ENTRIES, start=dt.date(2026, 1, 1), end=dt.date(2026, 1, 31))[0].kind == "note"
    assert not any(one.kind == "seen" for one in matching(ENTRIES)), "what was taken back does not count"


def follow(day, left, says="Look at it.", **more):
    on = dt.date.fromisoformat(day)
    return Due(FollowUp("check", on, on, says, "2026-06-01-a", part="wire", **more), left)


def test_what_is_due_is_told_by_tree_with_what_is_late():
    groups = (
        DueTree(TREE, (follow("2026-06-10", -4), follow("2026-06-20", 6, weather="frost-free", slips="it bites"))),
    )
    assert lay(due_lines(groups, ON, 14)).split("\n") == [
        "2 things are due on 1 tree in the next 14 days, 1 of them overdue.",
        "Gatepost:",
        "  - Check the wire (overdue since 10 June): Look at it.",
        "  - Check the wire (in 6 days, 20 June): Look at it; only when it is frost free; waiting costs: it bites.",
    ]


@pytest.mark.parametrize(
    "more, hidden", [({"rule": "r"}, True), ({}, False), ({"rule": "r", "closed_by": ("unwire",)}, False)]
)
def test_what_a_rule_asked_for_long_ago_is_only_counted(more, hidden):
    groups = (DueTree(TREE, (follow("2025-06-10", -369, **more),)),)
    text = lay(due_lines(groups, ON, 14))
    assert ("1 more is over 120 days late: --all shows them." in text) == hidden
    assert "overdue since 10 June 2025" in lay(due_lines(groups, ON, 14, whole=True))


def test_nothing_due_says_so():
    assert lay(due_lines((), ON, 14)) == "Nothing is due in the next 14 days."


def test_a_calendar_folds_escapes_and_reads_back():
    icalendar = pytest.importorskip("icalendar")
    words = "Look; see, whether the wire bites \\ and \u00e9 " + "so on " * 30 + "\nsecond line \x1b[2J"
    text = calendar_text([(TREE, (FollowUp("check", ON, ON, words, "2026-06-01-a", part="wire"),))], ON)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n")) and "\x1b" not in text
    (event,) = icalendar.Calendar.from_ical(text).walk("VEVENT")
    assert event["SUMMARY"] == "Gatepost: check the wire" and event["DTSTART"].dt == ON
    assert str(event["DESCRIPTION"]).startswith("Look; see, whether the wire bites \\ and \u00e9 so on")
    assert event["UID"] == "2026-06-01-a-0@gatepost.benchmate"


def test_follow_ups_without_a_day_are_not_events():
    assert "VEVENT" not in calendar_text([(TREE, (FollowUp("check", None, None, "x", "a"),))], ON)


def test_work_refused_and_a_tree_left_alone_are_told_apart():
    both = entry("2026-06-14", "left", work=({"work": "remove", "level": "top"}, {"work": "leave"}))
    assert entry_words(both, ON) == "left, did not remove the top one; left it alone"
