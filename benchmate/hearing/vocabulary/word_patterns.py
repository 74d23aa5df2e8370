"""Patterns over the words of a statement, for what is asked or told in many orders that no grammar need know.

A pattern is words with a space between. "eye|eyes" is one of several; "<own>" one of a class, which may hold phrases;
either with "*" behind it any number of them. "~3" passes over up to three words of any kind, "!one" wants none of these
next, "!3one" none within three words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from functools import lru_cache
from typing import Any, Protocol

_BREAKS = frozenset({".", ",", ";", ":", "?", "!", "...", "and", "but", "so", "then"})


class Ways(Protocol):
    """Classes of words by name."""

    def __getitem__(self, name: str, /) -> Any: ...


class Classes:
    """Classes of words by name. ways: each class's words, some of them several words long."""

    def __init__(self, ways: Mapping[str, Any]) -> None:
        self._ways = ways
        self._firsts: dict[str, frozenset[str]] = {}

    def __getitem__(self, name: str, /) -> Any:
        return self._ways[name]

    def may_stand(self, one: str, words: Set[str]) -> bool:
        """Whether a part of a pattern can stand anywhere among the words."""
        if one not in self._firsts:
            self._firsts[one] = frozenset(way.split()[0] for way in _ways(one, self))
        return not self._firsts[one].isdisjoint(words)


def clauses(texts: Sequence[str]) -> Iterator[tuple[int, int]]:
    """(first, end) of the words between two breaks."""
    first = 0
    for at in range(len(texts) + 1):
        if at == len(texts) or texts[at] in _BREAKS:
            yield first, at
            first = at + 1


def starts(patterns: Iterable[str], texts: Sequence[str], classes: Classes) -> Iterator[int]:
    """Where each of the patterns first stands in the words; those that stand nowhere give nothing."""
    words = frozenset(texts)
    for pattern in patterns:
        parts, needed = _parts(pattern)
        if not all(classes.may_stand(one, words) for one in needed):
            continue
        at = next((at for at in range(len(texts)) if end_of(parts, texts[at:], classes) is not None), None)
        if at is not None:
            yield at


@lru_cache(maxsize=2048)
def _parts(pattern: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The parts of a pattern, and those of them without which it stands nowhere."""
    parts = tuple(pattern.split())
    return parts, tuple(part for part in parts if part[0] not in "~!" and part[-1] != "*")


def end_of(pattern: Sequence[str], texts: Sequence[str], classes: Ways) -> int | None:
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


def _behind(steps: Sequence[int], rest: Sequence[str], texts: Sequence[str], classes: Ways) -> int | None:
    """The end where the rest of a pattern stands behind one of these steps."""
    for step in steps:
        if (last := end_of(rest, texts[step:], classes)) is not None:
            return step + last
    return None


def _ends(one: str, texts: Sequence[str], classes: Ways) -> list[int]:
    """How many words one of several ("eye|eyes", "<own>|the") takes up at the opening; none: []."""
    if not texts:
        return []
    head, more = texts[0], f"{texts[0]} "
    split = [way.split() for way in _ways(one, classes) if way == head or way.startswith(more)]
    return sorted({len(way) for way in split if list(texts[: len(way)]) == way}, reverse=True)


def _ways(one: str, classes: Ways) -> list[str]:
    return [way for part in one.split("|") for way in (classes[part[1:-1]] if part[0] == "<" else (part,))]
