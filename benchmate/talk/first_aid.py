"""Somebody at the bench, or an animal, is hurt: that comes first, and nothing of it is logged of a tree."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchmate.hearing.reading import Missed, Reading
from benchmate.hearing.word_patterns import Classes, start_of
from benchmate.hearing.words import Word
from benchmate.practice.advice import Advice, Caution
from benchmate.practice.book import RuleBook
from benchmate.practice.warnings import caution_of
from benchmate.telling.answer import Answer
from benchmate.value import dataclass, replace

_BREAKS = frozenset({".", ",", ";", ":", "?", "!", "...", "and", "but", "so", "then"})
_NEAR = 3  # words before what happened within which it is denied


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
        starts = (start_of(pattern.split(), texts, classes) for pattern in table.get(key, ()))
        if any(at is not None and not _denied(texts[max(0, at - _NEAR) : at], classes) for at in starts):
            out.append(id)
    return out


def _denied(before: Sequence[str], classes: Classes) -> bool:
    said = f" {' '.join(before)} "
    return any(f" {word} " in said for word in classes["denied"])
