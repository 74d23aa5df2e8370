"""Two works weighed against each other: "which is better, wire or a guy?"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import NOW
from ..reading import Spot, Work
from ..vocabulary.lexicon import Lexicon


def named_works(clauses: Sequence[Clause], lexicon: Lexicon) -> None:
    """ "which is better, wire or guy?": nouns that are compared stand for their work."""
    if not any(clause.topic == "compare" for clause in clauses):
        return
    for clause in clauses:
        events = [fact for fact in clause.facts if fact.kind == "event" and fact.when is None and not fact.denied]
        if (
            clause.kind == "observe" and events and len(events) == len(clause.facts) and not clause.topic
        ):  # "leaf-cut or defoliation"
            clause.work, clause.acts = [Work(str(fact.value), span=fact.span) for fact in events], []
            clause.facts, clause.taken = [fact for fact in clause.facts if fact not in events], True
        named = lexicon.patterns.get(f"{clause.phrase.part}|||") if clause.phrase else None
        if clause.kind == "observe" and named and not clause.facts and not clause.work:
            clause.work, clause.taken = [Work(named)], True
    where = next((c.phrase for c in clauses if c.topic == "compare" and c.phrase and not c.work), None)
    if where is not None and where.shown_part:  # "which is better for the back branch, a guy or wire?"
        spot = where.spot(count=False)
        for clause in clauses:
            clause.work = [replace(w, spot=spot) if w.spot == Spot() and not w.done else w for w in clause.work]


def compared(work: list[Work], clauses: Sequence[Clause]) -> list[Work]:
    """Works that are compared are asked about, and none of them is being done."""
    if any(c.topic == "compare" for c in clauses):
        return [replace(w, done=None) if w.done == NOW else w for w in work]
    return work
