"""Noise of a garden, made by code: wind in gusts, birds, the hum of a pump; and speech mixed with it at a level."""

from __future__ import annotations

import math
import random
from array import array

RATE = 16_000


def garden_noise(samples: int, seed: int) -> list[float]:
    """Wind, birds and hum, each of equal power. The same seed gives the same noise."""
    rng = random.Random(seed)
    parts = [_level(part) for part in (_wind(samples, rng), _birds(samples, rng), _hum(samples, rng))]
    return [sum(values) for values in zip(*parts, strict=True)]


def mixed(speech: bytes, decibels: float | None, seed: int) -> bytes:
    """Speech (16-bit mono) with noise so that its mean power stands `decibels` above the noise's; None: as it is.

    The power of speech is that of its louder half, so that pauses do not count.
    """
    voice = array("h", speech)
    if decibels is None:
        return speech
    frames = [voice[at : at + 400] for at in range(0, len(voice) - 400, 400)]
    powers = sorted((sum(x * x for x in frame) / len(frame) for frame in frames), reverse=True)
    louder = powers[: max(1, len(powers) // 2)]
    noise = garden_noise(len(voice), seed)
    power = sum(x * x for x in noise) / len(noise)
    gain = math.sqrt(sum(louder) / len(louder) / power / 10 ** (decibels / 10))
    return array("h", (_clipped(a + gain * b) for a, b in zip(voice, noise, strict=True))).tobytes()


def _wind(samples: int, rng: random.Random) -> list[float]:
    """Noise below some 300 Hz, swelling and sinking about every second."""
    out, slow, faster, phase = [], 0.0, 0.0, rng.random() * 6.28
    for at in range(samples):
        slow += 0.05 * (rng.gauss(0, 1) - slow)
        faster += 0.12 * (slow - faster)
        out.append(faster * (0.6 + 0.4 * math.sin(phase + at * 2 * math.pi * 0.8 / RATE)))
    return out


def _birds(samples: int, rng: random.Random) -> list[float]:
    """Short calls between 2 and 5 kHz that glide up or down, two or three a second."""
    out, at = [0.0] * samples, 0
    while at < samples:
        at += int(rng.uniform(0.1, 0.6) * RATE)
        length, tone, glide = int(rng.uniform(0.05, 0.2) * RATE), rng.uniform(2000, 5000), rng.uniform(-4000, 4000)
        phase = 0.0
        for step in range(min(length, samples - at)):
            phase += 2 * math.pi * (tone + glide * step / RATE) / RATE
            out[at + step] += math.sin(phase) * math.sin(math.pi * step / length)
        at += length
    return out


def _hum(samples: int, rng: random.Random) -> list[float]:
    """50 Hz and its first overtones."""
    shift = rng.random() * 6.28
    tones = [(50 * k, 1 / k) for k in (1, 2, 3, 4)]
    return [sum(a * math.sin(shift + 2 * math.pi * f * at / RATE) for f, a in tones) for at in range(samples)]


def _level(part: list[float]) -> list[float]:
    power = math.sqrt(sum(x * x for x in part) / len(part)) or 1.0
    return [x / power for x in part]


def _clipped(value: float) -> int:
    return max(-32768, min(32767, round(value)))
