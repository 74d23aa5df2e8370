"""Words that only join ask nothing; what is asked about is not seen; a day of lost words dates nothing."""

from __future__ import annotations

import datetime as dt

import pytest

from benchmate.hearing import Ear
from benchmate.hearing.opening import opens, stands_there

ON = dt.date(2026, 6, 14)


@pytest.mark.parametrize(
    "said",
    [
        "the elm, which is weak, is in leaf",
        "the elm which I dug up is in leaf",
        "the wound, which closes well, is on the trunk",
        "it was dry when I came home",
        "the branch is too thick for where it sits",
        "I cut it back, which left a wound of 20 mm",
        "there's a gap you could put a hand in",
    ],
)
def test_a_word_that_joins_asks_nothing(ear: Ear, said: str) -> None:
    assert "ask" not in ear.hear(said, ON).acts


@pytest.mark.parametrize(
    "said",
    [
        "which one goes?",
        "two leaders which one goes",
        "two leaders, which is better",
        "left or right leader, which?",
        "which of my trees are weak",
        "when did I feed it",
    ],
)
def test_the_same_words_ask_where_a_question_begins(ear: Ear, said: str) -> None:
    assert "ask" in ear.hear(said, ON).acts


@pytest.mark.parametrize(
    "said",
    [
        "is the pine weak",
        "are the leaves hardened?",
        "is it in flower",
        "does the elm have scale",
        "is this one dormant",
        "any mites left on the elm?",
        "have the candles been cut this year",
        "who took the guy off the juniper",
        "how are the roots looking",
    ],
)
def test_what_is_asked_about_is_not_seen(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert "observe" not in reading.acts
    assert "ask" in reading.acts or (reading.missed and not reading.acts)


@pytest.mark.parametrize(
    "said",
    [
        "the olive is dry because I spent the weekend away",
        "on Tuesday my aunt called, the elm is dry",
        "I did that on Monday",
    ],
)
def test_a_day_of_lost_words_dates_nothing(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert reading.when is None
    assert reading.missed


def test_a_day_beside_what_is_told_stays(ear: Ear) -> None:
    assert ear.hear("last week, repotted the elm", ON).when == "2026-06-07"


def test_nothing_but_filler_opens_a_sentence(ear: Ear) -> None:
    words = ["okay", "so", "which", "goes"]
    assert opens(ear.lexicon, words, 2)
    assert not opens(ear.lexicon, ["the", "elm", "which", "goes"], 2)
    assert stands_there(ear.lexicon, "which QCOMPARE", words, 2, 3)
    assert not stands_there(ear.lexicon, "which SEP", words, 2, 3)
