"""Seasons: dates, a place and a tree's traits come in; stages, windows and frost days go out, as suggestions.

The days stand in rules/seasons; nothing here reads a file or a clock. What the grower sees goes before all of it.
`tables` is that folder parsed: file name without ending -> table.
"""

from .check import season_faults
from .course import SPRING_SHIFT, course_of
from .frost import before_first_frost, frost_days, frost_season_days, spring_frost_days
from .kept import Kept
from .names import next_growth, season_name, season_span, season_start
from .stages import StageGuess, guess_stage, stage_truth
from .windows import Window, first_window, next_stage, next_window
from .year import is_southern, month_day, turned

__all__ = [
    "SPRING_SHIFT",
    "Kept",
    "StageGuess",
    "Window",
    "before_first_frost",
    "course_of",
    "first_window",
    "frost_days",
    "frost_season_days",
    "guess_stage",
    "is_southern",
    "month_day",
    "next_growth",
    "next_stage",
    "next_window",
    "season_faults",
    "season_name",
    "season_span",
    "season_start",
    "spring_frost_days",
    "stage_truth",
    "turned",
]
