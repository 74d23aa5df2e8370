"""The growth chart: time to the right at its true pace, size upward from nothing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator

from benchmate.telling.dates import day_words
from benchmate.telling.measures import millimetres
from benchmate.telling.page.drawing import FAINT, INK, SOFT, drawing, label, rule
from benchmate.telling.page.growth import Series, growth_words, nice_step, shown, unit_words
from benchmate.telling.page.markup import Html, el

_WIDTH, _HEIGHT = 328.0, 176.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 44.0, 16.0, 22.0, 24.0
_STEPS, _MOST_LABELS, _MOST_DOTS = 5, 7, 40


def growth_chart(series: Series, units: str) -> Html:
    """One measure over its years. The series must span two days or more."""
    name = f"growth-{series.key.partition('_')[0]}"
    first, last = series.points[0].day.year, series.points[-1].day.year
    step = nice_step(shown(series.most, units), _STEPS)
    top = step * _count(shown(series.most, units), step)
    years = last - first + 1

    def x_at(day: dt.date) -> float:
        whole = (dt.date(day.year, 12, 31) - dt.date(day.year, 1, 1)).days + 1
        into = (day - dt.date(day.year, 1, 1)).days / whole
        return round(_LEFT + (day.year - first + into) / years * (_WIDTH - _LEFT - _RIGHT), 1)

    def y_at(value: float) -> float:
        return round(_HEIGHT - _BOTTOM - value / top * (_HEIGHT - _TOP - _BOTTOM), 1)

    places = [(x_at(point.day), y_at(shown(point.mm, units))) for point in series.points]
    parts = [*_rows(top, step, y_at), label(4, 11, unit_words(units)), *_years(first, years)]
    line = " ".join(f"{x:g},{y:g}" for x, y in places)
    parts.append(el("polyline", points=line, fill="none", stroke=INK, stroke_width=1.4))
    if len(places) <= _MOST_DOTS:
        parts += [el("circle", cx=x, cy=y, r=2.6, fill=INK) for x, y in places]
    parts += _ends(series, places, units)
    title = f"{series.name} from {day_words(series.points[0].day)} to {day_words(series.points[-1].day)}"
    told = f"{growth_words(series, units)} The scale begins at 0."
    return drawing(name, title, told, _WIDTH, _HEIGHT, parts)


def _count(most: float, step: float) -> int:
    count = 1
    while step * count < most * (1 - 1e-9):
        count += 1
    return count


def _rows(top: float, step: float, y_at: Callable[[float], float]) -> Iterator[Html]:
    for number in range(_count(top, step) + 1):
        y = y_at(number * step)
        yield rule(_LEFT, y, _WIDTH - _RIGHT, y, INK if number == 0 else FAINT)
        yield label(_LEFT - 5, y + 4, f"{number * step:g}", "end")


def _years(first: int, years: int) -> Iterator[Html]:
    """A line where each year begins, and its number below: all of them, or every second, fifth, tenth."""
    wide = (_WIDTH - _LEFT - _RIGHT) / years
    every = next((n for n in (1, 2, 5, 10, 20, 50, 100) if years / n <= _MOST_LABELS), 1000)
    for number in range(years):
        if (first + number) % every:
            continue
        x = round(_LEFT + number * wide, 1)
        yield rule(x, _HEIGHT - _BOTTOM, x, _HEIGHT - _BOTTOM + 4, SOFT)
        middle = x + wide / 2 if every == 1 else x
        yield label(round(middle, 1), _HEIGHT - 7, str(first + number), "middle")


def _ends(series: Series, places: list[tuple[float, float]], units: str) -> Iterator[Html]:
    """The first and the last size beside their points, where both have room, on the side that the line leaves free."""
    for end, beside in ((0, 1), (-1, -2)) if places[-1][0] - places[0][0] > 60 else ((-1, -2),):
        x, y = places[end]
        low = y <= _HEIGHT - _BOTTOM - 18 and (places[beside][1] < y)
        anchor = "start" if x < _LEFT + 30 else "end" if x > _WIDTH - _RIGHT - 30 else "middle"
        yield label(x, round(y + (16 if low else -7), 1), millimetres(series.points[end].mm, units), anchor, INK)
