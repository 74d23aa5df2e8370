"""A tree that is named before its own part without a "'s": "wire on the juniper right branch"."""

from __future__ import annotations

from collections.abc import Sequence

from ..vocabulary.words import Word
from .spotting import Token

_PLACES = ("SIDE", "LEVEL", "ORD")
_WAYS = ("AT", "OF", "FROM", "BACKTO")


def unsaid_owner(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> int | None:
    """Where a "'s" is left out: behind a tree that a word such as "on" leads to, before the place of a part and that
    part. None where there is no such place."""
    for at, tokens in enumerate(lattice):
        for tree in tokens:
            if tree.kind not in ("SPECIES", "NAME") or tree.guesses or not _led(lattice, at):
                continue
            if tree.end < len(words) and _places_of_a_part(lattice, tree.end):
                return tree.end
    return None


def _led(lattice: Sequence[Sequence[Token]], at: int) -> bool:
    """Whether a word that leads to a place stands right before, with or without an article."""
    if at and any(token.kind == "DET" and token.end == at for token in lattice[at - 1]):
        at -= 1
    return any(token.kind in _WAYS and token.end == at for before in lattice[max(0, at - 2) : at] for token in before)


def _places_of_a_part(lattice: Sequence[Sequence[Token]], at: int) -> bool:
    starts = [at]
    for start in starts:  # it grows: "second left"
        ends = [token.end for token in lattice[start] if token.kind in _PLACES and not token.guesses]
        starts += [end for end in ends if end < len(lattice) and end not in starts]
    return any(token.kind == "PART" and not token.guesses for start in starts[1:] for token in lattice[start])
