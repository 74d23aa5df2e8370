"""The screen: how wide it is, whether it may be lit, and how an answer is put on it."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping
from typing import TextIO

from benchmate.telling.lines import Line, lay
from benchmate.value import dataclass

NARROWEST, WIDEST = 20, 120


@dataclass(frozen=True, slots=True)
class Screen:
    """width: columns, or None for a line a row. lit: bold and reversed letters. plain: words for signs, no redraw."""

    width: int | None = None
    lit: bool = False
    plain: bool = False

    def lay(self, lines: Iterable[Line]) -> str:
        """The lines as they stand on this screen."""
        return lay(lines, self.width, self.lit)


def screen_of(out: TextIO, env: Mapping[str, str] | None = None, *, plain: bool = False) -> Screen:
    """The screen that `out` is. A pipe or a file gets whole lines, unless COLUMNS says how wide it is."""
    env = os.environ if env is None else env
    terminal = out.isatty()
    told = env.get("COLUMNS", "")
    width = int(told) if told.isdigit() and int(told) else _terminal_columns() if terminal else None
    if width is not None:
        width = max(NARROWEST, min(width, WIDEST))
    dumb = env.get("TERM") == "dumb"
    return Screen(width, terminal and not plain and not dumb and "NO_COLOR" not in env, plain)


def _terminal_columns() -> int:
    import shutil  # slow to import, and a pipe has no columns

    return shutil.get_terminal_size().columns


def both_terminals() -> bool:
    """Whether words come from a terminal and go to one."""
    return sys.stdin.isatty() and sys.stdout.isatty()
