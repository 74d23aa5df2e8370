"""A floor of noise under sound that has none: the recogniser was taught on rooms, and true silence puts it out.

The noise falls off to high frequencies as speech does: white noise would drown the faint bursts of T, D and K, by which
"wire" and "wired" are told apart.
"""

from __future__ import annotations

import math
import random
from array import array
from functools import cache
from itertools import cycle, islice

FRAME = 400  # samples: a fortieth of a second
# How far the floor lies below the louder half of the sound. Of 100 spoken statements 80 were read exactly over white
# noise at 28 dB, over this at 28 dB 83, at 22 dB 87, at 17 dB 81.
FLOOR_DB = 22.0
DULL = 0.95  # of each sample, how much stays in the next: 6 dB less an octave above some 130 Hz
_NOISE_S = 16_000


class Floor:
    """The floor that a sound needs, put under it part by part.

    heard: 16-bit mono, the sound or what has come of it, by which the floor is chosen. below_db: how far it lies below
    the louder half of that, decibels. Where its quietest tenth is no quieter, no floor is needed.
    """

    def __init__(self, heard: bytes, below_db: float = FLOOR_DB) -> None:
        level = _lacking(heard, below_db)
        self._noise = cycle(_noise(level)) if level >= 1.0 else None

    def under(self, part: bytes) -> bytes:
        """The next part of the sound with the floor under it."""
        if self._noise is None:
            return part
        samples = array("h", part[: len(part) // 2 * 2])
        both = map(int.__add__, samples, islice(self._noise, len(samples)))
        return array("h", (value if -32768 <= value <= 32767 else _clipped(value) for value in both)).tobytes()


def with_floor(sound: bytes, below_db: float = FLOOR_DB) -> bytes:
    """The sound with faint noise where its quietest tenth is quieter than that; else as it is."""
    return Floor(sound, below_db).under(sound)


def powers_of(sound: bytes) -> list[float]:
    """The power of each whole frame."""
    samples = array("h", sound[: len(sound) // 2 * 2])
    return [_power(samples[at : at + FRAME]) for at in range(0, len(samples) - FRAME + 1, FRAME)]


def _lacking(sound: bytes, below_db: float) -> float:
    """The root mean square of the floor, 0 where none is needed."""
    powers = sorted(powers_of(sound))
    if not powers:
        return 0.0
    louder = powers[len(powers) // 2 :]
    wanted = math.sqrt(sum(louder) / len(louder)) / 10 ** (below_db / 20)
    return 0.0 if math.sqrt(powers[len(powers) // 10]) >= wanted else wanted


def _power(frame: array[int]) -> float:
    return sum(map(int.__mul__, frame, frame)) / len(frame)


def _clipped(value: int) -> int:
    return max(-32768, min(32767, value))


@cache
def _shape() -> tuple[float, ...]:
    """A second of dull noise whose mean square is one; the same each time, so that a sound is always heard alike."""
    rng = random.Random(1)
    sample, samples = 0.0, []
    for _ in range(_NOISE_S):
        sample = DULL * sample + rng.gauss(0.0, 1.0)
        samples.append(sample)
    gain = 1 / math.sqrt(sum(value * value for value in samples) / len(samples))
    return tuple(value * gain for value in samples)


def _noise(level: float) -> list[int]:
    return [round(value * level) for value in _shape()]
