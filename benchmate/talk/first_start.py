"""The first start: where to keep the garden, its latitude and mean frosts. Each may be skipped and told later."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from benchmate.fault import UserError
from benchmate.garden.record import Place
from benchmate.talk.house import home_garden
from benchmate.talk.place_words import read_latitude, read_month_day
from benchmate.talk.screen import Screen
from benchmate.telling.lines import ANSWER, ASIDE, Line, escape

T = TypeVar("T")
_NO = {"no", "none", "n", "without", "later"}


def begin(folder: Path | None, screen: Screen, ask: Callable[[str], str] = input) -> Path | None:
    """Make a garden with what the grower tells; gives its folder, or None where none is wanted.

    folder: where it shall stand if that was said already. Ctrl-C or the end of input leaves the rest untold.
    """
    print(
        screen.lay(
            [
                Line("There is no garden yet. Four questions make one; Enter skips any of them.", ANSWER),
                Line("To look round first, leave with Ctrl-D and start with --demo.", ASIDE),
            ]
        )
    )
    try:
        folder = folder or _where(ask)
        if folder is None:
            return None
        latitude = _until_read(ask, "Latitude, as 52.1 or 33.9 S: ", read_latitude)
        last = _until_read(ask, "Mean last spring frost, as 28 April (none if there is none): ", read_month_day)
        first = _until_read(ask, "Mean first autumn frost, as 16 October: ", read_month_day)
    except (EOFError, KeyboardInterrupt):
        print()
        raise UserError("no garden was made; start again, or look round with --demo") from None
    from benchmate.garden import new_garden

    new_garden(folder, Place(folder.name, latitude, None, last, first))
    told = [f"The garden is kept in {escape(str(folder))}, in plain files."]
    if folder != home_garden():
        told.append(f"Start it with --garden {escape(str(folder))}, or set BENCHMATE_GARDEN to that.")
    told.append('Begin a tree by saying: "new tree, field maple, call it Gatepost".')
    print(screen.lay([Line(words, ASIDE) for words in told]))
    return folder


def _where(ask: Callable[[str], str]) -> Path | None:
    usual = home_garden()
    hint = f" (Enter: {usual}; no: without one)" if usual else " (no: without one)"
    words = ask(f"Folder to keep it in{hint}: ").strip()
    if words.casefold() in _NO or (not words and usual is None):
        return None
    return Path(words).expanduser() if words else usual


def _until_read(ask: Callable[[str], str], question: str, read: Callable[[str], T]) -> T:
    while True:
        try:
            return read(ask(question))
        except UserError as error:
            print(escape(str(error)))
