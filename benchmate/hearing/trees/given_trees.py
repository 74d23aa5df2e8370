"""Trees between a verb and what they were given: "gave the maples a half strength feed"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from benchmate.value import replace

from ..lattice.spotting import Token
from ..reading import Fact, Reading, Several
from ..vocabulary.words import Word
from .each_tree import letters, tree_at

_IT = "it"


def with_given_trees(
    reading: Reading,
    words: Sequence[Word],
    lattice: Sequence[Sequence[Token]],
    lists: Sequence[tuple[Token, ...]],
    hear: Callable[[str], Reading],
) -> Reading:
    """The reading of a statement whose first word is lost with the trees behind it, read with "it" in their stead where
    that makes more of the words. What is told so is told of each of these trees."""
    alone = tree_at(lattice, 1) if len(words) > 2 else None
    if alone is None or not any(one.span[0] == words[0].start for one in reading.missed):
        return reading
    start = words[1].start
    listed = next((one for one in lists if one[0].first == start), None)
    end = listed[-1].end if listed else words[alone.end - 1].end
    text = reading.said
    read = hear(f"{text[:start]}{_IT:<{end - start}}{text[end:]}")
    if read.acts != ("decide",) or letters(read) >= letters(reading):
        return reading
    trees = listed or (alone,)
    kinds = tuple(Fact("species", str(one.value), span=_span(one, words)) for one in trees if one.kind == "SPECIES")
    names = tuple(dict.fromkeys(str(one.value) for one in trees))
    tree = next((str(one.value) for one in trees if one.kind == "NAME"), None)
    several = Several(names) if len(names) > 1 else None
    refers = tuple(one for one in read.refers if one != _IT)
    return replace(read, said=text, tree=tree, facts=(*read.facts, *kinds), several=several, refers=refers)


def _span(tree: Token, words: Sequence[Word]) -> tuple[int, int]:
    """Where the tree stands in the text as said."""
    return (words[tree.first].start, words[tree.end - 1].end) if tree.end <= len(words) else (0, 0)
