"""What is only foretold: "the wire will bite by June" tells nothing that is seen today."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .lexicon import Lexicon
from .search import Found
from .words import Word

_TOLD = frozenset({"health", "stage", "phase", "finding", "flush"})
_SAID = frozenset({"STATE", "FINDING", "FLUSH", "PART"})


def drop_foretold(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> frozenset[int]:
    """Take what a clause says will be, so that its words count as not understood; weather may be forecast. Returns the
    numbers of these words, which ask nothing either."""
    helpers, foretold = lexicon.sense["foretelling"], set[int]()
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        helper = next((t for t in tokens if t.kind == "AUX" and words[t.first].text in helpers), None)
        if helper is None or clause.topic or clause.work:
            continue
        said = [token for token in tokens if token.kind in _SAID and token.first >= helper.end]
        told = any(fact.kind in _TOLD for fact in clause.facts)
        bare = all(fact.kind == "species" for fact in clause.facts) and not clause.measures  # "it will flower in May"
        if not said or not (told or bare):
            continue
        clause.facts = [fact for fact in clause.facts if fact.kind not in _TOLD]
        clause.when, clause.onward = None, False
        clause.acts = ["observe"] if clause.facts else []
        foretold.update(range(first, end))
        clause.idle += [token for token in tokens if token.kind != "SPECIES" and token not in clause.idle]
    return frozenset(foretold)
