"""What the talk keeps from one statement to the next. Nothing of it outlives the talk: the garden's files do that."""

from __future__ import annotations

from dataclasses import dataclass, field

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Reading, Spot
from benchmate.practice.advice import Advice
from benchmate.telling.answer import Answer


@dataclass(frozen=True, slots=True)
class Pending:
    """Something put to the grower that a yes lets through. reading: the words as taken. pick: the option, where one
    was taken that is not a go."""

    reading: Reading
    tree: str | None
    pick: int | None = None


@dataclass(frozen=True, slots=True)
class Context:
    """tree: name of the tree at hand. reading: the last statement with something in it. answer: what it was told.
    advice: the options last offered. logged: entries of the last statement that logged anything, and on which tree.
    told: cautions that were told in full. pending: what waits for a yes."""

    tree: str | None = None
    reading: Reading | None = None
    answer: Answer | None = None
    advice: Advice | None = None
    logged: tuple[Entry, ...] = ()
    logged_on: str | None = None
    told: frozenset[str] = field(default_factory=frozenset)
    pending: Pending | None = None


def spots_of(reading: Reading | None) -> list[Spot]:
    """The places that a statement speaks of, in the order of its words, each once."""
    if reading is None:
        return []
    spots = [fact.spot for fact in (*reading.candidates, *reading.facts)] + [work.spot for work in reading.work]
    return list(dict.fromkeys(spot for spot in spots if _placed(spot)))


def _placed(spot: Spot) -> bool:
    return spot != NOWHERE and any((spot.part, spot.side, spot.level, spot.ordinal))
