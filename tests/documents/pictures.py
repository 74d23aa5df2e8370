"""Pictures of the real screen: a talk typed into a pseudo-terminal, drawn as SVG.

`python tests/documents/pictures.py` draws anew what README.md shows. Nothing in a picture is made up: its letters and
their weight are what the program sends to a terminal of that width.
"""

from __future__ import annotations

import os
import re
import shutil
import sys
import tempfile
import time
from html import escape
from pathlib import Path

import pexpect

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(__file__).parent / "pictures"
sys.path.insert(0, str(ROOT / "tests" / "cli"))
from emulator import Emulator  # noqa: E402

TALK = ("let's do Ratchet", "second flush hardened, two competing leaders, what now", "1")
ON, HEIGHT, QUIET_S, LONGEST_S = "2026-06-14", 60, 1.0, 60
WIDTHS = {"bench-80.svg": 80, "bench-40.svg": 40}
ADVANCE, LINE, MARGIN = 8.4, 18, 12  # pixels: a letter, a line, the edge
PAPER, INK = "#fffdf5", "#1b1b1b"
_COLOURS = {31: "#a40000", 32: "#0b5d1e", 33: "#7a4b00", 34: "#003a8c", 35: "#6a1b6a", 36: "#005b66", 90: "#4a4a4a"}
Style = tuple[str, bool]


class Drawn(Emulator):
    """A terminal that also keeps in what ink each letter was written."""

    def __init__(self, columns: int, height: int) -> None:
        super().__init__(columns, height)
        self.ink: Style = (INK, False)
        self.inks: dict[tuple[int, int], Style] = {}

    def row_of(self, words: str) -> int:
        """The last row that reads so."""
        return max((at for at, row in enumerate(self.text()) if row == words), default=0)

    def _put(self, letter: str) -> None:
        super()._put(letter)
        if letter >= " ":
            self.inks[self.row, self.column - 1] = self.ink

    def _obey(self, arguments: str, final: str) -> None:
        if final != "m":
            super()._obey(arguments, final)
            return
        colour, bold = self.ink
        for code in [int(number or 0) for number in arguments.split(";")]:
            if code == 0:
                colour, bold = INK, False
            elif code == 1:
                bold = True
            elif code in (22, 39):
                colour, bold = (colour, False) if code == 22 else (INK, bold)
            else:
                colour = _COLOURS.get(code if code < 91 or code > 96 else code - 60, colour)
        self.ink = colour, bold


def typed(columns: int, talk: tuple[str, ...] = TALK) -> Drawn:
    """The screen after a talk of these statements on a fresh copy of the demo garden."""
    with tempfile.TemporaryDirectory() as home:
        garden = Path(home) / "demo_trees"
        shutil.copytree(ROOT / "demo_trees", garden, ignore=shutil.ignore_patterns(".benchmate"))
        env = {
            key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "COLUMNS", "BENCHMATE_GARDEN")
        }
        env |= {"TERM": "xterm", "HOME": home, "PYTHONPATH": str(ROOT)}
        words = ["-m", "benchmate", "--garden", str(garden), "--on", ON]
        child = pexpect.spawn(sys.executable, words, env=env, dimensions=(HEIGHT, columns), encoding="utf-8", cwd=home)
        screen = Drawn(columns, HEIGHT)
        for said, statement in enumerate((*talk, None)):
            _settle(child, screen, prompts=said + 1)
            if statement is not None:
                child.send(f"{statement}\r")
        child.close(force=True)
        return screen


def _settle(child: pexpect.spawn[str], screen: Drawn, prompts: int) -> None:
    """Read on until the program has asked that often and is quiet."""
    start = quiet = time.monotonic()
    while time.monotonic() - start < LONGEST_S:
        asked = sum(row.startswith(">") for row in screen.text())
        if asked >= prompts and time.monotonic() - quiet > QUIET_S:
            return
        try:
            screen.feed(child.read_nonblocking(4096, 0.1))
            quiet = time.monotonic()
        except pexpect.TIMEOUT:
            continue
        for reply in screen.replies:
            child.send(reply)
        screen.replies.clear()


def picture(screen: Drawn) -> str:
    """The screen as SVG, a text element for each run of letters in the same ink."""
    rows = screen.text()
    while rows and not rows[-1]:
        rows.pop()
    *talk, status = rows
    while talk and not talk[-1]:
        talk.pop()  # the status line stands at the foot of the screen, however tall that is
    rows = [*talk, "", status]
    width, height = screen.columns * ADVANCE + 2 * MARGIN, len(rows) * LINE + 2 * MARGIN
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height}" width="{width:.0f}" role="img">',
        f'<rect width="100%" height="100%" fill="{PAPER}"/>',
        '<g font-family="ui-monospace, DejaVu Sans Mono, monospace" font-size="14" xml:space="preserve">',
    ]
    for at, row in enumerate(rows):
        of = at if at < len(talk) else screen.row_of(status)
        for start, end, (colour, bold) in _runs(row, of, screen):
            weight = ' font-weight="bold"' if bold else ""
            place = f'x="{MARGIN + start * ADVANCE:.1f}" y="{MARGIN + at * LINE + 14}"'
            out.append(f'<text {place} fill="{colour}"{weight}>{escape(row[start:end])}</text>')
    return "\n".join([*out, "</g>", "</svg>", ""])


def _runs(row: str, at: int, screen: Drawn) -> list[tuple[int, int, Style]]:
    """(start, end, ink) of the stretches of a row that are not blank."""
    runs: list[tuple[int, int, Style]] = []
    for match in re.finditer(r"\S+(?: \S+)*", row):
        for column in range(*match.span()):
            ink = screen.inks.get((at, column), (INK, False))
            if runs and runs[-1][1] == column and (runs[-1][2] == ink or row[column] == " "):
                runs[-1] = (runs[-1][0], column + 1, runs[-1][2])
            else:
                runs.append((column, column + 1, ink))
    return runs


if __name__ == "__main__":
    for name, columns in WIDTHS.items():
        (HERE / name).write_text(picture(typed(columns)), encoding="utf-8")
