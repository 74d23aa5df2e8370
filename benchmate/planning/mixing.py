"""How a usual value gives way to what was seen: it counts as so many observations, and weighs less the more come."""

from __future__ import annotations

import math
from collections.abc import Sequence

from benchmate.value import dataclass

# four of five cases of a normal spread lie within so many deviations
_FOUR_OF_FIVE = 1.2816


@dataclass(frozen=True, slots=True)
class Usual:
    """A value from the rules, with the span that four of five trees keep to."""

    value: float
    low: float
    high: float
    mark: str = "practice"
    source: str | None = None

    @property
    def deviation(self) -> float:
        return (self.high - self.low) / (2 * _FOUR_OF_FIVE)


@dataclass(frozen=True, slots=True)
class Mixed:
    """The value taken, and the span of four of five cases."""

    value: float
    low: float
    high: float


def mix(
    usual: Usual | None, own: Sequence[float], others: Sequence[float], counts_as: float, others_count: float
) -> Mixed | None:
    """The weighted mean of the usual value and what was seen, with its spread; None where there is neither.

    counts_as: how many observations the usual value is worth. others_count: what one of another tree is worth, 0 to 1.

    >>> mix(Usual(100, 80, 120), [120, 120], [], 2, 0.5).value
    110.0
    """
    points = [(value, 0.0, 1.0) for value in own] + [(value, 0.0, others_count) for value in others]
    if usual is not None:
        points.append((usual.value, usual.deviation, counts_as))
    weight = math.fsum(one for _, _, one in points)
    if weight <= 0:
        return None
    value = math.fsum(point * one for point, _, one in points) / weight
    spread = math.fsum(one * ((point - value) ** 2 + sd**2) for point, sd, one in points) / weight
    width = _FOUR_OF_FIVE * math.sqrt(spread)
    return Mixed(value, value - width, value + width)


def mix_words(
    says: str,
    unit: str,
    found: Mixed,
    own: Sequence[float],
    others: Sequence[float],
    usual: Usual | None,
    counts_as: float,
    others_count: float,
) -> str:
    """How the value came about, in one or two sentences."""
    head = f"{says[:1].upper()}{says[1:]}: {number_words(found.value)} {unit}"
    if not own and not others:
        return f"{head}, the usual value; nothing in the record bears on it yet"
    if abs(found.high - found.low) > 1e-9:
        head += f", four times in five {number_words(max(0.0, found.low))} to {number_words(found.high)}"
    told = []
    if own:
        told.append(f"seen {_times(len(own))} here ({_range(own)})")
    if others:
        worth = "" if others_count == 1 else f", each counted as {number_words(others_count)}"
        told.append(f"{_times(len(others))} on others of its kind ({_range(others)}{worth})")
    if usual is not None:
        told.append(f"the usual {number_words(usual.value)} counts as {number_words(counts_as)} more")
    return f"{head}; {', '.join(told)}"


def number_words(value: float) -> str:
    """Three figures at most, none of them idle.

    >>> number_words(131.27), number_words(1.5), number_words(0.25)
    ('131', '1.5', '0.25')
    """
    if abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.1f}".rstrip("0").rstrip(".") if abs(value) >= 1 else f"{value:.2g}"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _range(values: Sequence[float]) -> str:
    low, high = number_words(min(values)), number_words(max(values))
    return low if low == high else f"{low} to {high}"
