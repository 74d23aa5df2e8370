"""The run in a process of its own: it hears what the run here hears, and where it has gone the other one goes on."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from spoken import VOICES, listener, said_by

from benchmate.voice.floor import with_floor
from benchmate.voice.recogniser import CHUNK


@pytest.fixture(scope="module")
def hearer(voices_here):
    found = listener(Path(tempfile.gettempdir()) / "benchmate-voice-tests")
    yield found
    found.recogniser.close()


def test_a_run_beside_hears_as_the_same_run_here(hearer):
    from benchmate.voice.recogniser import WARPS
    from benchmate.voice.run import Run

    sound = with_floor(said_by("the beech is weak", *VOICES[1]))
    beside = hearer.recogniser._beside
    beside.whole(sound)
    assert [way.text for way in beside.ways()] == [way.text for way in Run(hearer.model, WARPS[1]).ways(sound)]


def test_a_statement_heard_while_it_is_spoken_is_heard_as_when_it_is_heard_whole(hearer):
    sound = said_by("the second flush has not hardened", *VOICES[0])
    live = hearer.recogniser.live()
    for at in range(0, len(sound), CHUNK):
        live.more(sound[at : at + CHUNK])
    assert live.end().text == hearer.recogniser.hear(sound).text == "the second flush has not hardened"


def test_a_statement_that_was_not_heard_to_its_end_leaves_nothing_in_the_next(hearer):
    left = hearer.recogniser.live()
    left.more(said_by("the second flush has not hardened", *VOICES[0]))
    assert hearer.recogniser.hear(said_by("the beech is weak", *VOICES[1])).text == "the beech is weak"


def test_where_the_run_beside_has_gone_the_other_one_goes_on(hearer):
    hearer.recogniser.close()
    assert hearer.recogniser.hear(said_by("the beech is weak", *VOICES[1])).text == "the beech is weak"
