"""Places: laid over a finding, said of some of the tree alone, told after another, or of a second thing beside it."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import TRUNKS, Clause, Setting
from ..lattice.spotting import Token
from ..reading import Fact, Spot
from .phrases import HIDDEN, Phrase
from .saying import meaning_of_some

ONLY_ONE = (*TRUNKS, "apex")  # parts of which a tree has one, so that no side tells which is meant


def placed(first: Phrase | None, where: Phrase) -> None:
    """ "the second branch on the right": where it is belongs to what it is."""
    if first is None or not replace(first, states=[]).says_place_only or where.shown_part:
        return
    first.side, first.level = first.side or where.side, first.level or where.level
    first.ordinal = first.ordinal or where.ordinal


def only_named_by(setting: Setting, phrase: Phrase, facts: Sequence[Fact]) -> bool:
    """ "The low branch still has its guy on": the finding names all parts of its phrase, so another one tells where."""
    findings = [fact for fact in facts if fact.kind == "finding"]
    named = {part for fact in findings for part in setting.lexicon.names.get(str(fact.value), ())}
    return bool(findings) and set(phrase.parts) <= named and all(fact.spot == Spot() for fact in findings)


def weighed_against(setting: Setting, phrase: Phrase, link: Token, subject: Phrase | None) -> bool:
    """ "The first branch is too thin for the trunk", "shoots growing in toward the trunk": what a thing is held
    against, or leads to, is not where it is."""
    if subject is None or phrase.shown_part is None or not (subject.shown_part or subject.names_one):
        return False
    led = link.value == "toward" or phrase.shown_part in setting.lexicon.sense["vessels"]  # "hanging below the pot"
    return link.kind in ("FOR", "TO") or (link.kind == "AT" and led)


def only_place(phrase: Phrase) -> bool:
    return (
        phrase.says_place_only
        and not (phrase.parts or phrase.one or phrase.pronoun)
        and bool(phrase.side or phrase.level)
    )


def at_place(setting: Setting, fact: Fact, where: Spot, outright: bool) -> Fact:
    """The finding with a place laid over it. outright: a part said with "on the ..." replaces a part named before."""
    if fact.kind != "finding":
        return fact
    named = setting.lexicon.names.get(str(fact.value), ())
    part = fact.spot.part
    if (
        where.part
        and not where.part.startswith(HIDDEN)
        and (outright or part is None)
        and (outright or where.part not in named)
        and where.part not in setting.lexicon.nowhere.get(str(fact.value), ())
    ):
        part = where.part if part is None or outright else part
    return replace(
        fact,
        spot=Spot(
            part,
            fact.spot.side or where.side,
            fact.spot.level or where.level,
            fact.spot.ordinal or where.ordinal,
            fact.spot.count or (None if outright else where.count),
        ),
    )


def of_some(setting: Setting, fact: Fact) -> Fact:
    """ "weak at the back": said with a place, it is not the health of the whole tree."""
    if fact.kind not in ("health", "stage"):
        return fact
    kind, _, value = meaning_of_some(setting.lexicon, f"{fact.kind}:{fact.value}").partition(":")
    return replace(fact, kind=kind, value=value)


def elsewhere(spot: Spot, clause: Clause, phrase: Phrase, anew: bool = False) -> bool:
    """ "wired the left branch and the back branch": a second place beside the first, not more of the same. anew: it has
    an amount of its own ("the top shoots to one pair, the low ones to three")."""
    if clause.denied or not ("and" in clause.joined or anew):
        return False
    if (spot.count or 0) > 1 and (phrase.numbers or phrase.one) and not spot.side:
        return True  # "removed two branches and one on the back"
    if spot.part in ONLY_ONE and (phrase.side or phrase.ordinal) and phrase.shown_part is None:
        return True  # "wired the trunk and the first left"
    pairs = ((spot.side, phrase.side), (spot.level, phrase.level), (spot.ordinal, phrase.ordinal))
    parts = spot.part and phrase.shown_part and spot.part != phrase.shown_part
    named = phrase.shown_part and any(first for first, _ in pairs) and any(second for _, second in pairs)
    return bool(parts or named) or any(first and second and first != second for first, second in pairs)


def also(spot: Spot, phrase: Phrase) -> Spot:
    """The second place; the part is the first one's where none is named."""
    part = None if spot.part in ONLY_ONE and (phrase.side or phrase.ordinal) else spot.part
    return replace(phrase.spot(), part=phrase.shown_part or part)


def with_part(spot: Spot, phrase: Phrase) -> Spot:
    """ "the left and back branches": the part stands after the last of them."""
    if spot.part or not (spot.side or spot.level or spot.ordinal):
        return spot
    if spot.ordinal and not (spot.side or spot.level):  # "the first and second branches on the left"
        return replace(spot, part=phrase.shown_part, side=phrase.side, level=phrase.level)
    return replace(spot, part=phrase.shown_part)


def merged(spot: Spot, phrase: Phrase) -> Spot:
    """The first place with what the phrase adds to it."""
    count = int(phrase.numbers[0]) if phrase.numbers else None
    return Spot(
        spot.part or phrase.shown_part,
        spot.side or phrase.side,
        spot.level or phrase.level,
        spot.ordinal or phrase.ordinal,
        spot.count or count,
    )
