"""Long work at the command line: how far it is, and how it is stopped without harm."""

from __future__ import annotations

import os
import signal
import sys
import time
from types import FrameType, TracebackType
from typing import Any, TextIO

QUIET_S = 1.0  # work that is over by then says nothing
AGAIN_S = 0.5  # ... and how often a line is drawn anew at a terminal
LINE_S = 10.0  # ... and how often a line is said elsewhere


class Waiting:
    """Tells how much of a work is done, on standard error; called with (done, all) between steps that belong together.

    At a terminal one line is drawn over and over; in a pipe, a dumb terminal or for a screen reader a line is said now
    and then. As a context it puts off Ctrl-C from the first call on until the next one, which then raises
    KeyboardInterrupt: so no step is broken in the middle. `done` says how far it came.
    """

    def __init__(self, what: str, out: TextIO | None = None, *, plain: bool = False) -> None:
        self._what = what
        self._out = sys.stderr if out is None else out
        self._drawn = self._out.isatty() and not plain and os.environ.get("TERM") != "dumb"
        self._begun = self._told = time.monotonic()
        self._shown = 0
        self._inside = self._stopped = False
        self._before: Any = None
        self.done = 0

    def __enter__(self) -> Waiting:
        self._before = signal.signal(signal.SIGINT, self._stop)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        signal.signal(signal.SIGINT, self._before)
        if self._shown:
            self._out.write("\r" + " " * self._shown + "\r")
            self._out.flush()

    def __call__(self, done: int, total: int) -> None:
        self.done, self._inside = done, done < total
        if self._stopped:
            raise KeyboardInterrupt
        now = time.monotonic()
        if now - self._begun < QUIET_S or now - self._told < (AGAIN_S if self._drawn else LINE_S):
            return
        self._told = now
        words = f"{self._what}: {done:,} of {total:,}"
        self._out.write(f"\r{words:<{self._shown}}" if self._drawn else f"{words}\n")
        self._out.flush()
        self._shown = len(words) if self._drawn else 0

    def _stop(self, number: int, frame: FrameType | None) -> None:
        if not self._inside:
            raise KeyboardInterrupt
        self._stopped = True
