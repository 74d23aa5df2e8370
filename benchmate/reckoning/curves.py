"""Fitting curves of growth by least squares: a line, a logistic, an approach to a ceiling. No packages needed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .figure import FigureError

Curve = Callable[[float, Sequence[float]], float]


@dataclass(frozen=True, slots=True)
class Fit:
    """A fitted curve. values: its parameters. errors: their standard errors. residual: standard error of a reading, on
    readings less parameters. covariance: of the parameters, for the error of a forecast."""

    values: tuple[float, ...]
    errors: tuple[float, ...]
    residual: float
    freedom: int
    covariance: tuple[tuple[float, ...], ...]


def logistic(when: float, values: Sequence[float]) -> float:
    """Size at a time on a logistic curve (ceiling, time of half the ceiling, time scale).

    >>> round(logistic(728.76, (192.69, 728.76, 353.53)), 3)
    96.345
    """
    ceiling, middle, scale = values
    return ceiling / (1 + math.exp(min(700.0, (middle - when) / scale)))


def logistic_peak_rate(ceiling: float, scale: float) -> float:
    """Fastest growth of a logistic curve, at its middle: ceiling / (4 scale).

    >>> round(logistic_peak_rate(192.69, 353.53), 5)
    0.13626
    """
    return ceiling / (4 * scale)


def approach(when: float, values: Sequence[float]) -> float:
    """Size at a time on a curve that nears a ceiling (ceiling, size at time 0, log of the rate)."""
    ceiling, start, log_rate = values
    return ceiling + (start - ceiling) * math.exp(-math.exp(min(50.0, log_rate)) * when)


def line(when: float, values: Sequence[float]) -> float:
    """Size at a time on a straight line (size at time 0, gain a unit of time)."""
    return values[0] + values[1] * when


def fit(curve: Curve, times: Sequence[float], sizes: Sequence[float], start: Sequence[float]) -> Fit | None:
    """Least squares by the Levenberg-Marquardt way from start values; None where it does not settle.

    Raises FigureError for lists of unlike length or no more readings than parameters. Checked against the logistic fit
    of R (nls) to the Orange tree data, and of Loblolly pine heights.

    >>> found = fit(line, [0, 1, 2, 3], [1, 3, 5, 7.2], [0, 0])
    >>> [round(value, 2) for value in found.values]
    [0.96, 2.06]
    """
    if len(times) != len(sizes) or len(times) <= len(start):
        raise FigureError(f"{len(times)} readings cannot carry this curve; more than {len(start)} would do")
    values, damping = list(start), 1e-3
    loss = _loss(curve, times, sizes, values)
    for _ in range(500):
        slopes = [_slopes(curve, time, values) for time in times]
        normal = _normal(slopes)
        pull = [
            sum(row[i] * (size - curve(time, values)) for row, time, size in zip(slopes, times, sizes, strict=True))
            for i in range(len(values))
        ]
        step = _solved(
            [[cell + (damping * cell if i == j else 0) for j, cell in enumerate(row)] for i, row in enumerate(normal)],
            pull,
        )
        if step is None:
            return None
        trial = [value + change for value, change in zip(values, step, strict=True)]
        trial_loss = _loss(curve, times, sizes, trial)
        if trial_loss <= loss:
            small = all(abs(change) <= 1e-10 * (abs(value) + 1e-10) for value, change in zip(values, step, strict=True))
            values, damping = trial, max(1e-12, damping / 10)
            settled, loss = small or loss - trial_loss <= 1e-15 * loss, trial_loss
            if settled:
                return _found(curve, times, values, loss)
        elif damping > 1e12:
            return _found(curve, times, values, loss)
        else:
            damping *= 10
    return None


def forecast(curve: Curve, found: Fit, when: float) -> tuple[float, float]:
    """Size at a time, and its standard error for a new reading there (delta method)."""
    slopes = _slopes(curve, when, found.values)
    spread = sum(slopes[i] * found.covariance[i][j] * slopes[j] for i in range(len(slopes)) for j in range(len(slopes)))
    return curve(when, found.values), math.sqrt(max(0.0, spread) + found.residual**2)


def fit_logistic(times: Sequence[float], sizes: Sequence[float]) -> Fit | None:
    """A logistic curve through readings, or None where they do not bend enough to show one."""
    top, first, last = max(sizes), min(times), max(times)
    for lift in (1.2, 1.05, 2.0):
        found = fit(logistic, times, sizes, (top * lift, (first + last) / 2, (last - first) / 4))
        if found is not None and found.values[0] > 0 and found.values[2] > 0:
            return found
    return None


def _loss(curve: Curve, times: Sequence[float], sizes: Sequence[float], values: Sequence[float]) -> float:
    try:
        loss = sum((size - curve(time, values)) ** 2 for time, size in zip(times, sizes, strict=True))
    except (OverflowError, ZeroDivisionError):
        return math.inf
    return loss if math.isfinite(loss) else math.inf


def _slopes(curve: Curve, when: float, values: Sequence[float]) -> list[float]:
    """Slope of the curve at a time along each parameter, by central differences."""
    slopes = []
    for i, value in enumerate(values):
        step = 1e-6 * max(abs(value), 1e-3)
        up, down = list(values), list(values)
        up[i], down[i] = value + step, value - step
        slopes.append((curve(when, up) - curve(when, down)) / (2 * step))
    return slopes


def _normal(slopes: Sequence[Sequence[float]]) -> list[list[float]]:
    span = range(len(slopes[0]))
    return [[sum(row[i] * row[j] for row in slopes) for j in span] for i in span]


def _solved(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float] | None:
    """Solution of a small linear system by elimination with pivoting, or None where it has none."""
    rows = [[*row, end] for row, end in zip(matrix, right, strict=True)]
    size = len(rows)
    for i in range(size):
        pivot = max(range(i, size), key=lambda row: abs(rows[row][i]))
        if not math.isfinite(rows[pivot][i]) or abs(rows[pivot][i]) < 1e-300:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for j in range(i + 1, size):
            share = rows[j][i] / rows[i][i]
            rows[j] = [low - share * high for low, high in zip(rows[j], rows[i], strict=True)]
    out = [0.0] * size
    for i in reversed(range(size)):
        out[i] = (rows[i][-1] - sum(rows[i][j] * out[j] for j in range(i + 1, size))) / rows[i][i]
    return out


def _found(curve: Curve, times: Sequence[float], values: Sequence[float], loss: float) -> Fit | None:
    freedom = len(times) - len(values)
    variance = loss / freedom
    normal = _normal([_slopes(curve, time, values) for time in times])
    columns = [_solved(normal, [1.0 if i == j else 0.0 for i in range(len(values))]) for j in range(len(values))]
    if any(column is None for column in columns):
        return None
    covariance = tuple(tuple(variance * cell for cell in column) for column in columns if column is not None)
    errors = tuple(math.sqrt(max(0.0, covariance[i][i])) for i in range(len(values)))
    return Fit(tuple(values), errors, math.sqrt(variance), freedom, covariance)
