"""What a figure is: a value with its unit, its range, how it was worked out, what it rests on and where it stops."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

MARKS = ("memory", "practice", "published")


class FigureError(ValueError):
    """Impossible input. Its message is one plain line: what was wrong, and what would do."""


@dataclass(frozen=True, slots=True)
class Beside:
    """A number told beside the figure: what it is, its value (a number or an ISO date) and its unit."""

    name: str
    value: float | str
    unit: str


@dataclass(frozen=True, slots=True)
class Band:
    """A value that is not known exactly: the usual one, its lowest and its highest, and what it rests on.

    mark: published, practice or memory. says: a few words on what the value is of.
    """

    value: float
    low: float
    high: float
    unit: str = "1"
    source: str = "as said"
    mark: str = "practice"
    says: str = ""

    @property
    def said(self) -> bool:
        """Whether the value was given for this tree, rather than taken from a table."""
        return self.source == "as said"


@dataclass(frozen=True, slots=True)
class Figure:
    """A number for the grower.

    value, low, high: numbers in `unit`, ISO dates, or None where there is no number to give. how: one sentence with
    the numbers in it. source: what the working rests on, in words. mark: published, practice or memory. limits: where
    the figure stops being true. notes: what to say with it, cautions first. beside: further numbers of the same sum.
    opens: a first sentence where the question wants one before the number: yes or no with its reason, a day.
    """

    figure: str
    value: float | str | None
    unit: str
    low: float | str | None
    high: float | str | None
    how: str
    source: str
    mark: str
    limits: str
    notes: tuple[str, ...] = ()
    beside: tuple[Beside, ...] = ()
    opens: str = ""

    def __post_init__(self) -> None:
        # Six figures are more than any of this is good for, and rid JSON of 2.0000000000000004.
        for name in ("value", "low", "high"):
            object.__setattr__(self, name, _six(getattr(self, name)))
        told = tuple(Beside(more.name, _six(more.value), more.unit) for more in self.beside)
        object.__setattr__(self, "beside", told)


def _six(value: Any) -> Any:
    return float(f"{value:.6g}") if isinstance(value, float) else value


def exactly(value: float, unit: str = "1") -> Band:
    """A value given for this tree, without a spread."""
    return Band(value, value, value, unit)


def plain(value: float) -> str:
    """A number as a person says it: three figures, no exponent, no trailing zeros.

    >>> plain(2.6666), plain(1339.8), plain(450.0), plain(0.0500)
    ('2.67', '1340', '450', '0.05')
    """
    if not math.isfinite(value):
        return f"{value:g}"
    if abs(value) < 1e-6:
        return "0"
    decimals = 2 - math.floor(math.log10(abs(value)))
    told = f"{value:.{max(0, decimals)}f}"
    return told.rstrip("0").rstrip(".") if "." in told else told


def percent(chance: float) -> str:
    """A chance (0 to 1) in words.

    >>> percent(0.25), percent(0.001), percent(0.9999)
    ('25 %', 'under 1 %', 'over 99 %')
    """
    return "under 1 %" if chance < 0.01 else "over 99 %" if chance > 0.99 else f"{100 * chance:.0f} %"


def weakest(*marks: str) -> str:
    """The mark of a sum: that of its weakest part.

    >>> weakest("published", "memory", "practice")
    'memory'
    """
    return min(marks, key=MARKS.index)
