"""The recogniser's general sound model as it lies on disk: means, variances and weights of its densities.

The model is phonetically tied: the states of one phone share one set of Gaussian densities for each of three streams
(cepstra, their change, the change of that), and each state (senone) has weights of its own.
"""

from __future__ import annotations

import math
import struct
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul
from pathlib import Path
from typing import NamedTuple

LEAST_VARIANCE = 1e-4  # as the recogniser takes it
LEAST_SHARE = 1e-3  # of a moment; a density that has less of it is passed over
_END = b"endhdr\n"
_WEIGHT_STEP = 1024 * math.log(1.0001)  # nats for one step of the stored weights
_SILENT = ("SIL", "+")  # how phones without speech begin

Frame = Sequence[Sequence[float]]  # a moment of 0.01 s: stream -> its coefficients


class Shape(NamedTuple):
    """Sizes of the model: phones, streams of each, densities of each, coefficients of each."""

    codebooks: int
    streams: int
    densities: int
    length: int

    @property
    def all_densities(self) -> int:
        return self.codebooks * self.streams * self.densities


@dataclass(frozen=True, slots=True)
class SoundModel:
    """phones: name of each codebook. means, variances: by codebook, stream, density, coefficient. weights: by stream,
    density, senone, in steps downwards. head: what stands before the means in their file."""

    phones: tuple[str, ...]
    shape: Shape
    means: array[float]
    variances: array[float]
    weights: bytes
    head: bytes

    @property
    def senones(self) -> int:
        return len(self.weights) // (self.shape.streams * self.shape.densities)

    def is_speech(self, codebook: int) -> bool:
        return not self.phones[codebook].startswith(_SILENT)


def read_sound_model(folder: Path) -> SoundModel:
    """The model in the recogniser's folder. Raises OSError, ValueError or struct.error where it is none."""
    shape, means, head = _gaussians((folder / "means").read_bytes())
    _, variances, _ = _gaussians((folder / "variances").read_bytes())
    floored = array("f", (max(LEAST_VARIANCE, value) for value in variances))
    weights = _weights((folder / "sendump").read_bytes(), shape)
    return SoundModel(_phones((folder / "mdef").read_bytes(), shape.codebooks), shape, means, floored, weights, head)


def means_file(model: SoundModel, means: array[float]) -> bytes:
    """Other means in the form in which the recogniser reads its own, without a check sum."""
    return model.head.replace(b"chksum0 yes\n", b"") + means.tobytes()


def _gaussians(data: bytes) -> tuple[Shape, array[float], bytes]:
    """(sizes, values, all that stands before the values)."""
    at = data.index(_END) + len(_END)
    magic, codebooks, streams, densities = struct.unpack_from("<4i", data, at)
    if magic != 0x11223344:
        raise ValueError("the sound model is written in another byte order")
    lengths = struct.unpack_from(f"<{streams}i", data, at + 16)
    at += 16 + 4 * streams + 4
    shape = Shape(codebooks, streams, densities, lengths[0])
    values = array("f")
    values.frombytes(data[at : at + 4 * shape.all_densities * shape.length])
    return shape, values, data[:at]


def _weights(data: bytes, shape: Shape) -> bytes:
    """The stored weights: strings come first, each behind its length, then two sizes."""
    at = 0
    while (length := struct.unpack_from("<i", data, at)[0]) != 0:
        at += 4 + length
    _, senones = struct.unpack_from("<2i", data, at + 4)
    return data[at + 12 : at + 12 + shape.streams * shape.densities * senones]


def _phones(data: bytes, count: int) -> tuple[str, ...]:
    """Names of the phones, in the order of their codebooks: behind a description and ten sizes."""
    told = struct.unpack_from("<i", data, 8)[0]
    names = data[12 + told + 40 :].split(b"\0", count)[:count]
    return tuple(name.decode("ascii") for name in names)


class Shares:
    """How a moment is shared out among the densities of a phone, given which of its states it belongs to."""

    def __init__(self, model: SoundModel) -> None:
        self._model = model
        self._known: dict[tuple[int, int], list[tuple[float, tuple[float, ...]]]] = {}

    def of(self, codebook: int, senone: int, frame: Frame) -> list[tuple[int, int, float]]:
        """(stream, density, share) with shares of each stream that come to 1."""
        found = []
        senones, densities = self._model.senones, self._model.shape.densities
        for stream, values in enumerate(frame):
            seen = (*values, *map(mul, values, values))
            at = stream * densities * senones + senone
            stored = self._model.weights[at : at + densities * senones : senones]
            likely = [
                constant + sum(map(mul, factors, seen)) - _WEIGHT_STEP * step
                for (constant, factors), step in zip(self._densities(codebook, stream), stored, strict=True)
            ]
            best = max(likely)
            shares = [math.exp(value - best) for value in likely]
            whole = sum(shares)
            found += [(stream, number, share / whole) for number, share in enumerate(shares) if share > LEAST_SHARE]
        return found

    def _densities(self, codebook: int, stream: int) -> list[tuple[float, tuple[float, ...]]]:
        """Each density as a constant and the factors of the coefficients and of their squares."""
        key = (codebook, stream)
        if key not in self._known:
            shape, length = self._model.shape, self._model.shape.length
            first = (codebook * shape.streams + stream) * shape.densities
            rows = []
            for density in range(first, first + shape.densities):
                mean = self._model.means[density * length : (density + 1) * length]
                variance = self._model.variances[density * length : (density + 1) * length]
                constant = -0.5 * sum(math.log(v) + m * m / v for m, v in zip(mean, variance, strict=True))
                factors = [m / v for m, v in zip(mean, variance, strict=True)] + [-0.5 / v for v in variance]
                rows.append((constant, tuple(factors)))
            self._known[key] = rows
        return self._known[key]
