"""Trees that a statement says were left out: "watered the olive and the elm, skipped the pines"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from benchmate.value import replace

from ..lattice.spotting import Token
from ..reading import Reading, Several
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .each_tree import tree_at

_JOINS = frozenset({",", "and", "but", "&", "-", ";"})
_TAKES = frozenset({"decide"})


def with_left_out(
    reading: Reading,
    words: Sequence[Word],
    lattice: Sequence[Sequence[Token]],
    hear: Callable[[str], Reading],
    lexicon: Lexicon,
) -> Reading:
    """The reading without the words that leave trees out at the end of a statement of work, and with these trees among
    those that are left out. What was done is said of the others alone."""
    if "decide" not in reading.acts:
        return reading
    texts = [word.text for word in words]
    for at in range(1, len(texts)):
        if texts[at - 1] not in _JOINS:
            continue
        end = max((at + len(p.split()) for p in lexicon.several["skips"] if _stands(texts, at, p.split())), default=at)
        names = _to_the_end(lattice, texts, end, lexicon.several["beside"]) if end > at else []
        if not names:
            continue
        first = at - 1
        while first and texts[first - 1] in _JOINS:
            first -= 1
        told = reading.said[: words[first].start]
        base = hear(told)
        if not base.work or not set(base.acts) <= _TAKES or not (base.several or base.tree or _taxa(base)):
            return reading
        own = base.several or Several((base.tree,) if base.tree else _taxa(base))
        several = replace(own, but=tuple(dict.fromkeys([*own.but, *names])))
        return replace(base, said=reading.said, several=several)
    return reading


def _taxa(reading: Reading) -> tuple[str, ...]:
    return tuple(str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied)[:1]


def _stands(texts: Sequence[str], at: int, phrase: Sequence[str]) -> bool:
    return list(texts[at : at + len(phrase)]) == list(phrase)


def _to_the_end(lattice: Sequence[Sequence[Token]], texts: Sequence[str], at: int, beside: Sequence[str]) -> list[str]:
    """The trees named from a place to the end of the statement, where nothing else stands there but small words."""
    names: list[str] = []
    while at < len(texts):
        tree = tree_at(lattice, at)
        if tree is not None:
            names.append(str(tree.value))
            at = tree.end
        elif names and (texts[at] in _JOINS or texts[at] in beside or texts[at] in ".!"):
            at += 1
        else:
            return []
    return names
