"""Wave files: whatever rate and width they have, 16-bit mono at the rate that the recogniser hears."""

from __future__ import annotations

import math
import wave
from array import array
from operator import mul
from pathlib import Path

from benchmate.fault import UserError

RATE = 16_000  # samples a second
LONGEST_S = 120
ZEROS = 8  # crossings of the filter on each side; more cost time and bring nothing that speech has


def read_wave(path: Path) -> bytes:
    """The sound of a wave file as 16-bit mono samples at 16 kHz. Raises UserError for what is no such file."""
    try:
        with wave.open(str(path), "rb") as file:
            rate, channels, width = file.getframerate(), file.getnchannels(), file.getsampwidth()
            frames = file.readframes(min(file.getnframes(), LONGEST_S * rate))
    except OSError as error:
        raise UserError(f"{path}: {(error.strerror or 'it cannot be read').lower()}; name a wave file") from error
    except (wave.Error, EOFError) as error:
        why = str(error) or "it ends too soon"
        raise UserError(f"{path}: no wave file that can be read ({why}); save it as 16-bit PCM") from error
    if width not in (1, 2) or not rate:
        raise UserError(f"{path}: {8 * width}-bit sound; save it as 16-bit PCM")
    return to_rate(_mono(frames, width, channels), rate).tobytes()


def _mono(frames: bytes, width: int, channels: int) -> array[int]:
    if width == 1:
        samples = array("h", ((byte - 128) << 8 for byte in frames))
    else:
        samples = array("h", frames[: len(frames) // 2 * 2])
    if channels == 1:
        return samples
    whole = len(samples) // channels
    return array("h", (sum(samples[at * channels : (at + 1) * channels]) // channels for at in range(whole)))


def to_rate(samples: array[int], rate: int) -> array[int]:
    """The samples at 16 kHz, with what the new rate cannot hold taken out so that it does not fold down."""
    if rate == RATE or not samples:
        return samples
    shared = math.gcd(rate, RATE)
    phases, step = RATE // shared, rate // shared
    banks = _banks(phases, min(1.0, RATE / rate))
    reach = len(banks[0]) // 2
    held = array("h", bytes(2 * reach)) + samples + array("h", bytes(2 * (reach + 1)))
    out = array("h")
    for number in range(len(samples) * RATE // rate):
        at, phase = divmod(number * step, phases)
        value = round(sum(map(mul, banks[phase], held[at + 1 : at + 1 + 2 * reach])))
        out.append(max(-32768, min(32767, value)))
    return out


def _banks(phases: int, share: float) -> list[list[float]]:
    """For each place between two samples the weights of those around it: a sinc under a Hann window.

    share: what is kept of the old rate's band."""
    reach = math.ceil(ZEROS / share)
    banks = []
    for phase in range(phases):
        places = [at - phase / phases for at in range(1 - reach, reach + 1)]
        weights = [_sinc(place * share) * (0.5 + 0.5 * math.cos(math.pi * place / (reach + 1))) for place in places]
        whole = sum(weights)
        banks.append([weight / whole for weight in weights])
    return banks


def _sinc(x: float) -> float:
    return math.sin(math.pi * x) / (math.pi * x) if x else 1.0
