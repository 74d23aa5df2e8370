"""Patterns of words that rules are told by: literal words, classes of words, gaps. Read over the words of one clause.

"in|into" any of these, "<class>" any word of that class, "<class>*" any number of them, "!<class>" none of them next
("!3<class>": within three words), "~3" up to three words of any kind.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from functools import lru_cache
from typing import Any

_BREAKS = frozenset({".", ",", ";", ":", "?", "!", "...", "and", "but", "so", "then"})


class Classes:
    """Classes of words by name. ways: each class's words, some of them several words long."""

    def __init__(self, ways: Mapping[str, Any]) -> None:
        self._ways = ways
        self._firsts: dict[str, frozenset[str]] = {}

    def __getitem__(self, name: str) -> Any:
        return self._ways[name]

    def may_stand(self, one: str, words: Set[str]) -> bool:
        """Whether a part of a pattern can stand anywhere among the words."""
        if one not in self._firsts:
            ways = self._ways[one[1:-1]] if one[0] == "<" else one.split("|")
            self._firsts[one] = frozenset(way.split()[0] for way in ways)
        return not self._firsts[one].isdisjoint(words)


@lru_cache(maxsize=2048)
def _parts(pattern: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The parts of a pattern, and those of them without which it stands nowhere."""
    parts = tuple(pattern.split())
    return parts, tuple(part for part in parts if part[0] not in "~!" and part[-1] != "*")


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
        at = next((at for at in range(len(texts)) if _stands(parts, texts[at:], classes)), None)
        if at is not None:
            yield at


def _stands(pattern: Sequence[str], texts: Sequence[str], classes: Classes) -> bool:
    """Whether the words open with the pattern."""
    if not pattern:
        return True
    head, tail = pattern[0], pattern[1:]
    if head[0] == "~":  # up to so many words of any kind
        return any(_stands(tail, texts[skip:], classes) for skip in range(min(int(head[1:]), len(texts)) + 1))
    if head[0] == "!":  # none of these next, or within so many words
        reach, one = (int(head[1]), head[2:]) if head[1].isdigit() else (1, head[1:])
        return not any(_ends(one, texts[at:], classes) for at in range(reach)) and _stands(tail, texts, classes)
    if head[-1] == "*":  # any number of these
        more = (_stands(pattern, texts[end:], classes) for end in _ends(head[:-1], texts, classes))
        return _stands(tail, texts, classes) or any(more)
    return any(_stands(tail, texts[end:], classes) for end in _ends(head, texts, classes))


def _ends(one: str, texts: Sequence[str], classes: Classes) -> list[int]:
    """How many words a literal ("eye|eyes") or a word of a class ("<own>") takes up at the opening; none: []."""
    if not texts:
        return []
    ways = classes[one[1:-1]] if one[0] == "<" else one.split("|")
    head, more = texts[0], f"{texts[0]} "
    split = [way.split() for way in ways if way == head or way.startswith(more)]
    return sorted({len(way) for way in split if list(texts[: len(way)]) == way}, reverse=True)
