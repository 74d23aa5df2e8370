"""The place that is said before what is there: "on the left, low down, two branches are crossing"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.spotting import Token
from ..reading import Fact, Spot
from ..vocabulary.words import Word

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
    if clause.work or clause.measures or clause.candidates or any(fact.kind != "species" for fact in clause.facts):
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
    told = [*(fact.spot for fact in findings), *(work.spot for work in clause.work)]
    if not told or not all(_may_be_there(spot, where) for spot in told):
        return
    clause.facts = [_there(fact, where) if fact.kind == "finding" else fact for fact in clause.facts]
    clause.work = [replace(work, spot=_at(work.spot, where)) for work in clause.work]
    for one in led:
        one.taken = True


def _there(fact: Fact, where: Spot) -> Fact:
    return replace(fact, spot=_at(fact.spot, where))


def _at(spot: Spot, where: Spot) -> Spot:
    return replace(spot, side=spot.side or where.side, level=spot.level or where.level)


def _may_be_there(spot: Spot, where: Spot) -> bool:
    """Whether no other side or level is told of it ("at the front the low branch")."""
    return not (spot.ordinal or (spot.side and where.side) or (spot.level and where.level))


def unsaid_break(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> int | None:
    """Where a pause is left out behind a place that opens a statement ("on the right the wire is biting"): before the
    article or number of what is there. None where there is no such place."""
    at = _end(lattice, 0, ("AT",))
    at = _end(lattice, at, ("DET",)) if at else 0
    end = _end(lattice, at, _WHERE) if at else 0
    if not end or end >= len(words):
        return None
    end = _tree_behind(lattice, end, "OF") or end  # "at the back of the beech two branches are crossing"
    if end >= len(words):
        return None
    return end if any(t.kind in ("DET", "NUM") and not t.guesses for t in lattice[end]) else None


def _tree_behind(lattice: Sequence[Sequence[Token]], at: int, link: str) -> int:
    """Where the tree ends that is named behind a link; 0 where none is."""
    end = _end(lattice, at, (link,))
    end = (_end(lattice, end, ("DET",)) or end) if end else 0
    return _end(lattice, end, ("SPECIES", "NAME")) if end else 0


def _end(lattice: Sequence[Sequence[Token]], at: int, kinds: Sequence[str]) -> int:
    if at >= len(lattice):
        return 0
    return max((t.end for t in lattice[at] if t.kind in kinds and not t.guesses), default=0)
