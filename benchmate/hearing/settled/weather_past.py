"""Weather told by a verb in the past: "it rained on Sunday" was the Sunday before; "rain on Sunday" is forecast."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause
from ..lattice.search import Found
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word


def weather_past(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Give weather that fell its day in the past."""
    fell, was = frozenset(lexicon.sense["fell"]), frozenset(lexicon.sense["was_warm"])
    for clause in clauses:
        first, end = clause.span
        warm = "temperature_c" in clause.measures and not clause.facts
        told = warm or any(fact.kind == "weather" for fact in clause.facts)
        told = told and not clause.topic and "if" not in clause.joined
        verbs = fell | was if warm else fell
        if not told or clause.when is None or verbs.isdisjoint(word.text for word in words[first:end]):
            continue
        day = next((t.value for t in found.tokens if t.kind == "DATE" and first <= t.first < end), None)
        if day is not None and clause.when == day.future and day.past is not None:
            clause.when = day.past
