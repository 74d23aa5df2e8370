"""Work planned in two parts, each with its own day; "I'll do half the roots" is a plan."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def told(demo, words):
    """(kind, work, share, when) of each entry."""
    bench = Bench(House(demo), dt.date(2026, 2, 22), tree="Old Salt")
    entries = bench.answer(words).logged
    return [(one.kind, one.work[0]["work"], one.work[0].get("share"), one.when) for one in entries]


@pytest.mark.parametrize(
    "words, first, second",
    [
        (
            "Old Salt: I'll do half the rootball this March and the rest in 2028",
            ("plan", "root-prune", 0.5, "2026-03"),
            ("plan", "root-prune", 0.5, "2028"),
        ),
        (
            "will repot half of it in March and the other half in 2028",
            ("plan", "repot", 0.5, "2026-03"),
            ("plan", "repot", 0.5, "2028"),
        ),
        (
            "going to cut half its roots this spring, the rest in spring 2027",
            ("plan", "root-prune", 0.5, "2026-spring"),
            ("plan", "root-prune", 0.5, "2027-spring"),
        ),
        (
            "repotting half of it in March, leaving the rest for 2028",
            ("plan", "repot", 0.5, "2026-03"),
            ("plan", "repot", 0.5, "2028"),
        ),
        (
            "cut a third of the roots today, the rest next year",
            ("done", "root-prune", 0.3333, "2026-02-22"),
            ("plan", "root-prune", 0.6667, "2027"),
        ),
        (
            "thinned half the needles, will do the rest in May",
            ("done", "thin-needles", 0.5, None),
            ("plan", "thin-needles", 0.5, "2026-05"),
        ),
        (
            "root pruned half of it this morning and will do the second half in April",
            ("done", "root-prune", 0.5, "2026-02-22"),
            ("plan", "root-prune", 0.5, "2026-04"),
        ),
    ],
)
def test_the_second_part_is_a_plan_of_its_own(demo, words, first, second):
    assert told(demo, words) == [first, second]


@pytest.mark.parametrize(
    "words, when",
    [
        ("I'll do the roots in March", "2026-03"),
        ("I'll do half the roots in March", "2026-03"),
        ("we'll do the roots next year", "2027"),
    ],
)
def test_to_do_a_part_is_its_work(demo, words, when):
    ((kind, work, _, day),) = told(demo, words)
    assert (kind, work, day) == ("plan", "root-prune", when)


@pytest.mark.parametrize("words", ["let the soil rest in March", "should I do half now and the rest in 2028"])
def test_rest_without_a_part_plans_nothing_more(demo, words):
    assert not [one for one in told(demo, words) if one[3] == "2028"] and len(told(demo, words)) < 2
