"""A statement heard while it is spoken, so that little is left to do when it ends.

The recogniser and the floor want to know how loud the speech is and how the room sounds before they begin. So the first
moments are held back; what has been said till then is soon caught up with.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, Protocol, TypeVar

from .floor import Floor, powers_of
from .wave_file import LONGEST_S, RATE

BEGIN_S = 1.2  # of speech, before the recogniser begins
QUIET_S = 4.0  # of sound in which no speech stands out; then it begins all the same
STANDS_OUT = 10.0  # how much more power than the quietest tenth has what is taken for the first speech
_SAMPLE = 2  # bytes
Heard = TypeVar("Heard", covariant=True)


class Hearer(Protocol[Heard]):
    """What hears the sound, whole or in parts."""

    def hear(self, sound: bytes) -> Heard: ...
    def begin(self, sound: bytes) -> None: ...
    def more(self, sound: bytes) -> None: ...
    def end(self) -> Heard: ...


class Live(Generic[Heard]):
    """One statement: `more` for each part of the sound as it comes in, then `end` once."""

    def __init__(self, hearer: Hearer[Heard]) -> None:
        self._hearer = hearer
        self._first = bytearray()
        self._powers: list[float] = []
        self._floor: Floor | None = None
        self._left = LONGEST_S * RATE * _SAMPLE

    def more(self, part: bytes) -> None:
        """Hear the next part. What goes beyond the longest statement is not heard."""
        part = part[: self._left]
        self._left -= len(part)
        if self._floor is not None:
            self._hearer.more(self._floor.under(part))
            return
        self._first += part
        self._powers += powers_of(part)
        if _speech_s(self._powers, len(self._first) / _SAMPLE / RATE) >= BEGIN_S:
            self._floor = Floor(bytes(self._first))
            self._hearer.begin(self._floor.under(bytes(self._first)))

    def end(self) -> Heard:
        """What was said. A statement too short to have been begun is heard whole."""
        return self._hearer.hear(bytes(self._first)) if self._floor is None else self._hearer.end()


def _speech_s(powers: Sequence[float], whole_s: float) -> float:
    """How long ago speech began, seconds; 0 where none stands out yet. whole_s: how long the sound is."""
    if not powers or whole_s >= QUIET_S:
        return whole_s
    least = STANDS_OUT * max(1.0, sorted(powers)[len(powers) // 10])
    first = next((at for at, power in enumerate(powers) if power >= least), len(powers))
    return whole_s * (1 - first / len(powers))
