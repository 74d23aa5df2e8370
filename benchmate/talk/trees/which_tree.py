"""Which tree a statement means: the one named, the one of that species, else the one at hand. Never a guess."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from benchmate.garden.record import Tree
from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.practice.advice import Ask
from benchmate.talk.dates import last_day
from benchmate.telling.wording import list_words
from benchmate.value import dataclass, replace

MOST_NAMES = 12
_NEW = "taken as a new tree, since it was collected now: say call it Ditch, or any other name, to begin its record"
_TO_BE_DUG = "taken as a tree that is still in the ground, none of this garden's"
_A_TREE = re.compile(r"\b(?:an?|another|new)\s+(?:[^\W\d_]+\s+){0,2}$", re.IGNORECASE)  # "a", "another old"


@dataclass(frozen=True, slots=True)
class Meant:
    """tree: the tree meant, or None. aside: what was taken for granted. ask: the question where several fit or none is
    known. species_alone: the words name a species that is not the tree at hand's."""

    tree: Tree | None = None
    aside: str = ""
    ask: Ask | None = None
    species_alone: bool = False


def species_said(reading: Reading) -> str | None:
    """The taxon that the statement is about, or None."""
    return next((str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied), None)


def as_list(reading: Reading, on: dt.date, southern: bool = False) -> Reading:
    """ "Which pines are wired" asks which trees of the garden, as "which trees are wired" does; so does "which did I
    repot this spring", of a time that is over."""
    kinds = {fact.kind for fact in reading.facts}
    bare = not (reading.candidates or reading.figure or reading.tree)
    if reading.topic != "compare" or not bare or any(fact.spot != NOWHERE for fact in reading.facts):
        return reading
    asks = re.match(r"\W*(?:which|what)\b", reading.said, re.IGNORECASE)
    over = last_day(reading.when, southern) if reading.when else None
    of_state = "species" in kinds and len(kinds) > 1 and not reading.work
    of_work = over is not None and over < on and all(work.spot == NOWHERE for work in reading.work)
    return replace(reading, topic="list") if asks and (of_state or (reading.work and of_work)) else reading


def as_turn(reading: Reading) -> Reading:
    """A tree's name alone ("Crag") turns to that tree; a number alone in a question is nothing seen ("the weak ones
    first, then the rest ten days later?")."""
    asks = reading.acts == ("observe",) and reading.said.rstrip().endswith("?")
    if asks and reading.measures and not (reading.facts or reading.candidates):
        return replace(reading, acts=("ask",), topic="advice", measures={})
    said = reading.work or reading.facts or reading.candidates or reading.measures or reading.figure or reading.missed
    if reading.acts or said or not reading.tree or reading.several:
        return reading
    return replace(reading, acts=("turn",))


def is_of(tree: Tree, taxon: str) -> bool:
    """Whether the tree may be of the taxon: the same, or one of them is only the other's genus.

    >>> is_of(Tree("Gatepost", "gatepost", "Acer campestre"), "Acer")
    True
    """
    own = tree.species
    return bool(own) and (own == taxon or str(own).startswith(f"{taxon} ") or taxon.startswith(f"{own} "))


def named(trees: Sequence[Tree], name: str) -> Tree | None:
    """The tree of that name or folder, letters large or small; else the one that went by it before."""
    wanted = name.casefold()
    own = next((tree for tree in trees if wanted in (tree.name.casefold(), tree.folder.casefold())), None)
    return own or next((tree for tree in trees if wanted in map(str.casefold, tree.was)), None)


def names_of(trees: Sequence[Tree]) -> tuple[str, ...]:
    """All names by which trees are spoken of: their own, and those that they went by before."""
    return tuple(dict.fromkeys(name for tree in trees for name in (tree.name, *tree.was)))


def once_called(tree: Tree, name: str) -> str:
    """That the tree has another name now than the one said, or ""."""
    old = name.casefold() in map(str.casefold, tree.was) and name.casefold() != tree.name.casefold()
    return f"{name} is called {tree.name} now" if old else ""


def fits(name: str, trees: Sequence[Tree], here: Tree | None = None) -> list[Tree]:
    """The trees that a name or a taxon may mean: the one of that name, else the one at hand, else all of that kind."""
    if tree := named(trees, name):
        return [tree]
    if here and is_of(here, name):
        return [here]
    return [tree for tree in trees if is_of(tree, name)]


def meant_tree(reading: Reading, trees: Sequence[Tree], here: Tree | None, those: Sequence[str] = ()) -> Meant:
    """Which tree the statement is about. here: the tree at hand. trees: all of the garden's. those: the names of the
    trees that the statement before was about, where it was about several: of them alone it is asked which is meant."""
    meant = _meant_of_all(reading, trees, here)
    if meant.tree or meant.ask is None or reading.tree or not those:
        return meant
    taxon = species_said(reading)
    found = [tree for tree in trees if tree.name in those and (taxon is None or is_of(tree, taxon))]
    if taxon and len(found) == 1:
        return Meant(found[0])
    return replace(meant, ask=which(found)) if found else meant


def _meant_of_all(reading: Reading, trees: Sequence[Tree], here: Tree | None) -> Meant:
    if reading.tree and "new" not in reading.acts:
        tree = named(trees, reading.tree)
        return (
            Meant(tree, once_called(tree, reading.tree))
            if tree
            else Meant(None, f"no tree here is called {reading.tree}", which(trees))
        )
    taxon = species_said(reading)
    if taxon and trees and _dug_anew(reading):
        dug = any(work.done in ("done", "now") for work in reading.work)
        return Meant(None, _NEW if dug else _TO_BE_DUG, None, species_alone=True)
    if taxon:
        return _by_species(taxon, trees, here)
    if here:
        return Meant(here)
    if len(trees) == 1:
        return Meant(trees[0], f"taken as {trees[0].name}, the only tree here")
    return Meant(None, "", which(trees))


def _dug_anew(reading: Reading) -> bool:
    """ "Collected a hawthorn", "can I dig up a beech": one that is dug now or later, and "a" at that, is none of the
    garden's."""
    dug = any(work.work == "collect" and work.done != "not" for work in reading.work)
    spans = [fact.span for fact in reading.facts if fact.kind == "species" and not fact.denied]
    return dug and bool(spans) and _A_TREE.search(reading.said[: spans[0][0]]) is not None


def _by_species(taxon: str, trees: Sequence[Tree], here: Tree | None) -> Meant:
    found = fits(taxon, trees, here)
    if found == [here]:
        return Meant(here)
    if len(found) == 1:
        return Meant(found[0], f"taken as {found[0].name}, the only {taxon} here")
    if found:
        return Meant(None, "", which(found), species_alone=True)
    aside = f"this is for {taxon} in general: none stands in this garden" if trees else ""
    return Meant(None, aside, None, species_alone=True)


def rivals(reading: Reading, trees: Sequence[Tree]) -> list[Tree]:
    """The trees that a statement may be about where it names several kinds and does not tell what is of which: two at
    least, or none."""
    taxa = {str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied}
    if reading.tree or len(taxa) < 2:
        return []
    found = [tree for tree in trees if any(is_of(tree, taxon) for taxon in taxa)]
    return found if len({tree.species for tree in found}) > 1 else []


def which(trees: Sequence[Tree]) -> Ask:
    """The question which tree is meant, with the names where they are few."""
    if not trees:
        return Ask("tree", "Which tree is it, or what species?")
    names = [tree.name for tree in trees[:MOST_NAMES]]
    if len(trees) > MOST_NAMES:
        return Ask("tree", f"Which tree: {', '.join(names)}, or another of the {len(trees)}?")
    return Ask("tree", f"Which tree: {list_words(names, 'or')}?")
