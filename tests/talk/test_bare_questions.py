"""A sentence that asks logs none of the work that stands bare in it; what is told beside a question stays told."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House

ASKED = [
    ("bare root it and plant it on a slab, ok?", "may", ["repot"]),
    ("repot it and feed it?", "may", ["repot", "feed"]),
    ("hose its roots clean today and repot?", "may", ["water", "repot"]),
    ("tomato feed on the maple ok?", "may", ["feed"]),
    ("bone meal on the maple ok", "may", ["feed"]),
    ("cut paste on the wound?", "may", ["seal-wound"]),
    ("pinch low, leave top?", "may", ["pinch", "leave"]),
    ("what feed is best", "advice", ["feed"]),
    ("what feed for that", "advice", ["feed"]),
    ("paint the cut with what", "advice", ["seal-wound"]),
    ("repot it, what mix", "advice", ["repot"]),
    ("cut it back how far", "advice", ["shorten"]),
    ("turn it which way", "advice", ["turn-tree"]),
]


def bench_on(demo, tree="Gatepost", day="2026-06-20"):
    return Bench(House(demo), dt.date.fromisoformat(day), tree=tree)


@pytest.mark.parametrize("said, topic, works", ASKED)
def test_what_stands_bare_in_a_question_is_asked(demo, said, topic, works):
    answer = bench_on(demo).answer(said)
    assert not answer.logged and answer.reading.topic == topic
    assert [work.work for work in answer.reading.work] == works


@pytest.mark.parametrize("said", ["what feed", "feed it how much", "wire the left branch, what gauge"])
def test_a_number_asked_of_bare_work_logs_none(demo, said):
    answer = bench_on(demo).answer(said)
    assert not answer.logged and answer.reading.topic == "figure"


@pytest.mark.parametrize(
    "said, works",
    [
        ("fed it ok", ["feed"]),
        ("ok, feed it", ["feed"]),
        ("cut paste on the wound", ["seal-wound"]),
        ("cut the sacrifice branch off, seal it?", ["remove"]),
        ("pinched the top. does it need feeding?", ["pinch"]),
        ("fed it. wire it?", ["feed"]),
        ("cut it back to what remained", ["shorten"]),
        ("fed it how I like", ["feed"]),
    ],
)
def test_what_is_told_beside_a_question_is_logged(demo, said, works):
    done = [entry for entry in bench_on(demo).answer(said).logged if entry.kind == "done"]
    assert [work["work"] for entry in done for work in entry.work] == works
