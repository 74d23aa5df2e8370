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


@pytest.mark.parametrize(
    "said, works",
    [
        ("chop the trunk at 120 mm, will it live", ["remove"]),
        ("repot it in this heat, am I mad", ["repot"]),
        ("root prune by half, can it take that", ["root-prune"]),
        ("cut the second branch on the left, will it bud back", ["remove"]),
        ("sawing the tap root off, worth the risk", ["root-prune"]),
        ("hard prune it back to stumps, will it shoot", ["shorten"]),
        ("thin the leaves by half, does that hurt it", ["thin-leaves"]),
        ("repot it in july, does that work?", ["repot"]),
        ("wire it over winter, good or bad?", ["wire"]),
        ("turn it 90 degrees, any point", ["turn-tree"]),
        ("wire the lowest branch, thoughts?", ["wire"]),
        ("feed it now, what do you think", ["feed"]),
        ("seal the wound, is it any use", ["seal-wound"]),
        ("full defoliation, would it survive that", ["defoliate"]),
        ("repot it and cut a third of the roots off, will it cope", ["repot", "root-prune"]),
        ("I'm going to repot it in august, am I daft", ["repot"]),
        ("root prune it by half, will it sulk until autumn", ["root-prune"]),
        ("is this when I shorten the shoots", ["shorten"]),
        ("before I cut the top, should I wait", ["wait"]),
        ("before repotting should I water it", ["water"]),
        ("scrap that branch, any harm in it", ["remove"]),
    ],
)
def test_what_asks_at_the_end_makes_a_question_of_bare_work(demo, said, works):
    answer = bench_on(demo).answer(said)
    assert not any(entry.work for entry in answer.logged) and answer.reading.topic == "may"
    assert [work.work for work in answer.reading.work] == works


@pytest.mark.parametrize(
    "said, work",
    [
        ("repotted it yesterday, will it live", "repot"),
        ("I cut the top off, will it survive", "remove"),
        ("I fed it, any harm", "feed"),
        ("wired the left branch today, what do you think", "wire"),
        ("fed it, will it flower now", "feed"),
    ],
)
def test_what_was_done_stays_told_before_such_a_question(demo, said, work):
    answer = bench_on(demo).answer(said)
    assert [one["work"] for entry in answer.logged for one in entry.work] == [work]


@pytest.mark.parametrize(
    "said, works",
    [
        ("repot now or in spring", ["repot"]),
        ("prune it now or in autumn?", ["shorten"]),
        ("feed it now or later", ["feed"]),
        ("shorten the long shoots today or next month", ["shorten"]),
        ("wire it after leaf fall or now", ["wire"]),
        ("repot now or june", ["repot"]),
    ],
)
def test_now_or_later_is_answered_by_when(demo, said, works):
    answer = bench_on(demo).answer(said)
    assert (
        not any(entry.work for entry in answer.logged)
        and answer.reading.topic == "when"
        and answer.reading.when is None
    )
    assert [work.work for work in answer.reading.work] == works


@pytest.mark.parametrize(
    "said, works",
    [
        ("bare in may, wire or prune", ["wire", "shorten"]),
        ("tip pinching or cutting with scissors", ["pinch", "remove"]),
        ("prune or wire it", ["shorten", "wire"]),
        ("bud points inwards, cut to it or the one before", ["remove"]),
        ("concave cut or flat", ["clean-wound"]),
        ("water on the foliage or just the soil", ["water"]),
        ("partial defoliation or full", ["thin-leaves"]),
        ("half a leaf or whole leaf off, which is kinder", ["defoliate"]),
        ("too much water or too little? leaves droop", ["water"]),
    ],
)
def test_this_or_that_of_bare_work_asks_which(demo, said, works):
    answer = bench_on(demo).answer(said)
    assert not any(entry.work for entry in answer.logged) and answer.reading.topic == "compare"
    assert [work.work for work in answer.reading.work] == works


@pytest.mark.parametrize(
    "said", ["wire two or three branches", "repot it in march or april", "pulled off weak or crossing shoots"]
)
def test_or_that_leaves_open_how_many_chooses_nothing(demo, said):
    assert "decide" in bench_on(demo).answer(said).reading.acts
