"""Cepstra as the recogniser writes them down, and the three streams that its sound model is made of."""

from __future__ import annotations

import sys
from array import array
from pathlib import Path

COEFFICIENTS = 13
_EDGE = 3  # frames that the change of change reaches to either side

Vector = tuple[float, ...]


def read_cepstra(path: Path) -> list[Vector]:
    """The frames of a file: the number of values in four bytes, then the values, in either byte order."""
    data = path.read_bytes()
    order = next((order for order in ("little", "big") if _told(data, order) == len(data) - 4), None)
    if order is None:
        raise ValueError(f"{path}: no cepstra")
    values = array("f")
    values.frombytes(data[4:])
    if order != sys.byteorder:
        values.byteswap()
    return [tuple(values[at : at + COEFFICIENTS]) for at in range(0, len(values), COEFFICIENTS)]


def _told(data: bytes, order: str) -> int:
    return 4 * int.from_bytes(data[:4], "little" if order == "little" else "big")


def streams_of(cepstra: list[Vector]) -> list[tuple[Vector, Vector, Vector]]:
    """For each frame: the cepstra less their mean over the sound, their change, and the change of that."""
    if not cepstra:
        return []
    means = [sum(column) / len(cepstra) for column in zip(*cepstra, strict=True)]
    level = [_less(frame, means) for frame in cepstra]
    padded = [level[0]] * _EDGE + level + [level[-1]] * _EDGE
    found = []
    for at in range(_EDGE, _EDGE + len(level)):
        change = _less(padded[at + 2], padded[at - 2])
        after, before = _less(padded[at + 3], padded[at - 1]), _less(padded[at + 1], padded[at - 3])
        found.append((padded[at], change, _less(after, before)))
    return found


def _less(one: Vector, other: Vector | list[float]) -> Vector:
    return tuple(a - b for a, b in zip(one, other, strict=True))
