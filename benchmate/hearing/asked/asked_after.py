"""A question that begins with how long after work something may be: "how soon after repotting can I wire the maple"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word


def asked_after(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> Found:
    """Ask when, of the tree as it is behind that work. What comes out has the opening words as used."""
    marks = list(found.marks)
    for before, clause in pairwise(clauses):
        since = next((t.first for t in found.tokens if t.kind == "SINCE" and t.first >= before.span[0]), None)
        start = before.span[0] if since is None or since >= before.span[1] else since  # "how long after ..."
        events = bool(before.facts) and all(fact.kind == "event" for fact in before.facts)
        if clause.topic not in ("may", "when") or clause.joined != ("pause",) or before.kind != "observe" or not events:
            continue
        lead = " ".join(word.text for word in words[:start])
        if words[start].text != "after" or (lead and lead not in lexicon.sense["how_soon"]):
            continue
        clause.topic = "when" if lead else clause.topic  # "after repotting can I wire it"
        clause.facts = [*clause.facts, *before.facts]
        before.acts, before.facts, before.idle, before.taken = [], [], [], True
        marks[:start] = ["used"] * start
    return replace(found, marks=tuple(marks))
