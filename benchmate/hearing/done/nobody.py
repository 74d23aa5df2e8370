"""What nobody did: "nobody watered the beech" is no decision, and tells how the tree fares."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause
from ..reading import Fact, Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import NOT


def left_undone(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """Work that nobody did is seen as not done, and so is what comes of that ("dry")."""
    sense = lexicon.sense
    for clause in clauses:
        first, end = clause.span
        said = f" {' '.join(word.text for word in words[first:end])} "
        if clause.topic or not any(f" {who} " in said for who in sense["nobody"]):
            continue
        undone = [work for work in clause.work if work.work and work.done == NOT]
        undone += [Work(str(f.value), f.spot) for f in clause.facts if f.kind == "event" and f.denied]
        if not undone:
            continue
        clause.facts = [fact for fact in clause.facts if fact.kind != "event"]
        clause.work, clause.acts, clause.mood, clause.kind = [], ["observe"], None, "observe"
        for work in undone:
            seen = sense["neglected"].get(work.work or "")
            kind, value = ("finding", seen) if seen else ("event", work.work or "")
            clause.facts.append(Fact(kind, value, work.spot, denied=not seen, span=(first, end)))
