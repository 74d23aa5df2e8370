"""A statement of work heard once more where the trees that it names parted a verb from what belongs to it: trees that
were left out, trees that were given something, a tree that "had its roots cut"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from benchmate.value import replace

from ..lattice.spotting import Token
from ..reading import Fact, Reading
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .each_tree import letters, lists_of, tree_at
from .given_trees import with_given_trees
from .left_out import with_left_out

_NEAR = 3  # words between "had" and whose part it was: "had half of its roots cut"


def may_be_parted(reading: Reading, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether trees may part a verb from its own in this statement, by its words alone."""
    texts = {word.text for word in words}
    skips = "decide" in reading.acts and not texts.isdisjoint(p.split()[0] for p in lexicon.several["skips"])
    lost_first = bool(words) and any(one.span[0] == words[0].start for one in reading.missed)
    return skips or lost_first or not texts.isdisjoint(one.split()[-1] for one in lexicon.sense["work_had"])


def of_trees(
    reading: Reading,
    words: Sequence[Word],
    lattice: Sequence[Sequence[Token]],
    hear: Callable[[str], Reading],
    lexicon: Lexicon,
) -> Reading:
    """The reading that makes most of the words, or the one that was given."""
    left = with_left_out(reading, words, lattice, hear, lexicon)
    if left is not reading:
        return left
    if reading.missed:
        given = with_given_trees(reading, words, lattice, lists_of(words, lattice), hear)
        if given is not reading:
            return given
    return _had_done(reading, words, lattice, hear, lexicon)


def _had_done(
    reading: Reading,
    words: Sequence[Word],
    lattice: Sequence[Sequence[Token]],
    hear: Callable[[str], Reading],
    lexicon: Lexicon,
) -> Reading:
    """ "The elm's had its roots cut, watered it in": read without the tree, which the work was done to."""
    texts = [word.text for word in words]
    ways = [one.split() for one in lexicon.sense["work_had"]]
    if {way[-1] for way in ways}.isdisjoint(texts[1:]) or (tree := tree_at(lattice, 0)) is None:
        return reading
    at = tree.end
    length = max((len(one) for one in ways if texts[at : at + len(one)] == one), default=0)
    if not length or not set(lexicon.sense["owners"]) & set(texts[at + length : at + length + _NEAR]):
        return reading
    verb = words[at + length - 1].start
    read = hear(" " * verb + reading.said[verb:])
    if "decide" not in read.acts or read.tree or not read.work or letters(read) > letters(reading):
        return reading
    kind = () if tree.kind == "NAME" else (Fact("species", str(tree.value)),)
    name = str(tree.value) if tree.kind == "NAME" else None
    return replace(read, said=reading.said, tree=name, facts=(*kind, *read.facts))
