"""A count, a measure and the stuff that was used, put right after the work was told."""

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.fixture
def talk(demo):
    import datetime as dt

    return Bench(House(demo), dt.date(2026, 6, 15), tree="Gatepost")


def standing(bench):
    """The entries of this talk that still stand."""
    house = bench.house
    return [one for one in house.lately_standing(house.garden.find("Gatepost")) if one.id in bench.written]


WIRED = "wired two branches, 3mm, left ones"


@pytest.mark.parametrize(
    "words",
    [
        "no, it was three branches",
        "sorry, three branches",
        "no, three",
        "three, not two",
        "make that three branches",
        "that should be three branches",
        "actually 3 branches",
        "no, three of them",
        "no, 3 left branches",
        "not two, three",
    ],
)
def test_a_count_is_put_right(talk, words):
    talk.answer(WIRED)
    talk.answer(words)
    (entry,) = standing(talk)
    assert dict(entry.work[0]) == {"work": "wire", "part": "branch", "side": "left", "count": 3, "diameter_mm": 3.0}


@pytest.mark.parametrize(
    "first, words, key, value",
    [
        ("removed three shoots", "no, four", "count", 4),
        ("took two branches off", "sorry, it was only one branch", "count", 1),
        ("cut the shoots back to 3 leaves", "no, two", "leaves", 2),
        ("cut the shoots back to 3 leaves", "three, sorry, two leaves", "leaves", 2),
        ("gave it two litres of water", "no, three", "volume_l", 3),
        ("wired the left branch, 3 mm", "no, 4", "diameter_mm", 4),
        ("cut the left branch back to two pairs", "no, one pair", "pairs", 1),
    ],
)
def test_a_bare_number_is_of_what_the_work_told(talk, first, words, key, value):
    talk.answer(first)
    talk.answer(words)
    (entry,) = standing(talk)
    measures = {"leaves", "count", "volume_l", "diameter_mm", "pairs"} & set(entry.work[0])
    assert entry.work[0][key] == value and measures == {key}


@pytest.mark.parametrize(
    "words",
    [
        "I used copper",
        "it was copper",
        "no, copper",
        "sorry, copper",
        "undo it, I used copper",
        "it was copper wire, not aluminium",
        "copper, not aluminium",
        "used copper actually",
        "with copper",
        "that was in copper wire",
    ],
)
def test_the_stuff_is_kept_with_the_work(talk, words):
    talk.answer(WIRED)
    answer = talk.answer(words)
    (entry,) = standing(talk)
    assert entry.work[0]["work"] == "wire" and entry.work[0]["count"] == 2 and "copper" in entry.said
    assert "copper" in [one.words for one in answer.reading.kept]


def test_what_was_not_used_is_kept_no_longer(talk):
    talk.answer("repotted it in akadama and lava")
    kept = talk.answer("no, pumice, not akadama").reading.kept
    assert [one.words for one in kept if "pumice" in one.words] and not any("akadama" in one.words for one in kept)


def test_count_and_stuff_are_put_right_one_after_the_other(talk):
    for said in (WIRED, "undo it, I used copper", "no, it was three branches"):
        talk.answer(said)
    (entry,) = standing(talk)
    assert entry.work[0]["count"] == 3 and "leaves" not in entry.work[0] and "copper" in entry.said


@pytest.mark.parametrize("words", ["undo it", "fed it with seaweed", "is copper better", "I used the saw"])
def test_other_words_change_no_stuff(talk, words):
    talk.answer(WIRED)
    answer = talk.answer(words)
    assert answer.reading.said == words
