"""What belongs to one potting, told in several clauses: back into its pot, and wired in so that it stands firm."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..reading import Spot, Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import DONE, LATER, NOT

_AT_HAND = frozenset({"PRON", "SPECIES", "NAME", "TREEWORD", "DET"})


def one_potting(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Repotted it, back into the same pot, wired it in": one potting, and no wire on a branch. A tree that is wired
    in without one is kept in the grower's words."""
    table = lexicon.sense["potting"]
    for at, clause in enumerate(clauses):
        before = [work for one in clauses[:at] for work in one.work if _pots(work, table)]
        if clause.kind == "observe" and _tied_in(clause, words, table):  # "tied in with two wires"
            clause.facts, clause.candidates, clause.measures, clause.phrase, clause.taken = [], [], {}, None, True
            clause.acts, clause.kind = ([], "observe") if before else (["note"], "note")
            continue
        if before and _combs(clause, found, table):
            _cuts_roots(clauses, at, table)
            continue
        if clause.kind != "decide" or clause.topic or len(clause.work) != 1:
            continue
        (work,) = clause.work
        if before and work.work == table["again"] and work.span == (0, 0):
            _give(clauses[:at], before[-1], work)
            clause.work, clause.acts, clause.taken = [], [], True
        elif work.done not in (LATER, NOT) and work.spot == Spot() and _wired_in(clause, found, table):
            clause.work = []
            if before:
                clause.acts, clause.taken = [], True
            else:  # of a potting told before, or of none that is known
                clause.acts, clause.kind, clause.taken = ["note"], "note", True


def _tied_in(clause: Clause, words: Sequence[Word], table: Mapping[str, Any]) -> bool:
    """Whether a clause of wires alone stands right behind "tied in"."""
    first = clause.span[0]
    behind = " ".join(word.text for word in words[max(0, first - 2) : first]) in table["tied"]
    wires = [fact for fact in clause.facts if fact.value == "wire-on" and fact.spot.part is None]
    return behind and bool(wires) and len(wires) == len(clause.facts)


def _combs(clause: Clause, found: Found, table: Mapping[str, Any]) -> bool:
    """ "Combed out": of the roots, where nothing else is named that is combed."""
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    verb = next((token for token in tokens if token.kind in ("V", "VED", "VING")), None)
    bare = all(token.kind in ("V", "VED", "VING", "PARTICLE", "PRON", "MANNER") for token in tokens)
    return verb is not None and verb.value in table["combing"] and bare and not clause.work


def _cuts_roots(clauses: Sequence[Clause], at: int, table: Mapping[str, Any]) -> None:
    """The roots that were combed out, and how much of them was cut: no shoot is meant between the two."""
    clause = clauses[at]
    clause.idle, clause.taken, clause.acts, clause.kind, clause.vague = [], True, ["decide"], "decide", False
    clause.work = [Work(table["roots"], done=DONE, span=clause.span)]
    behind = clauses[at + 1] if at + 1 < len(clauses) else None
    if behind is None or behind.kind != "decide" or behind.topic or len(behind.work) != 1:
        return
    (work,) = behind.work
    if work.work == table["cut"] and work.spot == Spot() and set(work.measures) == {"share"}:
        clause.work = [replace(work, work=table["roots"], done=DONE)]
        behind.work, behind.acts, behind.taken = [], [], True


def only_looked_at(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Lifted it out of the pot to look at the roots, put it back": that was a look, and no repotting."""
    table = lexicon.sense["potting"]
    said = f" {' '.join(word.text for word in words)} "
    looked = any(f" {phrase} " in said for phrase in table["looked"])
    rooted = sum(work.work in table["works"] for clause in clauses for work in clause.work)
    for clause in clauses if looked and rooted == 1 else ():
        first, end = clause.span
        clause_said = f" {' '.join(word.text for word in words[first:end])} "
        out = any(f" {way} " in clause_said for way in table["out"])
        if out and not clause.topic and len(clause.work) == 1 and clause.work[0].work in table["lifting"]:
            clause.work = [replace(work, work="check", spot=Spot("root"), measures={}) for work in clause.work]
            if "when" in clause.joined:  # "when I slid it out of the pot, the roots were circling"
                clause.work, clause.acts, clause.taken = [], [], True


def _pots(work: Work, table: Mapping[str, Any]) -> bool:
    return work.work in table["works"] and work.done not in (LATER, NOT)


def _wired_in(clause: Clause, found: Found, table: Mapping[str, Any]) -> bool:
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    verb = next((token for token in tokens if token.kind in ("V", "VED", "VING")), None)
    if verb is None or verb.value not in table["verbs"]:
        return False
    held = [token for token in tokens if token.first > verb.first and token.kind == "PARTICLE"]
    thing = [token for token in tokens if token.kind in _AT_HAND]
    return bool(thing) and any(token.value in table["held"] for token in held)


def _give(clauses: Sequence[Clause], before: Work, work: Work) -> None:
    """The sizes of the pot that is told of again go to the potting itself."""
    for clause in clauses:
        clause.work = [
            replace(one, measures={**one.measures, **work.measures}) if one is before else one for one in clause.work
        ]
