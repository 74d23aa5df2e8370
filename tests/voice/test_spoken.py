"""Statements said by a machine's voice, the whole way to the reading: a few here, all in the benchmark."""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path

import pytest
from spoken import VOICES, statements

from benchmate.fault import UserError
from benchmate.voice import Recogniser, VoiceModel
from benchmate.voice.recogniser import GET_IT

sys.path.append(str(Path(__file__).parents[1] / "benchmarks"))
FLOORS = Path(__file__).with_name("floors.toml")


@pytest.fixture(scope="module")
def reached(voices_here):
    from voice import SAMPLE, SAMPLED, measure

    return measure(VOICES, every=SAMPLE, told=False, levels=SAMPLED)


def test_spoken_statements_keep_their_floor(reached):
    """Clean and at 20 dB together: every word of the lexicon moves the model, and one statement moves from level to
    level."""
    from voice import pooled

    floor = tomllib.loads(FLOORS.read_text(encoding="utf-8"))["sample"]["both"]
    found = pooled(reached)
    assert found["exact_share"] >= floor["exact_share"], found
    assert found["silent_share"] <= floor["silent_share"], found
    assert found["word_error"] <= floor["word_error"], found


def test_the_corpus_of_spoken_statements_keeps_its_size():
    assert len(set(statements())) >= 100


def test_without_the_extra_one_line_tells_how_to_get_it(monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "pocketsphinx", None)
    with pytest.raises(UserError) as told:
        Recogniser(VoiceModel(tmp_path / "a", tmp_path / "b"))
    assert str(told.value) == GET_IT
    assert "pip install 'benchmate[voice]'" in GET_IT and "\n" not in GET_IT
