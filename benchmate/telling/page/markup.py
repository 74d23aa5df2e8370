"""Elements of the page. Plain words given to one are always escaped; only other elements pass as they are."""

from __future__ import annotations

import html
import re
from collections.abc import Iterable

from benchmate.telling.lines import escape
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Html:
    """Text that is markup already. Made by `el` and `joined` alone, never of a grower's words."""

    text: str


Inside = Html | str


def el(tag: str, /, *inside: Inside, **marks: str | float | None) -> Html:
    """One element, written so that both HTML and XML readers take it.

    marks: its attributes; an underscore stands for a hyphen, one at the end for nothing, and None leaves it out.

    >>> el("p", "a < b", class_="note").text
    '<p class="note">a &lt; b</p>'
    """
    said = "".join(f' {_name(key)}="{_value(value)}"' for key, value in marks.items() if value is not None)
    if not inside:
        return Html(f"<{tag}{said}/>" if tag in _VOID else f"<{tag}{said}></{tag}>")
    return Html(f"<{tag}{said}>{joined(inside).text}</{tag}>")


def joined(parts: Iterable[Inside]) -> Html:
    """Several parts after one another."""
    return Html("".join(part.text if isinstance(part, Html) else words(part) for part in parts))


def words(said: str) -> str:
    """Anybody's words as text of the page: no markup in them is obeyed, no control or direction mark kept.

    The space between a number and its unit does not break.
    """
    return _BOUND.sub("\u00a0", html.escape(escape(said), quote=True))


_BOUND = re.compile(r"(?<=\d) (?=%|mm\b)")  # a number and its unit stay in one line
_VOID = ("meta", "path", "line", "rect", "circle", "polyline", "br")


def _name(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _value(value: str | float) -> str:
    return words(value) if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")
