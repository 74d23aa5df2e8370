"""Several places behind one verb, each with its own amount: "wired the first left 2 mm, second right 1.5, apex 1"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import takewhile

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Spot, Work
from ..seen.phrases import Phrase
from ..seen.placing import also
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_LISTED = frozenset({"and", ",", "pause"})
_SMALL = frozenset({"DET", "NUM", "ORD", "SIDE", "LEVEL", "PART", "ONE", "STATE"})  # what names a place, and its amount
_COUNTED = frozenset({"leaves", "buds", "pairs"})
_BACK = frozenset({"TO", "BACKTO"})


def second_places(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """A place behind work that has an amount of the same kind as the first: the same work once more, with its own. And
    some of those that were counted, told apart by their place: "removed three branches, two on the left"."""
    for at, clause in enumerate(clauses):
        if clause.kind not in ("decide", "may", "remind") or not clause.work or clause.figure:
            continue
        first, unit = clause.work[-1], _unit(clause, found, words)
        run = list(takewhile(_only_a_place, clauses[at + 1 :]))
        if (rest := _rest_of_them(run, first, found)) is not None:
            clause.work[-1:] = [rest] if rest.spot.count else []
            for one in run:
                if one.phrase is not None:
                    spot = also(first.spot, one.phrase)
                    clause.work.append(replace(first, spot=spot, measures=_sizes(one), span=one.span))
                _take(one)
            continue
        for one in run:
            size = _size_of(one, first, found, lexicon, unit)
            if not size or one.phrase is None:
                break
            work = replace(first, measures={**first.measures, **size}, span=one.span)
            clause.work.append(replace(work, spot=_spot_of(one.phrase, first.spot, size)))
            _take(one)


def _take(clause: Clause) -> None:
    """What the clause said stands with the work now."""
    clause.taken, clause.acts, clause.phrase = True, [], None
    clause.candidates, clause.measures, clause.series = [], {}, []


def _only_a_place(clause: Clause) -> bool:
    phrase = clause.phrase
    told = clause.work or clause.facts or clause.topic or clause.denied or clause.when
    if phrase is None or told or clause.kind != "observe" or not set(clause.joined) <= _LISTED:
        return False
    placed = phrase.side or phrase.level or phrase.ordinal or phrase.shown_part or phrase.numbers or phrase.one
    return bool(placed) and not (clause.tells or phrase.pronoun or phrase.other)


def _sizes(clause: Clause) -> dict[str, float]:
    return {**clause.measures, **{name: n for one in clause.candidates for name, n in one.measures.items()}}


def _unit(clause: Clause, found: Found, words: Sequence[Word]) -> float:
    """What a bare number behind the measure of a clause is times of: "the left 5 cm, the right 3"."""
    first, end = clause.span
    told = [token for token in found.tokens if token.kind == "MEASURE" and first <= token.first < end]
    numbers = [word.text for token in told[-1:] for word in words[token.first : token.end] if word.text.isdecimal()]
    whole = float(numbers[0]) if len(numbers) == 1 else 0.0
    return float(told[-1].value.number) / whole if whole else 1.0


def _size_of(clause: Clause, first: Work, found: Found, lexicon: Lexicon, unit: float) -> dict[str, float]:
    """The amount that a place has of its own, where the work before has one of the same kind."""
    start, end = clause.span
    tokens = [token for token in found.tokens if start <= token.first < end]
    if not _names_another(clause.phrase, first.spot):
        return {}
    size = {name: size for name, size in _sizes(clause).items() if name in first.measures}
    size = size or (_bare(tokens, clause, first.measures, lexicon, unit) if tokens else {})
    spot = first.spot
    placed = spot.side or spot.level or spot.ordinal or spot.part
    same = all(first.measures.get(name) == number for name, number in size.items())
    return {} if same and not placed else size  # "shortened the elm, left shoots back to two leaves": said once


def _bare(
    tokens: Sequence[Token], clause: Clause, measures: Mapping[str, float], lexicon: Lexicon, unit: float
) -> dict[str, float]:
    """ "..., second right 1.5", "..., the right to three": a number that ends the place is an amount like the first."""
    last, phrase = tokens[-1], clause.phrase
    back = next((n for n, token in enumerate(tokens) if token.kind in _BACK), None)
    kind = next((name for name in measures if (name in _COUNTED) == (back is not None)), None)
    if kind is None or phrase is None:
        return {}
    if back is not None:
        names = [lexicon.amount[t.value] for t in tokens[back:] if t.kind == "PART" and t.value in lexicon.amount]
        numbers = [1.0 if t.kind == "ONE" else float(t.value) for t in tokens[back:] if t.kind in ("NUM", "ONE")]
        return {next(iter(names), kind): numbers[0]} if len(numbers) == 1 else {}
    if last.kind != "NUM" or len(tokens) < 2 or not {token.kind for token in tokens} <= _SMALL:
        return {}
    before = tokens[-2]
    if before.kind == "SIDE" and phrase.ordinal == int(last.value):
        phrase.ordinal = next((int(token.value) for token in tokens if token.kind == "ORD"), None)
    phrase.numbers = []
    return {kind: float(last.value) * unit}


def _names_another(phrase: Phrase | None, spot: Spot) -> bool:
    """Whether a phrase names a place that is not the first one."""
    if phrase is None:
        return False
    theirs = (phrase.shown_part, phrase.side, phrase.level, phrase.ordinal)
    ours = (spot.part, spot.side, spot.level, spot.ordinal)
    differ = any(one and other and one != other for one, other in zip(ours, theirs, strict=True))
    if any(ours[1:]):  # "the first left 2 mm, apex 1"
        return differ or (theirs[0] is not None and theirs[0] != ours[0] and not any(theirs[1:]))
    return differ or any(theirs[1:]) or (theirs[0] is not None and ours[0] is None)


def _spot_of(phrase: Phrase, first: Spot, size: Mapping[str, float]) -> Spot:
    spot = also(first, phrase)
    if spot.count is not None and spot.count in size.values():
        spot = replace(spot, count=None)
    return spot


def _rest_of_them(run: Sequence[Clause], first: Work, found: Found) -> Work | None:
    """The work of those that are left, where some of those that were counted are told apart; None where none are."""
    count, spot = first.spot.count or 0, first.spot
    told = [_so_many(clause, found) for clause in run]
    placed = spot.side or spot.level or spot.ordinal
    if not told or not all(told) or sum(told) > count or placed or "and" in run[0].joined:
        return None
    return replace(first, spot=replace(spot, count=count - sum(told)))


def _so_many(clause: Clause, found: Found) -> int:
    """How many a clause tells apart by their place: "one on the back", "two of them on the left"; 0 for none."""
    start, end = clause.span
    tokens = [token for token in found.tokens if start <= token.first < end]
    phrase, behind = clause.phrase, tokens[1:]
    if [token.kind for token in behind[:2]] == ["OF", "PRON"]:
        behind = behind[2:]
    if phrase is None or not behind or behind[0].kind != "AT" or not (phrase.side or phrase.level):
        return 0
    if tokens[0].kind == "ONE":
        return int(tokens[0].end == start + 1)
    return int(tokens[0].value) if tokens[0].kind == "NUM" else 0
