"""Work told by what it was done to alone: "did the weak ones today" tells, and asks nothing."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def talk(demo):
    return Bench(House(demo), dt.date(2026, 6, 14), tree="Gatepost")


@pytest.mark.parametrize(
    "first, words, work, place",
    [
        ("should I pinch the strong shoots", "did the strong ones today", "pinch", {"part": "shoot"}),
        ("pinched the weak shoots", "did the strong ones", "pinch", {"part": "shoot"}),
        ("wired the left branch", "did the right one too", "wire", {"part": "branch", "side": "right"}),
        ("wired the left branch", "did the other one as well", "wire", {"part": "branch", "side": "right"}),
        ("can I wire the left branch", "I did the right one yesterday", "wire", {"part": "branch", "side": "right"}),
        ("pinched the lower shoots", "did the rest today", "pinch", {"part": "shoot"}),
        ("wired the left branch", "did both the back ones", "wire", {"part": "branch", "side": "back"}),
        ("will pinch the top shoots tomorrow", "did the low ones today", "pinch", {"part": "shoot", "level": "low"}),
        ("cut the left branch back to two leaves", "did the front one this morning", "shorten", {"side": "front"}),
        ("can I pinch it", "did all the strong shoots", "pinch", {"part": "shoot"}),
    ],
)
def test_it_is_the_work_spoken_of_last_on_what_is_named(talk, first, words, work, place):
    talk.answer(first)
    answer = talk.answer(words)
    (entry,) = [one for one in answer.logged if one.kind == "done"]
    assert entry.said == words and entry.work[0]["work"] == work and place.items() <= dict(entry.work[0]).items()


@pytest.mark.parametrize("words", ["did the weak ones today", "did the strong candles", "did the left ones today"])
def test_where_no_work_was_spoken_of_the_words_are_kept(talk, words):
    (entry,) = talk.answer(words).logged
    assert (entry.kind, entry.said) == ("note", words)


@pytest.mark.parametrize(
    "words", ["did I do the left one?", "did I feed it", "did you log that", "did the elm get fed?"]
)
def test_questions_stay_questions(talk, words):
    talk.answer("fed it")
    assert not talk.answer(words).logged


def test_a_number_in_a_question_is_nothing_seen(talk):
    assert not talk.answer("weak candles on it first, then strong ones ten days later?").logged
