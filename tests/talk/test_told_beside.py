"""Work told as past beside a question is not asked about a second time, nor put down where the record holds it."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.told import tell


def talk(demo, day, tree="Gatepost"):
    return Bench(House(demo), dt.date.fromisoformat(day), tree=tree)


def works_of(answer):
    return {option.work for option in answer.advice.options}


ASKED = [
    ("repotted it in {when}, should I feed it yet", "feed"),
    ("should I feed it yet? I repotted it in {when}", "feed"),
    ("I repotted it in {when}; is it too early to feed?", "feed"),
    ("can I prune it, I repotted it in {when}", "shorten"),
    ("having repotted it in {when}, when may I feed it", "feed"),
    ("it was repotted in {when}, can I wire it", "wire"),
    ("it got repotted in {when}. water it now?", "water"),
    ("repot done in {when}, feed now?", "feed"),
    ("is it ok to wire it given that I repotted it in {when}", "wire"),
    ("repotted it in {when}, do I need to shade it", "shade"),
]


@pytest.mark.parametrize("words, asked", ASKED)
def test_only_what_is_asked_is_answered(demo, words, asked):
    answer = talk(demo, "2026-04-12").answer(words.format(when="February"))
    assert asked in works_of(answer) and "repot" not in works_of(answer)
    assert "repot it" not in tell(answer)[0].words


@pytest.mark.parametrize("words, asked", ASKED)
def test_what_the_record_holds_is_not_put_down_again(demo, words, asked):
    talk(demo, "2026-02-22").answer("repotted it and pruned the roots by a third")
    answer = talk(demo, "2026-04-12").answer(words.format(when="Feb"))
    assert not answer.logged and asked in works_of(answer)


@pytest.mark.parametrize(
    "words",
    [
        "I've repotted it, can I wire it",
        "repotted it about two months ago, when can I feed it",
        "repotted it in February, what now",
        "should I feed it in May, repotted it in Feb",
    ],
)
def test_a_day_told_roughly_or_not_at_all_is_that_of_the_record(demo, words):
    talk(demo, "2026-02-22").answer("repotted it")
    answer = talk(demo, "2026-04-12").answer(words)
    assert not answer.logged and answer.advice


@pytest.mark.parametrize(
    "words, work, day",
    [
        ("repotted it on 20 March, should I feed it", "repot", dt.date(2026, 3, 20)),
        ("should I feed it in May, repotted it on 20 March", "repot", dt.date(2026, 3, 20)),
        ("fed it last week, can I wire it", "feed", dt.date(2026, 4, 5)),
        ("just fed it, can I wire it", "feed", dt.date(2026, 4, 12)),
    ],
)
def test_what_the_record_does_not_hold_is_put_down_on_its_own_day(demo, words, work, day):
    (entry,) = talk(demo, "2026-04-12").answer(words).logged
    assert (entry.kind, [table["work"] for table in entry.work], entry.day) == ("done", [work], day)
    assert all(dt.date.fromisoformat(str(follow["on"])) >= dt.date(2026, 4, 12) for follow in entry.follow)


@pytest.mark.parametrize(
    "words", ["repotted it last week, should I feed it", "should I feed it? it was repotted last week"]
)
def test_the_question_is_weighed_by_what_is_told(demo, words):
    answer = talk(demo, "2026-04-12").answer(words)
    assert {one.work: one.verdict for one in answer.advice.options}["feed"] == "hold"


def test_what_stands_against_work_of_today_is_told_beside_the_answer(demo):
    answer = talk(demo, "2026-12-12").answer("repotted it this morning, should I water it")
    assert any(words.startswith("Repot it, careful:") for words in answer.aside)
    assert not talk(demo, "2027-01-20").answer("repotted it in November, should I water it").aside[1:]


def test_another_repot_years_later_is_put_down(demo):
    talk(demo, "2026-02-22").answer("repotted it")
    assert [one.kind for one in talk(demo, "2028-04-12").answer("repotted it in March, should I feed it").logged] == [
        "done"
    ]
