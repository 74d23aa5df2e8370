"""Speech into words: two runs over the same sound, each with its frequencies warped, and the ear that reads text.

What fits the sound in both runs and what the ear reads without effort was said; other ways that come near are rivals.
No sound leaves the machine, and none is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from importlib import import_module
from pathlib import Path
from typing import Any

from benchmate.fault import UserError

from .beside import RunBeside
from .doubt import HeardWord
from .floor import with_floor
from .lattice import Way
from .model import VoiceModel
from .run import Run

GET_IT = "listening needs the voice extra; get it with: pip install 'benchmate[voice]'"
CHUNK = 3_200  # bytes: a tenth of a second
FRAMES_A_SECOND = 100
WARPS = (0.94, 1.06)  # a short and a long throat; as they are, frequencies fit neither so well
EFFORT = 3.0  # nats for each unit of what the ear's reading costs
ABSENT = 30.0  # nats below the best at which a way stands that a run did not find at all
LOOKED_AT = 20  # ways that the ear is asked about
# How far below the best (nats) another way still raises doubt. Of 90 spoken statements, at 8 nats 7 % were misread in
# silence and 8 % of those read right were read back; at 15 it was 3 and 10 %, at 22 1 and 23 %, at 30 1 and 56 %.
NEAR = 24.0


@dataclass(frozen=True, slots=True)
class Speech:
    """What was recognised. rivals: other words that fit about as well."""

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
    """Holds the two runs, so that a talk makes them once (about a second).

    effort: what it costs the ear to read a text. Raises UserError without the extra.
    """

    def __init__(self, model: VoiceModel, effort: Callable[[str], float] = lambda text: 0.0) -> None:
        _pocketsphinx()
        self._effort = effort
        self._beside = RunBeside(model, WARPS[1])
        self._run = Run(model, WARPS[0])

    def hear(self, sound: bytes) -> Speech:
        """The words of one statement. sound: 16-bit mono samples at 16 kHz."""
        if len(sound) < CHUNK:
            return Speech()
        sound = with_floor(sound)
        self._beside.begin(sound)
        heard = [self._run.ways(sound), self._beside.ways()]
        return speech_of([ways for ways in heard if ways], self._effort)

    def close(self) -> None:
        """End the run beside."""
        self._beside.close()


def speech_of(runs: Sequence[Sequence[Way]], effort: Callable[[str], float]) -> Speech:
    """The likeliest words of all ways of the runs, each list best first; and their rivals."""
    ranked = rank_ways(runs, effort)
    if not ranked:
        return Speech()
    best = ranked[0][0]
    words = tuple(
        HeardWord(word, 1.0, pause / FRAMES_A_SECOND)
        for word, pause in zip(ranked[0][1].words, ranked[0][1].pauses, strict=True)
    )
    firsts = {ways[0].text for ways in runs if ways}
    rivals = [way.text for cost, way in ranked[1:] if cost - best <= NEAR or way.text in firsts]
    return Speech(words, tuple(rivals))


def rank_ways(runs: Sequence[Sequence[Way]], effort: Callable[[str], float]) -> list[tuple[float, Way]]:
    """(cost, way), the likeliest first.

    The cost is how far a way lies below the best of each run, on the mean, and the ear's effort with it; so words on
    which the runs agree come out before words that one run alone took. Where each took words of its own, those of the
    run whose throat fits the speaker better, by its scores, come first.
    """
    lacking: dict[str, list[float]] = {}
    found: dict[str, Way] = {}
    for number, ways in enumerate(runs):
        for way in ways:
            below = lacking.setdefault(way.text, [ABSENT] * len(runs))
            below[number] = min(ABSENT, ways[0].score - way.score)
            known = found.get(way.text)
            if known is None:
                found[way.text] = way
            else:  # a pause that one run alone found was none
                pauses = tuple(map(min, known.pauses, way.pauses))
                found[way.text] = replace(known, score=max(known.score, way.score), pauses=pauses)
    means = sorted((sum(below) / len(below), -found[text].score, text) for text, below in lacking.items())
    ranked = [(mean + EFFORT * effort(text), score, text) for mean, score, text in means[:LOOKED_AT]]
    return [(cost, found[text]) for cost, _, text in sorted(ranked)]
