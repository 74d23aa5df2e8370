"""Wave files: whatever rate and width they have, 16-bit mono at the rate that the recogniser hears."""

from __future__ import annotations

import wave
from array import array
from pathlib import Path

from benchmate.fault import UserError

RATE = 16_000  # samples a second
LONGEST_S = 120


def read_wave(path: Path) -> bytes:
    """The sound of a wave file as 16-bit mono samples at 16 kHz. Raises UserError for what is no such file."""
    try:
        with wave.open(str(path), "rb") as file:
            rate, channels, width = file.getframerate(), file.getnchannels(), file.getsampwidth()
            frames = file.readframes(min(file.getnframes(), LONGEST_S * rate))
    except OSError as error:
        raise UserError(f"{path}: {(error.strerror or 'it cannot be read').lower()}; name a wave file") from error
    except (wave.Error, EOFError) as error:
        raise UserError(f"{path}: no wave file that can be read ({error}); save it as 16-bit PCM") from error
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
    """The samples at 16 kHz: a mean over each step where they get fewer, else a straight line between."""
    if rate == RATE or not samples:
        return samples
    step = rate / RATE
    size = int(len(samples) / step)
    if step <= 1:
        return array("h", (_between(samples, at * step) for at in range(size)))
    # the mean of a stretch as wide as the step keeps what lies above half the new rate from folding down
    sums = [0]
    for sample in samples:
        sums.append(sums[-1] + sample)
    return array("h", (round(_area(sums, at * step, (at + 1) * step) / step) for at in range(size)))


def _between(samples: array[int], place: float) -> int:
    at = int(place)
    after = samples[min(at + 1, len(samples) - 1)]
    return round(samples[at] + (place - at) * (after - samples[at]))


def _area(sums: list[int], start: float, end: float) -> float:
    """The integral of the samples from start to end, each sample one wide."""

    def whole(place: float) -> float:
        at = min(int(place), len(sums) - 2)
        return sums[at] + (place - at) * (sums[at + 1] - sums[at])

    return whole(end) - whole(start)
