"""Somebody at the bench, or an animal, is hurt: that comes first, and nothing of it is logged of a tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from benchmate.hearing.reading import Missed, Reading
from benchmate.hearing.words import Word
from benchmate.practice.advice import Advice, Caution
from benchmate.practice.book import RuleBook
from benchmate.practice.warnings import caution_of
from benchmate.telling.answer import Answer
from benchmate.value import dataclass, replace

_BREAKS = frozenset({".", ",", ";", ":", "?", "!", "...", "and", "but", "so", "then"})
_NEAR = 3  # words before what happened within which it is denied
Classes = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Hurt:
    """What comes first. cautions: for whom it is. rest: the clauses, as said, that tell of something else. whole: the
    statement is heard as ever beside it."""

    cautions: tuple[Caution, ...]
    rest: str
    whole: bool


def hurt_in(said: str, words: Sequence[Word], classes: Classes, book: RuleBook) -> Hurt | None:
    """Who is hurt in a statement, or None."""
    texts = [word.text for word in words]
    found: dict[str, None] = {}
    rest, whole = [], False
    signs = frozenset(classes["signs"])
    for first, end in _clauses(texts):
        if signs.isdisjoint(texts[first:end]):
            rest += [said[words[first].start : words[end - 1].end]] if end > first else []
            continue
        told = _told(texts[first:end], classes, book, "told")
        beside = _told(texts[first:end], classes, book, "beside")
        found |= dict.fromkeys([*told, *beside])
        whole = whole or bool(beside)
        if not told and end > first:
            rest.append(said[words[first].start : words[end - 1].end])
    cautions = [caution_of(id, book) for id in found]
    return Hurt(tuple(one for one in cautions if one), ", ".join(rest), whole) if found else None


def hurt_first(hurt: Hurt, said: str, answer: Answer | None, bare: Answer, first: str) -> Answer:
    """The answer with what comes first above all else; bare: an answer without anything, where none is given."""
    told = answer or replace(
        bare,
        reading=Reading(said, missed=(Missed(hurt.rest, (0, len(said))),) if hurt.rest else ()),
        says=(first,),
    )
    on = told.on.isoformat()
    advice = told.advice or Advice(told.reading, told.tree, on)
    own = {caution.id for caution in hurt.cautions}
    cautions = (*hurt.cautions, *(one for one in advice.cautions if one.id not in own))
    return replace(told, advice=replace(advice, cautions=cautions), told_before=told.told_before - own)


def _clauses(texts: Sequence[str]) -> Iterator[tuple[int, int]]:
    """(first, end) of the words between two breaks."""
    first = 0
    for at in range(len(texts) + 1):
        if at == len(texts) or texts[at] in _BREAKS:
            yield first, at
            first = at + 1


def _told(texts: Sequence[str], classes: Classes, book: RuleBook, key: str) -> list[str]:
    """The cautions whose words a clause holds, where these do not deny it or tell of long ago."""
    said = f" {' '.join(texts)} "
    if any(f" {past} " in said for past in classes["past"]):
        return []
    out = []
    for id, table in book.cautions.items():
        starts = (_start(pattern.split(), texts, classes) for pattern in table.get(key, ()))
        if any(at is not None and not _denied(texts[max(0, at - _NEAR) : at], classes) for at in starts):
            out.append(id)
    return out


def _denied(before: Sequence[str], classes: Classes) -> bool:
    said = f" {' '.join(before)} "
    return any(f" {word} " in said for word in classes["denied"])


def _start(pattern: Sequence[str], texts: Sequence[str], classes: Classes) -> int | None:
    """Where the pattern first stands in the words, or None."""
    return next((at for at in range(len(texts)) if _stands(pattern, texts[at:], classes)), None)


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
