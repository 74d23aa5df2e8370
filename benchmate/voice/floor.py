"""A floor of noise under sound that has none: the recogniser was taught on rooms, and true silence puts it out."""

from __future__ import annotations

import math
import random
from array import array
from itertools import cycle, islice

FRAME = 400  # samples: a fortieth of a second
FLOOR_DB = 28.0  # how far the floor lies below the louder half of the sound
_NOISE_S = 16_000


def with_floor(sound: bytes, below_db: float = FLOOR_DB) -> bytes:
    """The sound with faint noise where its quietest tenth is quieter than that; else as it is.

    sound: 16-bit mono. below_db: how far the floor lies below the louder half of the sound, decibels.
    """
    samples = array("h", sound[: len(sound) // 2 * 2])
    powers = sorted(_power(samples[at : at + FRAME]) for at in range(0, len(samples) - FRAME, FRAME))
    if not powers:
        return sound
    louder = powers[len(powers) // 2 :]
    wanted = math.sqrt(sum(louder) / len(louder)) / 10 ** (below_db / 20)
    if wanted < 1.0 or math.sqrt(powers[len(powers) // 10]) >= wanted:
        return sound
    noise = islice(cycle(_noise(wanted)), len(samples))
    return array("h", (max(-32768, min(32767, a + b)) for a, b in zip(samples, noise, strict=True))).tobytes()


def _power(frame: array[int]) -> float:
    return sum(map(int.__mul__, frame, frame)) / len(frame)


def _noise(level: float) -> list[int]:
    """A second of white noise of that root mean square; the same each time, so that a sound is always heard alike."""
    rng = random.Random(1)
    return [round(rng.uniform(-1.732, 1.732) * level) for _ in range(_NOISE_S)]
