"""Figures: plain numbers in, a value with its range, working, source and limits out. Pure; reads no file and no clock.

`FIGURES` says what each figure of the vocabulary needs; `bind` fills that from what is known and the rules' tables;
the subject files hold the sums themselves.
"""

from .ask import Bound, FigureSpec, Need, answer, bind, gather
from .figure import Band, Beside, Figure, FigureError, exactly, plain
from .table import FIGURES

__all__ = [
    "FIGURES",
    "Band",
    "Beside",
    "Bound",
    "Figure",
    "FigureError",
    "FigureSpec",
    "Need",
    "answer",
    "bind",
    "exactly",
    "gather",
    "plain",
]
