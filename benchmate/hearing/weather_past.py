"""Weather told by a verb in the past: "it rained on Sunday" was the Sunday before; "rain on Sunday" is forecast."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .lexicon import Lexicon
from .search import Found
from .words import Word


def weather_past(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Give weather that fell its day in the past."""
    fell = frozenset(lexicon.sense["fell"])
    for clause in clauses:
        first, end = clause.span
        told = any(fact.kind == "weather" for fact in clause.facts) and not clause.topic and "if" not in clause.joined
        if not told or clause.when is None or fell.isdisjoint(word.text for word in words[first:end]):
            continue
        day = next((t.value for t in found.tokens if t.kind == "DATE" and first <= t.first < end), None)
        if day is not None and clause.when == day.future and day.past is not None:
            clause.when = day.past
