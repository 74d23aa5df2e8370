"""Speech into words: two runs over the same sound, each with its frequencies warped, and the ear that reads text.

What fits the sound in both runs and what the ear reads without effort was said; other ways that come near are rivals.
No sound leaves the machine, and none is kept.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence, Set
from dataclasses import dataclass, field, replace
from importlib import import_module
from pathlib import Path
from typing import Any

from benchmate.fault import UserError

from .beside import RunBeside
from .doubt import HeardWord
from .floor import with_floor
from .lattice import LANGUAGE, SENTENCE, Language, Way, behind
from .live import Live
from .model import VoiceModel
from .run import Run
from .taught import means_of

GET_IT = "listening needs the voice extra; get it with: pip install 'benchmate[voice]'"
CHUNK = 3_200  # bytes: a tenth of a second
FRAMES_A_SECOND = 100
WARPS = (0.94, 1.06)  # a short and a long throat; as they are, frequencies fit neither so well
EFFORT = 5.0  # nats for each unit of what the ear's reading costs
ABSENT = 30.0  # nats below the best at which a way stands that a run did not find at all
LOOKED_AT = 20  # ways that the ear is asked about
# How far below the best (nats) another way still raises doubt. Of 90 spoken statements, at 8 nats 7 % were misread in
# silence and 8 % of those read right were read back; at 15 it was 3 and 10 %, at 22 1 and 23 %, at 30 1 and 56 %.
NEAR = 24.0
# The same where a word of time or order is or may be another ("first" and "third"): no reading shows that it was wrong.
NEAR_IN_TIME = 40.0
LONGEST_ENDING = 3  # letters
# Of 154 statements heard, a third of them in words that the model does not foresee, none was misread in silence at -6,
# at -7 and -8 two; of the others read right, 48, 40 and 37 in 100 were then read back.
UNLIKELY = -6.0  # natural logarithm of a word's probability behind the two before it
# Where the voice was taught. Of 240 statements in voices that had read twenty or forty lines, none was misread in
# silence at -6 or -8; of those read right 67 and 48 in 100 were read back.
UNLIKELY_TAUGHT = -8.0
POOR = -200.0  # nats for each word, of its sound alone
UNSURE = 0.3


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


def general_sounds() -> Path:
    """The folder of the sound model that the recogniser came with. Raises UserError without the extra."""
    return Path(_pocketsphinx().get_model_path("en-us/en-us"))


def _pocketsphinx() -> Any:
    try:
        return import_module("pocketsphinx")
    except ImportError as error:
        raise UserError(GET_IT) from error


class Recogniser:
    """Holds the two runs, so that a talk makes them once (about a second).

    effort: what it costs the ear to read a text. times: words of time and order. Raises UserError without the extra.
    """

    def __init__(
        self, model: VoiceModel, effort: Callable[[str], float] = lambda text: 0.0, times: Set[str] = frozenset()
    ) -> None:
        _pocketsphinx()
        self._effort = effort
        self._times = times
        here, there = (means_of(model.taught, warp, general_sounds()) for warp in WARPS)
        self._unlikely = UNLIKELY_TAUGHT if here and there else UNLIKELY
        self._beside = RunBeside(model, WARPS[1], there)
        self._run = Run(model, WARPS[0], here)

    def hear(self, sound: bytes) -> Speech:
        """The words of one statement. sound: 16-bit mono samples at 16 kHz."""
        if len(sound) < CHUNK:
            return Speech()
        sound = with_floor(sound)
        self._beside.whole(sound)
        return self._pooled(self._run.ways(sound))

    def begin(self, sound: bytes) -> None:
        """Hear the beginning of a statement that goes on; what came before and was not ended is dropped."""
        self._beside.begin(sound)
        self._run.begin(sound)

    def more(self, sound: bytes) -> None:
        """Hear what came in since."""
        self._beside.more(sound)
        self._run.more(sound)

    def end(self) -> Speech:
        """The words of the statement that ends here."""
        self._beside.end()
        return self._pooled(self._run.end())

    def _pooled(self, ways: Sequence[Way]) -> Speech:
        heard = [ways, self._beside.ways()]
        found = [ways for ways in heard if ways]
        return speech_of(found, self._effort, self._run.probability, self._times, self._unlikely)

    def live(self) -> Live[Speech]:
        """A statement to be heard while it is spoken."""
        return Live(self)

    def close(self) -> None:
        """End the run beside."""
        self._beside.close()


def speech_of(
    runs: Sequence[Sequence[Way]],
    effort: Callable[[str], float],
    language: Language | None = None,
    times: Set[str] = frozenset(),
    unlikely: float = UNLIKELY,
) -> Speech:
    """The likeliest words of all ways of the runs, each list best first; and their rivals.

    language: how likely a word is behind two others; with it, words that are unlikely there, or that fit the sound
    badly, come with little confidence. times: words of time and order, which are doubted more readily. unlikely: below
    which probability (natural logarithm) a word is.
    """
    ranked = rank_ways(runs, effort)
    if not ranked:
        return Speech()
    best, way = ranked[0]
    sure = _confidences(way, language, unlikely) if language else [1.0] * len(way.words)
    words = tuple(
        HeardWord(word, confidence, pause / FRAMES_A_SECOND)
        for word, confidence, pause in zip(way.words, sure, way.pauses, strict=True)
    )
    firsts = {ways[0].text for ways in runs if ways}
    rivals = [
        other.text
        for cost, other in ranked[1:]
        if cost - best <= NEAR
        or other.text in firsts
        or _same_words_in_other_forms(way.words, other.words)
        or (cost - best <= NEAR_IN_TIME and _another_time(way.words, other.words, times))
    ]
    return Speech(words, tuple(rivals))


def _confidences(way: Way, language: Language, unlikely: float) -> list[float]:
    """UNSURE for a word that is not expected where it stands, or for all where they fit the sound badly; else 1."""
    said = (*way.words, SENTENCE[1])
    likely = [language(word, *behind(way.words[:at])) for at, word in enumerate(said)]
    fit = (way.score - LANGUAGE * sum(likely)) / max(1, len(way.words))
    likely[-2:] = [min(likely[-2:])]  # where the sentence is not expected to end, its last word is unsure
    return [UNSURE if fit < POOR or chance < unlikely else 1.0 for chance in likely]


def _another_time(words: Sequence[str], other: Sequence[str], times: Set[str]) -> bool:
    """Whether one word alone differs, which is a word of time or order in either way."""
    if len(words) != len(other):
        return False
    differing = [pair for pair in zip(words, other, strict=True) if pair[0] != pair[1]]
    return len(differing) == 1 and not times.isdisjoint(differing[0])


def _same_words_in_other_forms(words: Sequence[str], other: Sequence[str]) -> bool:
    """Whether only endings differ ("wire", "wired"): too little sound to go by, however far the other lies below."""
    return len(words) == len(other) and all(map(_alike, words, other))


def _alike(word: str, other: str) -> bool:
    longer = max(len(word), len(other))
    shared = next((at for at, (one, two) in enumerate(zip(word, other, strict=False)) if one != two), longer)
    shared = min(shared, len(word), len(other))
    return word == other or (shared >= 2 and longer - shared <= min(shared, LONGEST_ENDING))


def rank_ways(runs: Sequence[Sequence[Way]], effort: Callable[[str], float]) -> list[tuple[float, Way]]:
    """(cost, way), the likeliest first.

    The cost is how far a way lies below the best of each run, on the mean, and the ear's effort with it; so words on
    which the runs agree come out before words that one run alone took. Where each took words of its own, those of the
    run whose throat fits the speaker better, by its scores, come first. Where the sound alone puts a way too far below
    to raise doubt, the ear is not asked: its effort, never less than nothing, could only add to that.
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
    ranked: list[tuple[float, float, str]] = []
    least = math.inf
    for mean, score, text in means[:LOOKED_AT]:
        cost = mean + EFFORT * effort(text) if mean <= least + NEAR else mean
        least = min(least, cost)
        ranked.append((cost, score, text))
    return [(cost, found[text]) for cost, _, text in sorted(ranked)]
