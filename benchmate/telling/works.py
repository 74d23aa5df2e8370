"""How works are told: the forms of rules/works, `told = {do = "wire {it|it}", done = "wired {it|it}"}`.

{it} is what is worked on ("the left branch", or the word after the bar where nothing was said), {at} where it is ("on
the left branch"), {from} what it comes off. own_parts: parts that the words name already, told of no place. A work
without forms is told by its own name.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Told = Mapping[str, Any]
Works = Mapping[str, Told]
_NONE: Works = {}
# The words are the rules', and every line of an answer needs them: whoever opens the rules says once where they are,
# and they are read when the first work is told.
_known: list[Works] = []
_source: list[Callable[[], Works]] = []


def tell_works_by(source: Callable[[], Works]) -> None:
    """Take the forms from here on from `source`, which is asked when the first work is told."""
    _source[:] = [source]
    _known.clear()


def told_of(work: str) -> Told | None:
    """The forms of one work, or None where the rules have none."""
    if not _known:
        _known.append(_source[0]() if _source else _NONE)
    return _known[0].get(work)
