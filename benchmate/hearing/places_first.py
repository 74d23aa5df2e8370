"""The place that is said before what is there: "on the left, low down, two branches are crossing"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .clauses import Clause
from .reading import Fact, Spot, Work
from .spotting import Token
from .words import Word

_WHERE = ("SIDE", "LEVEL")


def places_first(clauses: Sequence[Clause]) -> None:
    """Give what is seen or done first in a statement the places that stand alone before it; only the tree may be named
    before them."""
    led: list[Clause] = []
    for clause in clauses:
        if _place_alone(clause):
            led.append(clause)
        elif led:
            _lay(led, clause)
            return
        elif not clause.facts or any(fact.kind != "species" for fact in clause.facts) or clause.work:
            return


def _place_alone(clause: Clause) -> bool:
    phrase = clause.phrase
    if clause.kind != "observe" or phrase is None or clause.denied or clause.taken or clause.when or clause.refers:
        return False
    if clause.facts or clause.work or clause.measures or clause.candidates:
        return False
    said = phrase.parts or phrase.one or phrase.other or phrase.pronoun or phrase.numbers or phrase.ordinal
    if said or not phrase.says_place_only or not (phrase.side or phrase.level):
        return False
    return bool(phrase.level) or phrase.span[1] - phrase.span[0] > 1  # "right, the buds are swelling" names no side


def _lay(led: Sequence[Clause], clause: Clause) -> None:
    sides = [one.phrase.side for one in led if one.phrase is not None and one.phrase.side]
    levels = [one.phrase.level for one in led if one.phrase is not None and one.phrase.level]
    where = Spot(side=next(iter(sides), None), level=next(iter(levels), None))
    findings = [fact for fact in clause.facts if fact.kind == "finding"]
    if not _unplaced(findings) or not _unplaced(clause.work) or not (findings or clause.work):
        return
    clause.facts = [_there(fact, where) if fact.kind == "finding" else fact for fact in clause.facts]
    clause.work = [replace(work, spot=replace(work.spot, side=where.side, level=where.level)) for work in clause.work]
    for one in led:
        one.taken = True


def _there(fact: Fact, where: Spot) -> Fact:
    return replace(fact, spot=replace(fact.spot, side=where.side, level=where.level))


def _unplaced(told: Sequence[Fact | Work]) -> bool:
    return not any(one.spot.side or one.spot.level or one.spot.ordinal for one in told)


def unsaid_break(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> int | None:
    """Where a pause is left out behind a place that opens a statement ("on the right the wire is biting"): before the
    article or number of what is there. None where there is no such place."""
    at = _end(lattice, 0, ("AT",))
    at = _end(lattice, at, ("DET",)) if at else 0
    end = _end(lattice, at, _WHERE) if at else 0
    if not end or end >= len(words):
        return None
    return end if any(t.kind in ("DET", "NUM") and not t.guesses for t in lattice[end]) else None


def _end(lattice: Sequence[Sequence[Token]], at: int, kinds: Sequence[str]) -> int:
    if at >= len(lattice):
        return 0
    return max((t.end for t in lattice[at] if t.kind in kinds and not t.guesses), default=0)
