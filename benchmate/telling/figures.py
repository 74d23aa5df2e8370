"""Figures told: the value and its range first, then how it was worked out, its source and its limits."""

from __future__ import annotations

import datetime as dt

from benchmate.practice.advice import FigureTold
from benchmate.telling.dates import day_words
from benchmate.telling.lines import REASON, Line
from benchmate.telling.wording import sentence

_MARK = {"published": "published", "practice": "fact of the trade", "memory": "from memory, not looked up"}


def figure_line(figure: FigureTold, units: str = "metric") -> str:
    """The figure in one line: "wire diameter 2.7 mm (2.4 to 3.0 mm)"."""
    name = figure.figure.replace("-", " ")
    if figure.value is None:
        return f"{name}: not known"
    words = f"{name}: {_value(figure.value, figure.unit, units)}"
    if figure.low is not None and figure.high is not None and figure.low != figure.high:
        words += f" ({_bare(figure.low, figure.unit, units)} to {_value(figure.high, figure.unit, units)})"
    return words


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


def _value(value: float | str, unit: str, units: str) -> str:
    if isinstance(value, str):
        return _bare(value, unit, units)
    if units == "imperial" and unit in ("mm", "C"):
        return f"{_bare(value, unit, units)} {'in' if unit == 'mm' else 'F'}"
    if unit in ("share", "1", ""):
        return _bare(value, unit, units) + (" %" if unit == "share" else "")
    return f"{_bare(value, unit, units)} {unit}"


def _bare(value: float | str, unit: str, units: str) -> str:
    if isinstance(value, str):
        try:
            return day_words(dt.date.fromisoformat(value))
        except ValueError:
            return value
    if units == "imperial" and unit in ("mm", "C"):
        value = value / 25.4 if unit == "mm" else value * 9 / 5 + 32
    if unit == "share":
        value *= 100
    return f"{value:.0f}" if abs(value) >= 100 else f"{value:.3g}"
