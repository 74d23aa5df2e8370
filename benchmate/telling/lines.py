"""Lines of an answer, laid at a width: no word broken, no line lost, no control character let through."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from benchmate.value import dataclass, replace

ANSWER, CAUTION, OPTION, REASON, ASIDE, LOGGED, ASK, GAP = (
    "answer",
    "caution",
    "option",
    "reason",
    "aside",
    "logged",
    "ask",
    "gap",
)

_BOLD, _LIT, _END = "\x1b[1m", "\x1b[1;7m", "\x1b[0m"
_WEIGHT = {ANSWER: _BOLD, OPTION: _BOLD, CAUTION: _BOLD, ASK: _BOLD, LOGGED: _BOLD}
_LONGEST_WORD = 60


@dataclass(frozen=True, slots=True)
class Line:
    """One line before it is wrapped. role: what it is, which decides its weight on a screen. lead: what stands before
    the words (a number, a sign); indent: columns before the lead. Further lines hang under the words."""

    words: str
    role: str = ASIDE
    lead: str = ""
    indent: int = 0


BLANK = Line("", GAP)


def escape(words: str) -> str:
    """The words with line ends and tabs as spaces and every other control or direction mark shown, not obeyed.

    >>> escape("wire\\x1b[31m it")
    'wire\\\\x1b[31m it'
    """
    if words.isascii() and words.isprintable():
        return words
    return "".join(map(_shown, words))


def _shown(letter: str) -> str:
    if letter in "\n\r\t\u2028\u2029":
        return " "
    if unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn"):
        return letter.encode("unicode_escape").decode("ascii")
    return letter


def columns(words: str) -> int:
    """Columns that the words take on a screen: wide letters two, combining marks none."""
    if words.isascii():
        return len(words)
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in words)


def cut_short(words: str, most: int = 120) -> str:
    """Long words as far as they help, with how many characters there were: what is left out is said."""
    words = escape(words).strip()
    if len(words) <= most:
        return words
    kept = words[:most].rsplit(" ", 1)[0] if " " in words[:most] else words[: min(most, _LONGEST_WORD)]
    return f"{kept} ... ({len(words):,} characters)"


def wrap(line: Line, width: int | None) -> list[str]:
    """The line's rows at a width in columns (None: one row). A word longer than the width parts at its hyphens; one
    without stands alone, whole."""
    words = escape(line.words)
    start = " " * line.indent + line.lead
    if line.role == GAP and not words:
        return [""]
    if width is None:
        return [(start + words).rstrip()]
    hang = " " * min(columns(start), max(0, width // 3))
    rows, row, bare = [], start, True
    for word in words.split():
        long = columns(hang) + columns(word) > width
        for number, piece in enumerate(word.replace("-", "- ").split() if long else [word]):
            gap = "" if bare or number else " "
            if columns(row) + columns(gap) + columns(piece) > width and not bare:
                rows.append(row.rstrip())
                row, gap = hang, ""
            row += gap + piece
            bare = False
    rows.append(row.rstrip())
    return rows


def lay(lines: Iterable[Line], width: int | None = None, lit: bool = False) -> str:
    """The lines as text. width: columns, 20 and up, or None for one row a line. lit: weight for a screen (bold, and
    the caution's sign reversed: it needs no colour, so it holds in sun and on any background)."""
    rows: list[str] = []
    for line in lines:
        if not line.lead.isprintable():  # a lead may name a tree
            line = replace(line, lead=escape(line.lead))
        laid = wrap(line, None if width is None else max(20, width))
        weight = _WEIGHT.get(line.role) if lit else None
        if weight:
            laid = [_weigh(row, weight, line) for row in laid]
        rows += laid
    while rows and not rows[-1]:
        rows.pop()
    return "\n".join(rows)


def _weigh(row: str, weight: str, line: Line) -> str:
    bare = row.lstrip(" ")
    pad = row[: len(row) - len(bare)]
    if line.role == CAUTION and line.lead.strip() and bare.startswith(line.lead.strip()):
        sign = line.lead.strip()
        return f"{pad}{_LIT}{sign}{_END}{weight}{bare[len(sign) :]}{_END}"
    return f"{pad}{weight}{bare}{_END}" if bare else row
