"""The first start: where to keep the garden, its latitude and mean frosts. Each may be skipped and told later."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from benchmate.fault import UserError
from benchmate.garden.record import Place
from benchmate.talk.house import home_garden
from benchmate.talk.screen import Screen
from benchmate.talk.start.place_words import day_of_year, read_latitude, read_month_day
from benchmate.telling.lines import ANSWER, ASIDE, Line, escape

T = TypeVar("T")
_YES = {"yes", "y", "yep", "yeah", "ok", "sure", "please"}
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
        folder = folder or _where(ask, screen)
        if folder is None:
            return None
        latitude = _until_read(ask, "Latitude, as 52.1 or 33.9 S: ", read_latitude)
        last = _until_read(ask, "Mean last spring frost, as 28 April, or none: ", read_month_day)
        first = _until_read(ask, "Mean first autumn frost, as 16 October, or none: ", read_month_day)
    except (EOFError, KeyboardInterrupt):
        print()
        raise UserError("no garden was made; start again, or look round with --demo") from None
    from benchmate.garden import new_garden

    new_garden(folder, Place(folder.name, latitude, None, last, first))
    frosts = [f"{name} {day_of_year(day)}" for name, day in (("last", last), ("first", first)) if day]
    if frosts:
        print(screen.lay([Line(f"Mean frosts: {', '.join(frosts)}.", ASIDE)]))
    told = [f"The garden is kept in {escape(str(folder))}, in plain files."]
    if folder != home_garden():
        told.append(f"Start it with --garden {escape(str(folder))}, or set BENCHMATE_GARDEN to that.")
    told.append('Begin a tree by saying: "new tree, field maple, call it Gatepost".')
    print(screen.lay([Line(words, ASIDE) for words in told]))
    return folder


def _where(ask: Callable[[str], str], screen: Screen) -> Path | None:
    usual = home_garden()
    hint = f"Enter keeps it in {escape(str(usual))}; no begins without one." if usual else "No begins without one."
    print(screen.lay([Line(hint, ASIDE)]))
    while True:
        words = ask("Folder to keep it in: ").strip()
        if words.casefold() in _NO or (not words and usual is None):
            return None
        folder = Path(words).expanduser() if words else usual
        if folder is None or not words or _as_path(words) or folder.exists():
            return folder
        # a greeting or a question is no folder: a bare word is one only where that is said again
        print(screen.lay([Line(f"That would make the folder {escape(str(folder.absolute()))}.", ASIDE)]))
        if ask("Make it? yes or no: ").strip().casefold() in _YES:
            return folder


def _as_path(words: str) -> bool:
    return words.startswith("~") or "/" in words or "\\" in words


def _until_read(ask: Callable[[str], str], question: str, read: Callable[[str], T]) -> T:
    while True:
        try:
            return read(ask(question))
        except UserError as error:
            print(escape(str(error)))
