"""What was not heard for certain is a guess, and a grave one; what was heard alike in all runs is none."""

from __future__ import annotations

import datetime as dt
import random

import pytest

from benchmate.voice import HeardWord, heard_words

ON = dt.date(2026, 6, 14)


def words(text, unsure=()):
    return [HeardWord(word, 0.2 if word in unsure else 0.99) for word in text.split()]


def test_words_heard_for_certain_are_read_like_typed_ones(ear):
    reading = heard_words(words("cut the left branch back to two buds"), ear, ON)
    assert not reading.guessed
    assert reading.as_json() == ear.hear("cut the left branch back to two buds", ON).as_json()


def test_a_word_of_low_confidence_is_a_grave_guess_in_its_place(ear):
    reading = heard_words(words("wire the left branch", unsure=("left",)), ear, ON)
    (guess,) = reading.guessed
    assert (guess.taken, guess.grave, guess.likeness) == ("left", True, 0.2)
    assert reading.said[slice(*guess.span)] == "left"


def test_a_rival_that_means_something_else_makes_the_words_that_differ_guesses(ear):
    reading = heard_words(words("wired the first branch"), ear, ON, rivals=["wire the first branch"])
    assert [(guess.heard, guess.taken, guess.grave) for guess in reading.guessed] == [("wire", "wired", True)]


def test_a_rival_that_means_the_same_raises_no_doubt(ear):
    assert not heard_words(words("the beech is weak"), ear, ON, rivals=["beech is weak"]).guessed


def test_a_denial_that_only_the_rival_has_is_not_passed_over(ear):
    reading = heard_words(words("it is weak"), ear, ON, rivals=["it is not weak"])
    assert reading.guessed
    assert all(guess.grave for guess in reading.guessed)


def test_a_yes_that_may_have_been_a_no_is_in_doubt(ear):
    assert heard_words(words("yes"), ear, ON, rivals=["no"]).guessed
    assert not heard_words(words("yes"), ear, ON).guessed


def test_a_pause_parts_clauses(ear):
    said = [HeardWord("larch"), HeardWord("what", pause_s=0.4), HeardWord("now")]
    assert heard_words(said, ear, ON).said == "larch, what now"


def test_a_pause_with_which_the_ear_reads_worse_is_no_comma(ear):
    said = [HeardWord("what"), HeardWord("now", pause_s=0.3)]
    assert heard_words(said, ear, ON).said == "what now"


def test_a_pause_that_may_part_clauses_of_another_meaning_raises_doubt(ear):
    said = words("cut the left branch back to two buds")
    said[1] = HeardWord("the", pause_s=0.25)
    reading = heard_words(said, ear, ON)
    assert reading.said == "cut the left branch back to two buds"
    assert [guess.taken for guess in reading.guessed] == ["cut"]


def test_no_words_give_an_empty_reading(ear):
    assert heard_words([], ear, ON).acts == ()


@pytest.mark.parametrize("seed", range(20))
def test_every_guess_lies_within_the_words_said(ear, seed):
    rng = random.Random(seed)
    known = sorted(word for word in ear.lexicon.known if word.isalpha())
    said = [HeardWord(rng.choice(known), rng.random(), rng.random() / 2) for _ in range(rng.randint(1, 8))]
    rivals = [" ".join(rng.choice(known) for _ in range(rng.randint(0, 8))) for _ in range(3)]
    reading = heard_words(said, ear, ON, rivals=rivals)
    assert all(0 <= guess.span[0] < guess.span[1] <= len(reading.said) for guess in reading.guessed)
    assert all(guess.grave for guess in reading.guessed)
