"""The language model: made from the lexicon, sums to one, the same each time; and sound files of all kinds."""

from __future__ import annotations

import datetime as dt
import math
import wave
from array import array
from itertools import pairwise

import pytest

from benchmate.fault import UserError
from benchmate.voice import read_wave, sentences_aloud
from benchmate.voice.doubt import HeardWord
from benchmate.voice.floor import with_floor
from benchmate.voice.listening import mistimed
from benchmate.voice.microphone import after_wake_word
from benchmate.voice.model import language_model
from benchmate.voice.ngram import mixed_arpa, trigram_arpa
from benchmate.voice.recogniser import Speech


def grams(arpa):
    rows = [line.split() for line in arpa.splitlines() if line[:1] == "-" or line[:1].isdigit()]
    return {
        tuple(w for w in row[1:] if not w.lstrip("-").replace(".", "").isdigit()): 10 ** float(row[0]) for row in rows
    }


def test_probabilities_behind_a_word_sum_to_at_most_one():
    found = grams(trigram_arpa([("cut", "it"), ("cut", "them"), ("wire", "it")] * 5))
    assert math.isclose(sum(p for gram, p in found.items() if len(gram) == 1 and gram != ("<s>",)), 1.0, abs_tol=1e-3)
    assert 0 < sum(p for gram, p in found.items() if len(gram) == 2 and gram[0] == "cut") < 1
    assert found[("cut", "it")] > found[("wire",)]


def test_models_mixed_give_each_its_share():
    one, other = [("cut", "it"), ("cut", "them")] * 5, [("wire", "it"), ("wire", "back")] * 5
    both = grams(mixed_arpa([(0.75, one), (0.25, other)]))
    alone = grams(trigram_arpa(one)), grams(trigram_arpa(other))
    assert math.isclose(both[("cut",)], 0.75 * alone[0][("cut",)], rel_tol=1e-2)
    assert math.isclose(both[("it",)], 0.75 * alone[0][("it",)] + 0.25 * alone[1][("it",)], rel_tol=1e-2)
    assert math.isclose(sum(p for gram, p in both.items() if len(gram) == 1 and gram != ("<s>",)), 1.0, abs_tol=1e-3)
    assert 0 < sum(p for gram, p in both.items() if len(gram) == 2 and gram[0] == "cut") < 1
    assert grams(mixed_arpa([(1.0, one)])) == pytest.approx(alone[0], rel=1e-2)


def test_the_model_is_made_of_the_lexicons_words_and_the_trees_names_alike_each_time(tables, ear):
    few = {name: tables[name] for name in ("words/sounds.toml", "words/verbs.toml")}
    arpa, words = language_model(few, ear, ["Old Ratchet"], count=4_000)
    assert (arpa, words) == language_model(few, ear, ["Old Ratchet"], count=4_000)
    assert {"beech", "hornbeam", "repot", "bench"} <= set(words)
    known = set(ear.lexicon.known) | {"old", "ratchet", "bench", "mate", "hello"}
    strange = {word for word in words if word not in known and "'" not in word}
    assert len(strange) < 12, strange


def saved(path, samples, rate, channels=1):
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(2)
        file.setframerate(rate)
        file.writeframes(array("h", samples).tobytes())
    return path


@pytest.mark.parametrize("rate", [8_000, 16_000, 22_050, 44_100, 48_000])
def test_a_tone_keeps_its_pitch_at_any_rate(tmp_path, rate):
    tone = [round(9_000 * math.sin(2 * math.pi * 400 * at / rate)) for at in range(rate)]
    heard = array("h", read_wave(saved(tmp_path / "tone.wav", tone, rate)))
    assert abs(len(heard) - 16_000) <= 2
    crossings = sum(a < 0 <= b for a, b in pairwise(heard))
    assert abs(crossings - 400) <= 2


def test_two_channels_become_one(tmp_path):
    heard = array("h", read_wave(saved(tmp_path / "two.wav", [100, 300] * 50, 16_000, channels=2)))
    assert set(heard) == {200}


def test_what_is_no_wave_file_is_told_in_one_line(tmp_path):
    (tmp_path / "no.wav").write_bytes(b"plainly not")
    for name in ("no.wav", "none.wav"):
        with pytest.raises(UserError, match=name):
            read_wave(tmp_path / name)


def test_true_silence_gets_a_floor_and_a_room_keeps_its_own():
    speech = array("h", [0] * 8_000 + [(-1) ** at * 8_000 for at in range(8_000)]).tobytes()
    assert any(array("h", with_floor(speech))[:8_000])
    room = array("h", [(-1) ** at * 2_000 for at in range(16_000)]).tobytes()
    assert with_floor(room) == room


def test_the_floor_is_dull_like_speech():
    speech = array("h", [0] * 8_000 + [(-1) ** at * 8_000 for at in range(8_000)]).tobytes()
    floor = array("h", with_floor(speech))[:8_000]
    steps = sum((b - a) ** 2 for a, b in pairwise(floor)) / sum(a * a for a in floor)
    assert steps < 0.2  # white noise has 2


@pytest.mark.parametrize(
    "statement, amiss",
    [
        ("wire the second branch yesterday", True),
        ("wired the second branch yesterday", False),
        ("repotted it next spring", True),
        ("repotted it last spring", False),
        ("repot it next spring", False),
        ("cut it back today", False),
    ],
)
def test_a_verbs_form_goes_with_its_day(ear, statement, amiss):
    on = dt.date(2026, 6, 14)
    assert mistimed(ear.hear(statement, on), on) is amiss


def test_cautions_are_said_first_and_never_cut():
    cautions = ["Sap burns. Wear gloves.", "The saw is sharp."]
    said = sentences_aloud(cautions, ["Wait until autumn. The tree is weak. It can rest."], most=3)
    assert said == ["Sap burns.", "Wear gloves.", "The saw is sharp.", "Wait until autumn."]


def test_only_what_follows_the_wake_word_is_kept():
    speech = Speech(tuple(HeardWord(word) for word in ["bench", "mate", "the", "larch", "is", "weak"]))
    woken = after_wake_word(speech, ["bench mate"])
    assert woken is not None and woken.text == "the larch is weak"
    assert after_wake_word(Speech(speech.words[2:]), ["bench mate"]) is None
