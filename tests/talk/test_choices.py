"""A choice is answered by one of its own, each weighed at its own time, and is nothing that was done. What is asked is
answered by the first line."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.told import tell


def asked(demo, tree, day, said):
    return Bench(House(demo), dt.date.fromisoformat(day), tree=tree).answer(said)


@pytest.mark.parametrize(
    "tree, day, said, first, second",
    [
        ("Bristle", "2026-06-14", "keep in shade or sun", "sun", "shade"),
        ("Bristle", "2026-06-14", "should I feed it or prune it", "feed", "shorten"),
        ("Parchment", "2026-03-10", "pinch or wait", "wait", "pinch"),
        ("Parchment", "2026-04-20", "thin the leaves or shorten the shoots", "shorten", "thin-leaves"),
        ("Minnow", "2026-01-20", "repot or root prune", "repot", "root-prune"),
        ("Crag", "2026-10-05", "snip the wire off now or leave till spring", "unwire", "leave"),
        ("Gatepost", "2026-06-14", "should I pinch it or leave it", "leave", "pinch"),
        ("Sprint", "2026-06-14", "shade or full sun", "sun", "shade"),
        ("Sprint", "2026-06-14", "stand it in the sun or the shade", "sun", "shade"),
        ("Ratchet", "2026-06-02", "keep the left or the right branch, left is 5 mm, right 9", None, None),
    ],
)
def test_the_two_that_are_named_come_first(demo, tree, day, said, first, second):
    answer = asked(demo, tree, day, said)
    works = [one.work for one in answer.advice.options[:2]]
    assert works == ([first, second] if first else ["select-leader", "select-leader"])
    assert not any(entry.work for entry in answer.logged)


@pytest.mark.parametrize(
    "said, works",
    [
        ("repot in spring or autumn", ["repot"]),
        ("wire it in winter or summer", ["wire"]),
        ("repot it this year or next", ["repot"]),
        ("seal the wound or leave it open", ["seal-wound"]),
    ],
)
def test_a_choice_of_times_or_ways_is_nothing_done_or_planned(demo, said, works):
    answer = asked(demo, "Ratchet", "2026-06-14", said)
    assert not any(entry.work for entry in answer.logged) and answer.tree == "Ratchet"
    assert [work.work for work in answer.reading.work] == works


@pytest.mark.parametrize(
    "said", ["snip the wire off now or leave till spring", "should I wire it now or wait until winter"]
)
def test_what_is_for_now_is_weighed_today(demo, said):
    assert not any("weighed for" in words for words in asked(demo, "Ratchet", "2026-10-05", said).advice.assumed)


def test_what_is_compared_by_nothing_known_is_asked_and_no_other_work_is_named_for_it(demo):
    answer = asked(demo, "Gatepost", "2026-06-14", "which of the two tops do I keep")
    assert tell(answer)[0].words.startswith("Which of them cannot be told") and answer.advice.asks


def test_where_neither_may_be_done_the_first_line_says_so(demo):
    answer = asked(demo, "Minnow", "2026-01-20", "repot or root prune")
    assert tell(answer)[0].words.startswith("Neither now: ")


@pytest.mark.parametrize("said", ["if I prune today will it bleed", "if I feed now will it grow"])
def test_work_that_is_only_supposed_is_no_event(demo, said):
    answer = asked(demo, "Ratchet", "2026-06-14", said)
    assert not answer.logged and answer.reading.topic == "what-if"


@pytest.mark.parametrize(
    "day, said, opens",
    [
        ("2026-06-14", "will a new flush be hard before frost if I cut today", "Yes: firm about 6 September"),
        ("2026-06-14", "if I defoliate today will there be time before the frost", "Yes: firm about"),
        ("2026-09-14", "is there still time for a flush before frost", "No: firm about"),
        ("2026-10-20", "how long until the first frost", "Frost is due any night now"),
    ],
)
def test_whether_there_is_time_is_told_first(demo, day, said, opens):
    assert tell(asked(demo, "Ratchet", day, said))[0].words.startswith(opens)


@pytest.mark.parametrize(
    "tree, day, said, opens",
    [
        ("Gatepost", "2026-07-10", "is it too late to air layer it", "Nothing against it: air-layer it"),
        ("Ratchet", "2026-06-14", "feed it now, bad idea?", "Nothing against it: feed it"),
        ("Gatepost", "2026-07-10", "am I too late to repot it", "Not now: "),
        ("Crag", "2026-06-14", "I pinch the juniper every week, bad idea?", "It may be done, but: "),
        ("Gatepost", "2026-07-10", "can I air layer it", "Yes: air-layer it"),
    ],
)
def test_no_yes_where_yes_would_say_that_it_is_wrong(demo, tree, day, said, opens):
    assert tell(asked(demo, tree, day, said))[0].words.startswith(opens)
