"""What was worked on, told only behind a comma: "picked off the worst, about a dozen leaves"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..reading import Spot
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import work_of

_VERBS = ("V", "VED", "VING")


def thing_after(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """The work that the verb is of so many leaves, where no other thing is named with it."""
    for clause, after in pairwise(clauses):
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        verb = next((token for token in tokens if token.kind in _VERBS), None)
        bare = verb is not None and all(token.kind in (*_VERBS, "PARTICLE", "AUX", "DATE") for token in tokens)
        counts = after.kind == "observe" and set(after.measures) == {"leaves"} and "," in after.joined
        if not (bare and counts and len(clause.work) == 1 and clause.work[0].spot == Spot()) or verb is None:
            continue
        ways = [str(token.value) for token in tokens if token.kind == "PARTICLE"]
        name = work_of(lexicon, verb.value, ways, ["~some-leaves"], True)
        if name is None or name == clause.work[0].work:
            continue
        between = {word.text for word in words[first : after.span[0]]}
        sick = lexicon.works.get(name, {}).get("sick")
        manner = (sick["manner"],) if sick and between & set(lexicon.sense["worst_of_them"]) else ()
        clause.work[0] = replace(clause.work[0], work=name, manner=manner)
