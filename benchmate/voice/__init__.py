"""The voice: sound comes in, a `Reading` goes out, and answers are said aloud; nothing leaves the machine.

What can be recognised is made from the lexicon and the grammar of the text. Without the extra one plain line tells how
to get it; unsure words are guesses, which the talk reads back before it logs anything.
"""

from __future__ import annotations

from .aloud import can_speak, say_aloud, sentences_aloud
from .doubt import HeardWord, heard_words
from .listening import Listener, Occasion
from .model import VoiceModel, voice_model
from .recogniser import Recogniser, Speech, base_dictionary
from .wave_file import read_wave

__all__ = [
    "HeardWord",
    "Listener",
    "Occasion",
    "Recogniser",
    "Speech",
    "VoiceModel",
    "base_dictionary",
    "can_speak",
    "heard_words",
    "read_wave",
    "say_aloud",
    "sentences_aloud",
    "voice_model",
]
