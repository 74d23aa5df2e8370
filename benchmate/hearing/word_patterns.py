"""Patterns over the words of a statement, for what is asked or told in many orders that no grammar need know.

A pattern is words with a space between. "eye|eyes" is one of several; "<own>" one of a class, which may hold phrases;
either with "*" behind it any number of them. "~3" passes over up to three words of any kind, "!one" wants none of these
next, "!3one" none within three words.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Classes = Mapping[str, Any]


def start_of(pattern: Sequence[str], texts: Sequence[str], classes: Classes) -> int | None:
    """Where the pattern first stands in the words, or None."""
    return next((at for at in range(len(texts)) if end_of(pattern, texts[at:], classes) is not None), None)


def end_of(pattern: Sequence[str], texts: Sequence[str], classes: Classes) -> int | None:
    """How many words the pattern takes up at the opening, or None where they do not open with it."""
    if not pattern:
        return 0
    head, tail = pattern[0], pattern[1:]
    if head[0] == "~":  # up to so many words of any kind
        return _behind(range(min(int(head[1:]), len(texts)) + 1), tail, texts, classes)
    if head[0] == "!":  # none of these next, or within so many words
        reach, one = (int(head[1]), head[2:]) if head[1].isdigit() else (1, head[1:])
        shut = any(_ends(one, texts[at:], classes) for at in range(reach))
        return None if shut else end_of(tail, texts, classes)
    if head[-1] == "*":  # any number of these
        last = end_of(tail, texts, classes)
        return last if last is not None else _behind(_ends(head[:-1], texts, classes), pattern, texts, classes)
    return _behind(_ends(head, texts, classes), tail, texts, classes)


def _behind(steps: Sequence[int], rest: Sequence[str], texts: Sequence[str], classes: Classes) -> int | None:
    """The end where the rest of a pattern stands behind one of these steps."""
    for step in steps:
        if (last := end_of(rest, texts[step:], classes)) is not None:
            return step + last
    return None


def _ends(one: str, texts: Sequence[str], classes: Classes) -> list[int]:
    """How many words one of several ("eye|eyes", "<own>|the") takes up at the opening; none: []."""
    if not texts:
        return []
    ways = [way for part in one.split("|") for way in (classes[part[1:-1]] if part[0] == "<" else (part,))]
    head, more = texts[0], f"{texts[0]} "
    split = [way.split() for way in ways if way == head or way.startswith(more)]
    return sorted({len(way) for way in split if list(texts[: len(way)]) == way}, reverse=True)
