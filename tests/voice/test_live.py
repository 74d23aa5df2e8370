"""A statement while it is spoken: when the recogniser begins, what it is given, and how a statement ends."""

from __future__ import annotations

import random
from array import array

import pytest
from delivery import left_open, pressed, speech_ends
from garden_noise import mixed
from spoken import VOICES, said_by

from benchmate.voice.live import BEGIN_S, QUIET_S, Live
from benchmate.voice.microphone import has_ended
from benchmate.voice.recogniser import CHUNK
from benchmate.voice.wave_file import LONGEST_S, RATE

SILENCE = bytes(2 * RATE)  # a second


def loud(seconds: float, level: int = 6_000) -> bytes:
    rng = random.Random(3)
    return array("h", (rng.randint(-level, level) for _ in range(int(seconds * RATE)))).tobytes()


class Kept:
    """Keeps what it is given: the beginning and the parts, or whole sounds."""

    def __init__(self) -> None:
        self.begun: list[bytes] = []
        self.whole: list[bytes] = []

    def begin(self, sound: bytes) -> None:
        self.begun = [sound]

    def more(self, sound: bytes) -> None:
        self.begun.append(sound)

    def end(self) -> bytes:
        return b"".join(self.begun)

    def hear(self, sound: bytes) -> bytes:
        self.whole.append(sound)
        return sound


def given(sound: bytes, hearer: Kept) -> bytes:
    live = Live(hearer)
    for at in range(0, len(sound), CHUNK):
        live.more(sound[at : at + CHUNK])
    return live.end()


def test_the_recogniser_begins_when_enough_has_been_said_and_misses_nothing():
    hearer = Kept()
    sound = loud(1.0, 1_000) + loud(3.0)  # a room that needs no floor
    assert given(sound, hearer) == sound
    assert 1.0 + BEGIN_S <= len(hearer.begun[0]) / 2 / RATE <= 1.2 + BEGIN_S


def test_a_sound_without_speech_is_heard_after_a_while_all_the_same():
    hearer = Kept()
    given(6 * SILENCE, hearer)
    assert QUIET_S <= len(hearer.begun[0]) / 2 / RATE <= QUIET_S + 0.2


def test_a_short_statement_is_heard_whole():
    hearer = Kept()
    sound = SILENCE[:RATE] + loud(0.5)
    given(sound, hearer)
    assert hearer.whole == [sound] and not hearer.begun


def test_what_goes_beyond_the_longest_statement_is_not_heard():
    live = Live(Kept())
    for _ in range(LONGEST_S + 5):
        live.more(SILENCE)
    assert len(live.end()) == LONGEST_S * len(SILENCE)


def test_the_floor_goes_on_through_all_parts():
    sound = SILENCE[:RATE] + loud(2.0) + SILENCE + loud(1.0)
    quiet = array("h", given(sound, Kept()))[int(2.7 * RATE) : int(3.3 * RATE)]
    assert sum(map(abs, quiet)) / len(quiet) > 10


def test_parts_between_two_presses_come_as_time_goes_by():
    parts = list(pressed(SILENCE + b"ab"))
    assert [came for came, _ in parts[:2]] == pytest.approx([0.1, 0.2])
    assert b"".join(part for _, part in parts) == SILENCE + b"ab" and parts[-1][1] == b""


def test_speech_ends_with_its_last_sound():
    assert speech_ends(SILENCE + loud(1.0) + SILENCE) == pytest.approx(2.0, abs=0.03)


@pytest.mark.parametrize("decibels", [None, 20.0])
def test_with_the_microphone_open_a_silence_ends_the_statement_and_noise_does_not_keep_it_open(voices_here, decibels):
    speech = said_by("the second flush has not hardened", *VOICES[0]) + SILENCE
    sound, last = mixed(speech, decibels, 5), speech_ends(speech)
    parts = list(left_open(sound))
    ended = next(at for at, (_, part) in enumerate(parts) if not part)
    assert 0.3 < parts[ended][0] - last < 0.7
    end = 2 * int(last * RATE)
    assert sound[end - CHUNK : end] in b"".join(part for _, part in parts[:ended])  # what dies away is there


def test_a_statement_goes_on_while_it_is_as_loud_as_before():
    speech, faint = [1_000.0] * 40, [10.0] * 20
    assert not has_ended(speech)
    assert not has_ended([*speech, *faint[:8]])
    assert has_ended([*speech, *faint])
    assert has_ended([*speech, *faint[:9], 1_000.0, *faint[:9]])  # a click
    assert not has_ended([*speech, *faint[:9], 1_000.0, 1_000.0, *faint[:5]])
