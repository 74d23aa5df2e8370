"""The talk by voice through the real loop: a stand-in microphone, a stand-in recogniser, a stand-in espeak-ng."""

import datetime as dt
import os
import sys
import types
from argparse import Namespace

import pytest

from benchmate.fault import UserError
from benchmate.practice.advice import Advice, Caution
from benchmate.talk.aloud import by_voice
from benchmate.talk.opening import open_talk
from benchmate.telling.answer import Answer
from benchmate.voice import aloud, microphone
from benchmate.voice.doubt import HeardWord
from benchmate.voice.live import Live
from benchmate.voice.recogniser import Speech

ON = "2026-06-14"
WORDS = ["cut the left branch back to two buds", "bench mate the left branch is dead", "scratch that"]


@pytest.fixture
def sound_module(monkeypatch):
    """A sound module whose stream gives one byte, the number of its statement, again and again."""
    opened = []

    class RawInputStream:
        def __init__(self, *, samplerate, channels, dtype, blocksize, callback):
            assert (samplerate, channels, dtype) == (16_000, 1, "int16")
            self.callback, self.size = callback, 2 * blocksize
            opened.append(self)

        def start(self):
            for _ in range(3):
                self.speak()

        def speak(self):
            self.callback(bytes([len(opened) - 1]) * self.size, self.size // 2, None, None)

        def stop(self):
            opened[-1].stopped = True

        def close(self):
            opened[-1].closed = True

    monkeypatch.setitem(sys.modules, "sounddevice", types.SimpleNamespace(RawInputStream=RawInputStream))
    return opened


class Listener:
    """Hears the words whose number the sound repeats, some of them unsure."""

    wake = ("bench mate",)
    knows_speaker = True
    unsure: tuple[str, ...] = ()

    def __init__(self, ear):
        self.ear = ear
        self.recogniser = self

    def live(self):
        return Live(self)

    def hear(self, sound):
        words = WORDS[sound[0]].split() if sound else []
        return Speech(tuple(HeardWord(word, 0.1 if word in self.unsure else 1.0) for word in words))

    def reading(self, speech, at):
        from benchmate.voice import heard_words

        return heard_words(speech.words, self.ear, at.on, at.southern, at.names)


@pytest.fixture
def talk(demo, monkeypatch, sound_module):
    """Runs the talk with what is typed at each prompt; gives its exit status."""
    from benchmate.voice import Occasion

    monkeypatch.setattr(
        by_voice, "listener_of", lambda house, on: (Listener(house.ear), Occasion(on, names=("Gatepost",)))
    )

    def run(typed, **more):
        keys = iter(typed)

        def type_next(words=""):
            try:
                # what is spoken while the key is held comes in before it is let go
                key = next(keys)
            except StopIteration:
                raise EOFError from None
            if words.startswith("listening"):
                sound_module[-1].speak()
            return key

        monkeypatch.setattr("builtins.input", type_next)
        args = Namespace(garden=str(demo), rules=None, demo=False, on=ON, tree="Gatepost", dry=False, plain=True)
        vars(args).update({"listen": True, "speak": False, **more})
        return open_talk(args)

    return run


def test_two_presses_of_enter_say_a_statement_and_it_is_answered_and_logged(talk, journal, capsys, sound_module):
    before = len(journal("Gatepost"))
    assert talk(["", ""]) == 0
    assert "logged" in capsys.readouterr().out.lower()
    entries = journal("Gatepost")
    assert len(entries) > before and entries[-1].said == WORDS[0]
    assert sound_module[0].stopped and sound_module[0].closed


def test_what_was_not_heard_for_sure_is_read_back_and_not_logged(talk, journal, capsys, monkeypatch):
    monkeypatch.setattr(Listener, "unsure", ("left",))
    before = len(journal("Gatepost"))
    talk(["", ""])
    assert "?" in capsys.readouterr().out
    assert len(journal("Gatepost")) == before


def test_with_the_microphone_open_only_what_follows_a_wake_word_is_taken(talk, capsys, monkeypatch, journal):
    heard = [bytes([0]) * 8, b"", bytes([1]) * 8, b""]  # without the wake word, with it
    monkeypatch.setattr(microphone, "utterances", lambda chunks: iter(heard))
    before = len(journal("Gatepost"))
    assert talk(["o"]) == 0
    said = [entry.said for entry in journal("Gatepost")[before:]]
    assert said == ["the left branch is dead"]


def test_nothing_heard_is_told_and_the_talk_goes_on(talk, capsys, monkeypatch):
    monkeypatch.setattr(Listener, "hear", lambda self, sound: Speech())
    assert talk(["", "", "", ""]) == 0
    assert capsys.readouterr().err.count("nothing was heard; say it again") == 2


def test_a_microphone_that_cannot_be_opened_is_told_in_one_line(talk, monkeypatch):
    def none(**settings):
        raise RuntimeError("no device")

    monkeypatch.setitem(sys.modules, "sounddevice", types.SimpleNamespace(RawInputStream=none))
    with pytest.raises(UserError, match="cannot be opened") as told:
        talk(["", ""])
    assert "\n" not in str(told.value)


def test_without_the_extra_listening_tells_how_to_get_it(bench, monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, "pocketsphinx", None)
    with pytest.raises(UserError, match="pip install"):
        by_voice.spoken_statements(bench)


@pytest.fixture
def speaker(tmp_path, monkeypatch):
    """Puts an espeak-ng on the path that keeps what it is given; gives the file."""

    def put(script='cat >> "$SPOKEN"; printf \'\\n\' >> "$SPOKEN"'):
        folder = tmp_path / "bin"
        folder.mkdir()
        program = folder / "espeak-ng"
        program.write_text(f"#!/bin/sh\n{script}\n")
        program.chmod(0o755)
        monkeypatch.setenv("PATH", f"{folder}{os.pathsep}{os.environ['PATH']}")
        monkeypatch.setenv("SPOKEN", str(tmp_path / "spoken"))
        return tmp_path / "spoken"

    return put


def answered(*says):
    from benchmate.hearing.reading import Reading

    reading = Reading("can I defoliate it")
    advice = Advice(reading, None, ON, cautions=(Caution("skin-sap", "person", "Sap burns the skin. Wear gloves."),))
    return Answer(reading, dt.date(2026, 6, 14), says=says, advice=advice)


def test_cautions_come_before_the_answer():
    cautions, _ = by_voice.aloud_parts(answered())
    assert cautions == ["Sap burns the skin. Wear gloves."]


def test_the_speaker_is_given_short_sentences_cautions_first(speaker):
    spoken = speaker()
    by_voice.aloud(lambda said: answered("Head.", "Wait until autumn; it is weak."))("can I defoliate it")
    lines = spoken.read_text().split("\n")
    assert lines[:2] == ["Sap burns the skin.", "Wear gloves."]
    assert "it is weak." in lines
    assert all(len(line.split()) <= 30 for line in lines)


def test_answers_of_the_talk_are_said_aloud(talk, speaker):
    spoken = speaker()
    talk(["", ""], speak=True)
    assert spoken.read_text().strip()


@pytest.mark.parametrize("script", ["cat >/dev/null; exit 1", "cat >/dev/null; echo 'error: No such file' >&2"])
def test_where_no_sound_can_be_made_one_line_says_so_and_the_talk_goes_on(speaker, capsys, script):
    speaker(script)
    ask = by_voice.aloud(lambda said: answered("Head.", "Wait."))
    assert ask("one").says == ask("two").says == ("Head.", "Wait.")
    assert capsys.readouterr().err == f"benchmate: {aloud.NO_SOUND}\n"


def test_without_a_voice_one_line_tells_how_to_get_it(monkeypatch):
    monkeypatch.setattr("benchmate.voice.aloud.shutil.which", lambda name: None)
    with pytest.raises(UserError, match="espeak-ng"):
        by_voice.aloud(lambda said: None)
