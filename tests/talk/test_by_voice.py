"""The talk by voice, with a listener that needs no sound: what is unsure is read back, what is said is told."""

import datetime as dt

import pytest

from benchmate.fault import UserError
from benchmate.practice.advice import Advice, Caution
from benchmate.talk import by_voice
from benchmate.telling.answer import Answer


def test_cautions_come_before_the_answer():
    from benchmate.hearing.reading import Reading

    reading = Reading("can I defoliate it")
    advice = Advice(reading, None, "2026-06-14", cautions=(Caution("skin-sap", "person", "Sap burns the skin."),))
    answer = Answer(reading, dt.date(2026, 6, 14), advice=advice)
    cautions, _ = by_voice.aloud_parts(answer)
    assert cautions == ["Sap burns the skin."]


def test_without_a_voice_one_line_tells_how_to_get_it(monkeypatch):
    monkeypatch.setattr("benchmate.voice.aloud.shutil.which", lambda name: None)
    with pytest.raises(UserError, match="espeak-ng"):
        by_voice.aloud(lambda said: None)
