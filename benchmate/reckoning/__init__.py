"""Figures: plain numbers in, a value with its range, working, source and limits out. Pure; reads no file and no clock.

`FIGURES` says what each figure of the vocabulary needs; `bind` fills that from what is known and the rules' tables;
the subject files hold the sums themselves.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
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

_PLACES = {
    "FIGURES": "table",
    **dict.fromkeys(("Bound", "FigureSpec", "Need", "answer", "bind", "gather"), "ask"),
    **dict.fromkeys(("Band", "Beside", "Figure", "FigureError", "exactly", "plain"), "figure"),
}


def __getattr__(name: str) -> Any:
    # Late, since rules that need one sum (a day's length) would else load the whole table at each start.
    if name not in _PLACES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_PLACES[name]}"), name)
