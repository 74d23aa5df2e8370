"""Work to come told with a noun, what stands in the record already, a genus said of a tree whose kind is known."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def talk(demo, day, said, tree=None):
    return Bench(House(demo), dt.date.fromisoformat(day), tree=tree).answer(said)


@pytest.mark.parametrize(
    "said, when",
    [
        ("going to do its first proper wiring next week", "2027-11-27"),
        ("will do the wiring in spring", "2028-spring"),
        ("I'm going to do the wiring in december", "2027-12"),
    ],
)
def test_work_to_come_is_planned(demo, said, when):
    (entry,) = talk(demo, "2027-11-20", said, "Sprint").logged
    assert (entry.kind, entry.when, entry.work[0]["work"]) == ("plan", when, "wire")


@pytest.mark.parametrize("said", ["did the wiring last week", "did its first wiring"])
def test_work_that_was_done_stays_done(demo, said):
    (entry,) = talk(demo, "2027-11-20", said, "Sprint").logged
    assert (entry.kind, entry.work[0]["work"]) == ("done", "wire")


def test_what_is_on_record_is_not_put_down_beside_what_is_seen(demo):
    answer = talk(demo, "2027-02-20", "collected it a year ago, it's now pushing fat buds", "Bristle")
    (entry,) = answer.logged
    assert entry.kind == "seen" and entry.day == dt.date(2027, 2, 20) and not entry.work
    assert "on record already: 7 March 2026" in answer.aside


def test_words_that_are_lost_beside_it_put_nothing_down(demo):
    answer = talk(demo, "2027-03-13", "repotted the elm last year so not this")
    assert not answer.logged and answer.says[0].startswith("On record already: 20 March 2026")


@pytest.mark.parametrize("said", ["fed it yesterday, buds are swelling", "repotted it two years ago and it is weak"])
def test_what_the_record_does_not_hold_is_put_down(demo, said):
    answer = talk(demo, "2027-03-13", said, "Gatepost")
    assert [entry.kind for entry in answer.logged] == ["done"]


def test_a_genus_asks_for_no_kind(demo):
    answer = talk(demo, "2026-06-20", "cut all the candles off the pine")
    assert not answer.asks and not answer.advice.asks


@pytest.mark.parametrize("said", ["which one needs me most", "which tree needs attention first"])
def test_which_tree_comes_first_is_what_is_due(demo, said):
    answer = talk(demo, "2026-06-20", said)
    assert answer.reading.topic == "due" and answer.found


@pytest.mark.parametrize(
    "said, topic", [("when does it get fed", "when"), ("when does it get its next flush", "figure")]
)
def test_when_it_gets_fed_is_no_growth(demo, said, topic):
    assert talk(demo, "2026-06-20", said, "Gatepost").reading.topic == topic


@pytest.mark.parametrize("said", ["plan Slate, it is grown for structure", "it's in refinement, plan it"])
def test_what_is_told_beside_the_question_counts_in_the_plan(demo, said):
    bench = Bench(House(demo), dt.date(2027, 11, 20))
    bench.answer("new tree, beech, call it Slate")
    answer = bench.answer(said)
    assert answer.found[0]["items"] and not any("what it is being grown for" in words for words in answer.says)
