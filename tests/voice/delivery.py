"""A sound delivered as a microphone delivers it, and an account of when its reading stands.

Two runs hear a sound at once, each on a core of its own. Here they hear one after the other, in this process, and the
processor time that each takes for each part goes into the account: a core takes up a part when it has come in and what
came before is done. So the account is that of two idle cores; what others do meanwhile does not wait in it, though it
makes processor time itself dearer (shared caches), so a busy machine tells too much rather than too little.
"""

from __future__ import annotations

import time
from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from benchmate.hearing import Reading
from benchmate.voice import Listener, Occasion, Speech
from benchmate.voice.floor import FRAME, powers_of
from benchmate.voice.microphone import utterances
from benchmate.voice.recogniser import CHUNK, WARPS, general_sounds
from benchmate.voice.run import Run
from benchmate.voice.taught import means_of
from benchmate.voice.wave_file import RATE

FAINT = 1e-4  # of the power of the louder half; what is fainter is no speech
_SECOND = 2 * RATE  # bytes
Parts = Iterator[tuple[float, bytes]]  # when a part has come in, seconds from the start; b"" ends the statement


class Counted:
    """A run whose processor time is counted; it can stand where a run beside stands."""

    def __init__(self, run: Run) -> None:
        self._run = run
        self.spent = 0.0
        self._ways: list[Any] = []

    def _counted(self, work: Callable[[], Any]) -> Any:
        began = time.process_time()
        done = work()
        self.spent += time.process_time() - began
        return done

    def begin(self, sound: bytes) -> None:
        self._counted(lambda: self._run.begin(sound))

    def more(self, sound: bytes) -> None:
        self._counted(lambda: self._run.more(sound))

    def whole(self, sound: bytes) -> None:
        self._ways = self._counted(lambda: self._run.ways(sound))

    def end(self) -> list[Any]:
        self._ways = self._counted(self._run.end)
        return self._ways

    def ways(self, sound: bytes | None = None) -> list[Any]:
        """What was heard last; of a sound, what is heard in it."""
        if sound is not None:
            self.whole(sound)
        return self._ways

    def probability(self, word: str, before: str, earlier: str) -> float:
        return self._run.probability(word, before, earlier)

    def close(self) -> None:
        """There is no process to end."""


@dataclass(frozen=True, slots=True)
class Delivered:
    """speech, reading: of the statement. stands_s: when the reading stood, seconds from the start of the sound.
    ended_s: when the statement was known to end. work_s: processor time from then on, of the busier core."""

    speech: Speech
    reading: Reading
    stands_s: float
    ended_s: float
    work_s: float


def beside_of(hearer: Listener) -> Run:
    """The run that a listener has beside, in this process."""
    return Run(hearer.model, WARPS[1], means_of(hearer.model.taught, WARPS[1], general_sounds()))


class Bench:
    """A listener whose two runs are counted."""

    def __init__(self, hearer: Listener) -> None:
        hearer.recogniser.close()
        self._hearer = hearer
        self._here = hearer.recogniser._run = Counted(hearer.recogniser._run)  # type: ignore[assignment]
        self._there = hearer.recogniser._beside = Counted(beside_of(hearer))  # type: ignore[assignment]

    def hear(self, parts: Parts, at: Occasion) -> Delivered | None:
        """The last statement of the parts in which words were heard; None where none came to its end."""
        found = None
        live = self._hearer.recogniser.live()
        here = there = 0.0  # when each core is free
        for came, part in parts:
            if part:
                _, mine, other, rest = self._spent(lambda live=live, part=part: live.more(part))
                here = max(here, came) + rest
                there = max(there, here) + other
                here += mine
                continue
            speech, mine, other, rest = self._spent(live.end)
            reading, _, _, more = self._spent(lambda speech=speech: self._hearer.reading(speech, at))
            stands = max(max(here, came) + mine, max(there, came) + other) + rest + more
            if speech.words or found is None:
                found = Delivered(speech, reading, stands, came, max(mine, other) + rest + more)
            live = self._hearer.recogniser.live()
            here = there = stands
        return found

    def _spent(self, work: Callable[[], Any]) -> tuple[Any, float, float, float]:
        """(what the work gives, processor time of the run here, of the run beside, of all else)."""
        here, there, began = self._here.spent, self._there.spent, time.process_time()
        done = work()
        mine, other = self._here.spent - here, self._there.spent - there
        return done, mine, other, time.process_time() - began - mine - other


def pressed(sound: bytes) -> Parts:
    """Between two presses of Enter: a tenth of a second at a time, and the end with the last sample."""
    for at in range(0, len(sound), CHUNK):
        part = sound[at : at + CHUNK]
        yield (at + len(part)) / _SECOND, part
    yield len(sound) / _SECOND, b""


def left_open(sound: bytes) -> Parts:
    """With the microphone open: what the silences part, as late as they are known."""
    came = 0.0

    def chunks() -> Iterator[bytes]:
        nonlocal came
        for at in range(0, len(sound), CHUNK):
            part = sound[at : at + CHUNK]
            came = (at + len(part)) / _SECOND
            yield part

    for part in utterances(chunks()):
        yield came, part


def speech_ends(speech: bytes) -> float:
    """When the last sound of a clean speech dies away, seconds from its start."""
    powers = powers_of(array("h", speech).tobytes())
    louder = sorted(powers)[len(powers) // 2 :]
    least = FAINT * sum(louder) / max(1, len(louder))
    last = max((at for at, power in enumerate(powers) if power > least), default=0)
    return (last + 1) * FRAME / RATE
