"""Speech into words: two runs of pocketsphinx over the same sound, one of them with its frequencies warped.

Words on which both agree are as good as sure; where they part, each is the other's rival. No sound leaves the machine.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from importlib import import_module
from itertools import islice
from pathlib import Path
from typing import Any

from benchmate.fault import UserError

from .doubt import HeardWord
from .floor import with_floor
from .model import VoiceModel

GET_IT = "listening needs the voice extra; get it with: pip install 'benchmate[voice]'"
CHUNK = 3_200  # bytes: a tenth of a second
FRAMES_A_SECOND = 100
# Wide beams: the vocabulary is small, so a narrow search would save little and lose words.
_SEARCH = {
    "beam": 1e-80,
    "wbeam": 1e-50,
    "pbeam": 1e-80,
    "fwdflatbeam": 1e-90,
    "fwdflatwbeam": 1e-50,
    "lw": 9.0,
    "wip": 0.5,
    "cmn": "batch",
    "loglevel": "FATAL",
}
_LONGER = "1.06"  # the second run's warp of the frequencies
# How far below the best (natural logarithm of the ratio of scores) another way through the sound still raises doubt.
# On 144 spoken statements: at 0.03 2 % were misread in silence and 32 % of those read right were read back, at 0.05
# 0.7 and 50 %, at 0.08 none and 71 %.
NEAR = 0.05
LOOKED_AT = 60
NOT_WORDS = frozenset({"<s>", "</s>", "<sil>", "[NOISE]", "[COUGH]", "[SPEECH]", "++NOISE++"})


@dataclass(frozen=True, slots=True)
class Speech:
    """What was recognised. rivals: other words that fit the sound about as well."""

    words: tuple[HeardWord, ...] = ()
    rivals: tuple[str, ...] = field(default=())

    @property
    def text(self) -> str:
        return " ".join(word.word for word in self.words)


def base_dictionary() -> Path:
    """The dictionary that the recogniser came with. Raises UserError without the extra."""
    return Path(_pocketsphinx().get_model_path("en-us/cmudict-en-us.dict"))


def _pocketsphinx() -> Any:
    try:
        return import_module("pocketsphinx")
    except ImportError as error:
        raise UserError(GET_IT) from error


class Recogniser:
    """Holds the two runs, so that a talk makes them once (about a second)."""

    def __init__(self, model: VoiceModel) -> None:
        sphinx = _pocketsphinx()
        files = {"lm": str(model.language), "dict": str(model.dictionary)}
        self._runs = [
            sphinx.Decoder(sphinx.Config(**files, **_SEARCH, **more)) for more in ({}, {"warp_params": _LONGER})
        ]

    def hear(self, sound: bytes) -> Speech:
        """The words of one statement. sound: 16-bit mono samples at 16 kHz."""
        if len(sound) < CHUNK:
            return Speech()
        sound = with_floor(sound)
        heard = [self._run(run, sound) for run in self._runs]
        (words, rivals), (other_words, _) = heard
        if not words:
            words, other_words = other_words, words
        others = [" ".join(word.word for word in other_words), *rivals]
        text = " ".join(word.word for word in words)
        return Speech(words, tuple(dict.fromkeys(other for other in others if other != text)))

    def _run(self, decoder: Any, sound: bytes) -> tuple[tuple[HeardWord, ...], tuple[str, ...]]:
        decoder.start_utt()
        decoder.process_raw(sound, full_utt=True)
        decoder.end_utt()
        if decoder.hyp() is None:
            return (), ()
        words = tuple(_segments(decoder))
        rivals: dict[str, None] = {}  # many differ in their silences or pronunciations alone
        ways = [way for way in islice(decoder.nbest(), LOOKED_AT) if way is not None and way.score > 0]
        best = max((way.score for way in ways), default=1.0)
        for way in ways:
            if math.log(best / way.score) > NEAR:
                continue
            rivals[" ".join(_bare(word) for word in way.hypstr.split() if word not in NOT_WORDS)] = None
        return words, tuple(rivals)


def _segments(decoder: Any) -> Iterator[HeardWord]:
    logs, silence = decoder.logmath, 0
    for part in decoder.seg():
        if part.word in NOT_WORDS:
            silence += part.end_frame - part.start_frame + 1
            continue
        yield HeardWord(_bare(part.word), min(1.0, logs.exp(part.prob)), silence / FRAMES_A_SECOND)
        silence = 0


def _bare(word: str) -> str:
    """Without the number of its pronunciation: "branch(2)" is "branch"."""
    return word.partition("(")[0]
