"""The run in a process of its own: it hears what the run here hears, and where it has gone the other one goes on."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from spoken import VOICES, listener, said_by

from benchmate.voice.floor import with_floor


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
    beside.begin(sound)
    assert [way.text for way in beside.ways()] == [way.text for way in Run(hearer.model, WARPS[1]).ways(sound)]


def test_where_the_run_beside_has_gone_the_other_one_goes_on(hearer):
    hearer.recogniser.close()
    assert hearer.recogniser.hear(said_by("the beech is weak", *VOICES[1])).text == "the beech is weak"
