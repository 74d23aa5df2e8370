"""Short words that go on with what was asked, done or seen: they ask, put right or tell of that, and of nothing new."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.told import tell


def last(bench, *talk):
    return [bench.answer(statement) for statement in talk][-1]


def done(answer):
    """(day, works with their sides or ordinals) of what was put down as done."""
    return [
        (entry.day.isoformat(), [(work["work"], work.get("ordinal") or work.get("side")) for work in entry.work])
        for entry in answer.logged
        if entry.kind == "done"
    ]


def bench_on(demo, day, tree="Gatepost"):
    return Bench(House(demo), dt.date.fromisoformat(day), tree=tree)


# ---- a question goes on


@pytest.mark.parametrize(
    "first, further, work, topic",
    [
        ("when was it last fed", "and repotted", "repot", "recall"),
        ("when did I last feed it", "and prune it", "shorten", "recall"),
        ("when did I last feed it", "repotted?", "repot", "recall"),
        ("did I wire it", "or prune it", "shorten", "recall"),
        ("which trees did I feed this year", "and repot", "repot", "list"),
        ("can I repot it", "and feed it", "feed", "may"),
        ("when do I feed it", "and repot it", "repot", "when"),
    ],
)
def test_a_question_goes_on_with_another_work(bench, first, further, work, topic):
    answer = last(bench, first, further)
    assert not answer.logged
    assert (answer.reading.topic, [one.work for one in answer.reading.work]) == (topic, [work])


@pytest.mark.parametrize(
    "first, further",
    [("when did I last feed it", "and I repotted it"), ("fed it", "and repotted it"), ("can I feed it", "and fed it")],
)
def test_work_that_is_told_is_no_question(bench, first, further):
    assert done(last(bench, first, further))


def test_the_question_goes_on_to_another_tree(bench):
    answer = last(bench, "when did I last feed the beech", "and prune it", "and the elm")
    assert answer.tree == "Minnow" and not answer.logged and answer.reading.topic == "recall"


@pytest.mark.parametrize(
    "words, topic",
    [
        ("when again", "when"),
        ("how often", "when"),
        ("how far", "may"),
        ("how long a stub", "may"),
        ("how many times this year", "recall"),
        ("is that normal", "advice"),
        ("will it survive", "advice"),
        ("anything else?", "advice"),
    ],
)
def test_a_few_words_ask_further_of_the_work(bench, words, topic):
    answer = last(bench, "trimmed it all over", words)
    assert answer.reading.topic == topic and not answer.logged and not answer.reading.missed


@pytest.mark.parametrize("words", ["when does it come off", "how long does it stay on", "how long do I leave it on"])
def test_when_the_wire_comes_off(demo, words):
    answer = last(bench_on(demo, "2027-03-20", "Crag"), "wired the right branch with 3 mm", words)
    assert [(work.work, work.spot.side) for work in answer.reading.work] == [("unwire", "right")]
    assert any("15 December" in line.words for line in tell(answer))


# ---- done after all


@pytest.mark.parametrize("words", ["ok did that", "done", "did it", "yes, done that", "I have done it"])
def test_what_was_asked_about_was_done(bench, words):
    assert done(last(bench, "wire on the first left branch is tight, take it off?", words)) == [
        ("2026-06-14", [("unwire", 1)])
    ]


def test_it_was_done_on_the_day_that_is_named_and_can_be_put_right(bench):
    assert done(last(bench, "can I feed it", "did it yesterday")) == [("2026-06-13", [("feed", None)])]
    bench.answer("wire on the first left branch is tight, take it off?")
    assert done(last(bench, "ok did that", "no sorry, it was the second left branch")) == [
        ("2026-06-14", [("unwire", 2)])
    ]


@pytest.mark.parametrize("first", ["fed it", "when did I last feed it", "should I feed it or water it"])
def test_done_is_put_down_only_of_one_work_that_was_asked_about(bench, first):
    assert not done(last(bench, first, "done"))


# ---- days


@pytest.mark.parametrize(
    "talk, day",
    [
        (["repotted the ficus last sunday", "no, it was saturday"], "2026-06-13"),
        (["repotted the ficus last sunday", "when do I feed it", "no, it was saturday"], "2026-06-13"),
        (["fed the elm", "blah blah", "I meant yesterday, not today"], "2026-06-19"),
        (["fed the elm", "it was yesterday"], "2026-06-19"),
        (["fed the elm", "is it weak", "no, it was on thursday"], "2026-06-18"),
    ],
)
def test_the_day_is_put_right(demo, talk, day):
    answer = last(bench_on(demo, "2026-06-20"), *talk)
    assert [told for told, _ in done(answer)] == [day]
    assert [entry.kind for entry in answer.logged].count("struck") == 1


def test_a_question_about_a_day_is_corrected_and_puts_nothing_down(demo):
    answer = last(bench_on(demo, "2026-06-20"), "fed the elm", "what did I do on sunday", "no, saturday")
    assert not answer.logged and answer.reading.topic == "recall"


def test_work_is_not_done_on_a_day_to_come(bench):
    answer = bench.answer("fed it next week")
    assert answer.asks and not answer.logged
    assert done(bench.answer("yesterday")) == [("2026-06-13", [("feed", None)])]


@pytest.mark.parametrize("words", ["it was repotted last spring", "I repotted it in March last year"])
def test_what_is_on_record_is_not_put_down_again(demo, words):
    answer = last(bench_on(demo, "2027-03-20", "Sprint"), "can I repot it now", words)
    assert not answer.logged and answer.says[0].startswith("On record already: 14 March 2026")


def test_what_is_not_on_record_is_put_down(demo):
    assert done(bench_on(demo, "2027-03-20", "Sprint").answer("I repotted it in 2024"))


# ---- whose turn it is


@pytest.mark.parametrize(
    "words",
    ["repot list for next spring?", "which trees need repotting next spring?", "which trees shall I repot in spring"],
)
def test_the_trees_whose_turn_it_is(demo, words):
    answer = bench_on(demo, "2026-09-18").answer(words)
    assert not answer.logged
    told = {line.split(":")[0]: line for line in answer.says[1:]}
    assert set(told) == {"Gatepost", "Old Salt", "Parchment", "Ratchet"}
    assert told["Gatepost"] == "Gatepost: from 14 March 2027 to 19 April 2027; last on 16 March 2024"


def test_what_was_done_is_still_told_of_the_past(demo):
    answer = bench_on(demo, "2026-09-18").answer("which trees were repotted last spring")
    assert answer.says[0] == "2 trees (repotted it in spring 2026): Minnow and Sprint"


@pytest.mark.parametrize(
    "words", ["what should go into the shed tonight, minus 8 forecast", "which trees need shelter tonight, minus 8"]
)
def test_what_should_be_done_to_which_is_weighed_for_every_tree(demo, words):
    answer = bench_on(demo, "2026-12-05").answer(words)
    assert not answer.logged and not answer.confirm and not answer.asks
    assert all(any(name in line.words for line in tell(answer)) for name in ("Harbour", "Cellar"))


# ---- reasons and states


def test_a_reason_told_late_goes_to_the_work(bench):
    answer = last(bench, "shortened the first branch", "because it was too long")
    assert [(entry.kind, entry.reason) for entry in answer.logged] == [("struck", None), ("done", "it was too long")]
    assert bench.answer("why did I cut it").says[0].startswith("Because it was too long")


def test_a_narrowed_correction_tells_a_work_once(demo):
    answer = last(
        bench_on(demo, "2027-03-20", "Sprint"),
        "wired the first branch and the second branch with 3 mm",
        "actually only the first",
    )
    assert [(work.work, work.spot.ordinal) for work in answer.reading.work] == [("wire", 1)]


def test_why_a_tree_is_weak_tells_what_was_taken_from_it(bench):
    says = bench.answer("why is Sprint weak").says
    assert says[0] == "Seen on 23 May" and "pruned the roots by 50 %" in says[-1]


@pytest.mark.parametrize("words", ["is the pine ok outside", "is the beech all right"])
def test_how_a_tree_is_does_not_read_out_its_record(bench, words):
    answer = bench.answer(words)
    assert answer.reading.topic == "advice" and answer.advice and not answer.says
