"""A place said after another: more about the same one, or a second one beside it."""

from __future__ import annotations

from benchmate.value import replace

from .clauses import Clause
from .phrases import Phrase
from .reading import Spot


def elsewhere(spot: Spot, clause: Clause, phrase: Phrase) -> bool:
    """ "wired the left branch and the back branch": a second place beside the first, not more of the same."""
    if clause.denied or "and" not in clause.joined:
        return False
    pairs = ((spot.side, phrase.side), (spot.level, phrase.level), (spot.ordinal, phrase.ordinal))
    parts = spot.part and phrase.shown_part and spot.part != phrase.shown_part
    named = phrase.shown_part and any(first for first, _ in pairs) and any(second for _, second in pairs)
    return bool(parts or named) or any(first and second and first != second for first, second in pairs)


def also(spot: Spot, phrase: Phrase) -> Spot:
    """The second place; the part is the first one's where none is named."""
    return replace(phrase.spot(), part=phrase.shown_part or spot.part)


def with_part(spot: Spot, phrase: Phrase) -> Spot:
    """ "the left and back branches": the part stands after the last of them."""
    return spot if spot.part or not (spot.side or spot.level) else replace(spot, part=phrase.shown_part)


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
