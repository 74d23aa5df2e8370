"""How words sound, and that every word of the core is one that the ear takes in."""

from __future__ import annotations

import datetime as dt
import random
import re

import pytest

from benchmate.voice.core import Core
from benchmate.voice.said import number_words, spoken_words
from benchmate.voice.shapes import SPOKEN
from benchmate.voice.sounds import Sounds

PIECE = re.compile(r"\{[^}]+\}")
ON = dt.date(2026, 6, 14)
VOWELS = ["AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"]
PHONES = {*VOWELS, *"BDFGKLMNPRSTVWYZ", "CH", "DH", "HH", "JH", "NG", "SH", "TH", "ZH"}
COMMANDS = {"yes", "no", "what can i say"}  # the talk takes these before the ear hears them


@pytest.fixture(scope="module")
def sounds(tables):
    return Sounds(tables["words/sounds.toml"], {"water": ["W AO T ER"], "shoot": ["SH UW T"], "prune": ["P R UW N"]})


def test_every_phone_of_the_table_is_one(tables):
    table = tables["words/sounds.toml"]
    written = [way for ways in table["sound"].values() for way in ways] + list(table["letters"].values())
    assert {phone for way in written for phone in way.split()} <= PHONES


@pytest.mark.parametrize(
    ("word", "way"),
    [
        ("hornbeam", "HH AO R N B IY M"),
        ("hornbeams", "HH AO R N B IY M Z"),
        ("larch's", "L AA R CH IH Z"),
        ("pruned", "P R UW N D"),
        ("pruning", "P R UW N IH NG"),
        ("watershoots", "W AO T ER SH UW T S"),
        ("larch", "L AA CH"),
    ],
)
def test_words_endings_joined_words_and_british_r(sounds, word, way):
    assert way in sounds.of(word)


def test_each_word_is_also_said_as_other_speakers_say_it():
    said = Sounds({}, {"oak": ["OW K"], "buds": ["B AH D Z"], "took": ["T UH K"], "top": ["T AA P"], "the": ["DH AH"]})
    assert said.of("oak") == ("OW K", "EH UW K")
    assert set(said.of("buds")) == {"B AH D Z", "B AH D S", "B AA D Z", "B AA D S"}
    assert said.of("took") == ("T UH K", "T OW K")
    assert said.of("top") == ("T AA P", "T AO P")
    assert said.of("the") == ("DH AH",)


def test_every_word_of_the_lexicon_can_be_said(ear, sounds):
    words = [word for word in ear.lexicon.known if word.replace("'", "").isalpha() and word.isascii()]
    for word in words:
        ways = sounds.of(word)
        assert ways, word
        assert all(way and set(way.split()) <= PHONES for way in ways), word


def test_figures_are_said_out():
    said = {"mm": "millimetres"}
    assert " ".join(spoken_words("an 8 mm branch, 1/2 inch, 3rd", said)) == (
        "an eight millimetres branch , one half inch , third"
    )
    assert number_words(45) == ["forty", "five"]


@pytest.mark.parametrize(("name", "most"), [("core", 6), ("wide", 30)])
def test_all_that_the_core_holds_is_understood(tables, ear, name, most):
    """Of sentences drawn from what is said most, hardly one says a word that the ear misses or guesses at.

    Of those drawn from the ways round it, which put any two things together, one in twenty may."""
    core = Core(tables["words/sounds.toml"][name], tables, ear.lexicon)
    rng = random.Random(3)
    wrong = []
    for _ in range(600):
        text = " ".join(core.draw("statement", rng))
        reading = ear.hear(text, ON)
        if text and text not in COMMANDS and (reading.missed or reading.guessed or not reading.acts):
            wrong.append(text)
    assert len(wrong) <= most, wrong


@pytest.mark.parametrize("name", ["core", "wide"])
def test_every_set_of_the_core_is_used_and_there(tables, name):
    core = tables["words/sounds.toml"][name]
    drawn = {piece[1:-1].split(".")[0] for says in core.values() for choice in says for piece in PIECE.findall(choice)}
    sets = {piece for piece in drawn if piece.islower()}
    assert sets | {"statement"} == set(core)


@pytest.mark.parametrize(
    ("form", "said"),
    [
        ("", "cut it and root prune them"),
        (".ed", "cut it and root pruned them"),
        (".ing", "cutting it and root pruning them"),
    ],
)
def test_a_set_puts_its_verbs_into_the_form_that_is_asked(tables, ear, form, said):
    sets = {"statement": [f"{{do{form}}}"], "do": ["<cut> it and {more}"], "more": ["<root prune> them"]}
    assert " ".join(Core(sets, tables, ear.lexicon).draw("statement", random.Random(1))) == said


def test_a_kind_in_capitals_draws_the_first_phrases_most(tables, ear):
    core = Core({"statement": ["{STRIKE}"]}, {"words/x.toml": {"STRIKE": {"x": ["first", "second"]}}}, ear.lexicon)
    rng = random.Random(2)
    drawn = [core.draw("statement", rng) for _ in range(300)]
    assert 160 < drawn.count(["first"]) < 240
    assert drawn.count(["first"]) + drawn.count(["second"]) == 300


def test_what_is_written_down_for_the_voice_is_understood(tables, ear):
    says = tables[SPOKEN]["says"]
    assert len(set(says)) == len(says)
    assert not [statement for statement in says if not all(letter.isalpha() or letter in " '" for letter in statement)]
    sample = says[::6]
    missed = [statement for statement in sample if ear.hear(statement, ON).missed]
    assert len(missed) <= len(sample) // 25, missed
