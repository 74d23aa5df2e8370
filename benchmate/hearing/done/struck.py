"""Cuttings: "took cuttings off the elm" takes no branch off, and is kept in the grower's words."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..clauses import Clause
from ..lattice.search import Found
from ..reading import Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import DONE, Mood

_VERBS = frozenset({"V", "VED", "VING"})


def struck(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """No work is made of a clause in which cuttings are taken, nor of what it goes on with; its tree stays named."""
    taken = False
    for before, clause in pairwise(clauses):
        if before.kind == "strike" and any(
            word.text == lexicon.sense["struck_of"] for word in words[before.span[0] : before.span[1]]
        ):
            clause.acts, clause.work, clause.mood, clause.kind = [], [], None, "observe"  # "what I said about feeding"
    for at, clause in enumerate(clauses):
        end = clauses[at + 1].span[0] if at + 1 < len(clauses) else len(words)
        texts = {word.text for word in words[clause.span[0] : end]}
        tree = any(fact.kind == "species" for fact in clause.facts) or clause.tree
        if clause.topic or not (texts & set(lexicon.sense["cuttings"]) or (taken and not tree)):
            taken = False
            continue
        if not taken and not any(work.done == DONE for work in clause.work):
            continue
        clause.acts, clause.kind = (["note"], "note") if not taken else ([], "observe")
        clause.work, clause.measures, clause.series, clause.taken, taken = [], {}, [], True, True
        clause.mood, clause.phrase = None, None


def named_deed(clauses: Sequence[Clause], found: Found) -> None:
    """ "Partial defoliation on the elm, left the inside": a work that is only named was done, where what it left is
    told as done behind it."""
    for at, clause in enumerate(clauses):
        events = [fact for fact in clause.facts if fact.kind == "event" and fact.when is None and not fact.denied]
        others = [fact for fact in clause.facts if fact not in events and fact.kind != "species"]
        first, end = clause.span
        verbs = any(t.kind in (*_VERBS, "AUX") for t in found.tokens if first <= t.first < end)
        if clause.kind != "observe" or clause.topic or len(events) != 1 or others or verbs:
            continue
        left = [work for one in clauses[at + 1 :] for work in one.work if not one.topic]
        if not left or any(work.work != "leave" or work.done != DONE for work in left):
            continue
        clause.work = [Work(str(events[0].value), events[0].spot, events[0].measures, DONE, span=events[0].span)]
        clause.facts = [fact for fact in clause.facts if fact not in events]
        clause.kind, clause.acts, clause.mood, clause.phrase = "decide", ["decide"], Mood(DONE), None
