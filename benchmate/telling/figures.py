"""Figures told: the value and its range first, then how it was worked out, its source and its limits."""

from __future__ import annotations

import datetime as dt

from benchmate.practice.advice import FigureTold
from benchmate.telling.dates import day_words
from benchmate.telling.lines import REASON, Line
from benchmate.telling.wording import sentence

_FULL, _ROUGH = 3, 2  # figures told
_WIDE = 0.1  # of the value, from the lowest to the highest that it may be
_COUNTED = ("days", "C", "h")  # told to the last one
_MARK = {"published": "published", "practice": "fact of the trade", "memory": "from memory, not looked up"}


def figure_line(figure: FigureTold, units: str = "metric") -> str:
    """The figure in one line: "wire diameter 2.7 mm (2.4 to 3.0 mm)"."""
    name = figure.figure.replace("-", " ")
    if figure.value is None:
        return f"{name}: not known"
    digits = _digits(figure)
    words = f"{name}: {_value(figure.value, figure.unit, units, digits)}"
    if figure.low is not None and figure.high is not None and figure.low != figure.high:
        low, high = _bare(figure.low, figure.unit, units, digits), _value(figure.high, figure.unit, units, digits)
        words += f" ({low} to {high})"
    return words


def _digits(figure: FigureTold) -> int:
    """How many figures of it mean something: two where it may lie anywhere in a wide range, else three."""
    ends = (figure.value, figure.low, figure.high)
    if figure.unit in _COUNTED or not all(isinstance(end, int | float) for end in ends):
        return _FULL
    value, low, high = (float(end) for end in ends if isinstance(end, int | float))
    return _ROUGH if high - low >= _WIDE * abs(value) else _FULL


def figure_notes(figure: FigureTold, units: str = "metric") -> list[Line]:
    """How the figure came about, where it comes from and how far it goes."""
    lines = [Line(sentence(note), REASON, indent=3) for note in figure.notes]
    if figure.how:
        lines.append(Line(sentence(figure.how), REASON, "How: ", 3))
    source = figure.source or "no source"
    lines.append(Line(sentence(f"{source} ({_MARK.get(figure.mark, figure.mark)})"), REASON, "From: ", 3))
    if figure.limits:
        lines.append(Line(sentence(figure.limits), REASON, "Limits: ", 3))
    return lines


def _value(value: float | str, unit: str, units: str, digits: int) -> str:
    told = _bare(value, unit, units, digits)
    if isinstance(value, str):
        return told
    if units == "imperial" and unit in ("mm", "C"):
        return f"{told} {'in' if unit == 'mm' else 'F'}"
    if unit in ("share", "1", ""):
        return told + (" %" if unit == "share" else "")
    return f"{told} {unit}"


def _bare(value: float | str, unit: str, units: str, digits: int) -> str:
    if isinstance(value, str):
        try:
            return day_words(dt.date.fromisoformat(value))
        except ValueError:
            return value
    if units == "imperial" and unit in ("mm", "C"):
        value = value / 25.4 if unit == "mm" else value * 9 / 5 + 32
    if unit == "share":
        value *= 100
    size = abs(value)
    if size >= 10**digits:  # 423.6 is 420 where two figures mean something
        return f"{round(value, digits - len(str(int(size)))):.0f}"
    return f"{value:.{digits}g}"
