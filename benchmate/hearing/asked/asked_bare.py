"""Work told with a bare verb or none in a sentence that asks is asked: "repot it and plant it on a slab, ok?", "what
feed", "paint the cut with what"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import NOW
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_GOES_ON = frozenset({"and", ",", "so", "pause"})
_WORKS = frozenset({"decide", "gone"})


def asked_bare(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Ask what stands bare in a sentence that asks as a whole, by its end or by a question word in it."""
    for at, clause in enumerate(clauses):
        if clause.asked and clause.kind in _WORKS and (clause.topic == "may" or not clause.work):
            _asked_before(clauses[: at + 1], words)
        if not _stands_bare(clause):
            continue
        if clause.verbless and _ends_asking(clause, words, lexicon):
            _ask(clause, "may")
        elif _asks_within(clause, found, words, lexicon):
            _ask(clause, "advice")


def _stands_bare(clause: Clause) -> bool:
    """Whether a clause names work that nobody says was done or is meant: an imperative, or a note without a verb."""
    mood = clause.mood
    bare = clause.verbless or (mood is not None and mood.done == NOW and not mood.someone and not mood.event)
    return clause.kind in _WORKS and clause.topic is None and bool(clause.work) and bare and not clause.by_grower


def _ask(clause: Clause, topic: str) -> None:
    clause.acts, clause.topic = ["ask"], topic
    clause.work = [replace(work, done=None) for work in clause.work]


def _asked_before(clauses: Sequence[Clause], words: Sequence[Word]) -> None:
    """ "Bare root it and plant it on a slab, ok?": what goes on into the asked clause is asked with it."""
    for before, clause in zip(clauses[-2::-1], clauses[:0:-1], strict=True):
        between = words[before.span[1] : clause.span[0]]
        lost = before.kind in _WORKS and not before.work and not before.topic  # "hose it clean today and repot?"
        apart = bool(STOPS & {word.text for word in between} or set(clause.joined) - _GOES_ON)
        told = not lost and before.mood is not None and before.mood.open  # "cut it, seal it?"
        if apart or (told and "and" not in clause.joined) or not (lost or _stands_bare(before)):
            return
        if not lost:
            _ask(before, "may")


def _ends_asking(clause: Clause, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """ "Bone meal on the beech ok": nothing but a word that asks for a nod stands behind it."""
    behind = [word.text for word in words[clause.span[1] :] if word.text not in STOPS | {","}]
    return bool(behind) and set(behind) <= set(lexicon.sense["nods"])


def _asks_within(clause: Clause, found: Found, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a question word that nothing follows belongs to the clause: right before its work ("what feed"), or
    behind it at the end ("cut it back how far", "paint it with what")."""
    first, end = clause.span
    asks = lexicon.sense["asks_bare"]
    start = first
    while start and words[start - 1].text not in STOPS | {","} and found.marks[start - 1] != "used":
        start -= 1
    head = [word.text for word in words[start:first] if word.text not in lexicon.sense["openers"]]
    if head and head[0] in asks["before"] and len(head) == 1:
        return True
    behind: list[str] = []
    for word in words[end:]:
        if word.text in STOPS or (word.text == "," and behind):
            break
        behind += [word.text] if word.text != "," else []
    behind = behind[1:] if behind and behind[0] in asks["leading"] else behind
    return bool(behind) and behind[0] in asks["behind"] and len(behind) <= 2 and not set(behind[1:]) - set(asks["then"])
