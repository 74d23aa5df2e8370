"""What a grower asks for a judgement on is not seen: "too strong?", "healthy?", "once a week is fine?"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..clauses import Clause
from ..lattice.search import Found
from ..reading import Fact, Spot
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_HEALTH, _TOO = "health", "too-"


def asked_states(clauses: Sequence[Clause], found: Found, words: Sequence[Word]) -> None:
    """Ask how the tree is where that is only asked, and take what is said of a time or a reason."""
    for at, clause in enumerate(clauses):
        if clause.kind != "observe" or clause.topic or clause.work or "if" in clause.joined:
            continue
        judges = not any(other.topic for other in clauses)  # "what if it had mildew and were weak?"
        judged = _judged(clause) if (judges and clause.asked) or _alone(clauses, clause, words) else []
        if _said_of_a_time(clause, found):
            judged = [fact for fact in clause.facts if fact.kind == _HEALTH]
        if not judged:
            continue
        others = any(other.acts or other.measures for n, other in enumerate(clauses) if n != at)
        rest = [fact for fact in clause.facts if fact not in judged]
        if others:
            judged = [fact for fact in judged if fact.kind == _HEALTH or str(fact.value).startswith(_TOO)]
            rest = [fact for fact in clause.facts if fact not in judged]  # "yellow needles, mites?" tells of both
        if others or _said_of_a_time(clause, found):
            clause.facts = rest
            clause.acts = ["observe"] if any(fact.kind != "species" for fact in rest) else []
        else:
            clause.acts = ["ask"]
            clause.topic = "recall" if all(fact.kind == _HEALTH for fact in judged) else "advice"


def asked_judgement(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Are galls on azalea leaves dangerous?", "will frost hurt the blossom?": a sentence that opens as a question and
    has a word that judges tells of no weather and of no state of the tree; what it names as a thing it may have."""
    first = next((word.text for word in words if word.text not in lexicon.sense["openers"]), "")
    judged = {word.text for word in words} & set(lexicon.sense["judging"])
    told = any(clause.kind != "observe" or clause.topic or clause.work for clause in clauses)
    if not clauses or told or not judged or first not in lexicon.sense["judges"]:
        return
    named = {token.value for token in found.tokens if token.kind == "FINDING"}
    for clause in clauses:
        clause.facts = [fact for fact in clause.facts if fact.kind in ("species", "flush") or fact.value in named]
        clause.acts, clause.topic = [], None
    clauses[0].acts, clauses[0].topic = ["ask"], "advice"


def _judged(clause: Clause) -> list[Fact]:
    """The facts of a clause that ask for a judgement: how strong the tree is, what is too thick or too long, and a bare
    finding with a question mark ("mites?")."""
    bare = clause.span[1] - clause.span[0] <= 1
    return [
        fact
        for fact in clause.facts
        if fact.kind == _HEALTH
        or (fact.kind == "finding" and (str(fact.value).startswith(_TOO) or (bare and fact.spot == Spot())))
    ]


def _alone(clauses: Sequence[Clause], clause: Clause, words: Sequence[Word]) -> bool:
    """Whether the words are nothing but "too strong": of the tree itself nobody says so."""
    health = clause.facts and all(fact.kind == _HEALTH for fact in clause.facts)
    texts = [word.text for word in words if word.text.isalpha()]
    return len(clauses) == 1 and bool(health) and texts[0] == "too" and len(texts) == 2


def _said_of_a_time(clause: Clause, found: Found) -> bool:
    """ "Once a week is fine": what stands right behind a time that comes again is no state of the tree."""
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    return any(
        time.kind == "DATE" and time.value.future is None and state.kind == "STATE" and time.end == state.first
        for time, state in pairwise(tokens)
    )
