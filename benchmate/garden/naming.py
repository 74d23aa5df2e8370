"""Names of trees: found as they are spoken, and made into folders that stay inside the garden."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from benchmate.fault import UserError
from benchmate.garden.record import Tree
from benchmate.garden.shapes import nearest, shown

MOST = 80
_DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))}


class NoSuchTree(UserError):
    """No tree goes by the name."""


class AmbiguousTree(UserError):
    """Several trees could be meant; `trees` has them."""

    def __init__(self, message: str, trees: Iterable[Tree]) -> None:
        super().__init__(message)
        self.trees = tuple(trees)


class NameRefused(UserError):
    """A name that no tree or garden may have."""


@lru_cache(8192)
def spoken(name: str) -> str:
    """The name without case, accents, hyphens, spaces and other signs: what two names are compared by.

    >>> spoken("Old-Gate Post") == spoken("old gatepost")
    True
    """
    if not name.isascii():
        name = unicodedata.normalize("NFKD", name)
    return "".join(filter(str.isalnum, name.casefold()))


def find_tree(name: str, trees: Iterable[Tree]) -> Tree:
    """The tree with this name, else with this folder, else the one that went by this name before, else the only one
    whose name or folder begins so.

    Raises NoSuchTree, or AmbiguousTree with the trees that could be meant.
    """
    wanted, known = spoken(name), tuple(trees)
    keys = [(tree, spoken(tree.name), spoken(tree.folder)) for tree in known]
    for fitting in (
        [tree for tree, key, _ in keys if key == wanted],
        [tree for tree, _, key in keys if key == wanted],
        [tree for tree in known if wanted in map(spoken, tree.was)],
        [tree for tree, *both in keys if wanted and any(key.startswith(wanted) for key in both)],
    ):
        exact = [tree for tree in fitting if name in (tree.name, tree.folder)]
        if len(fitting) == 1 or len(exact) == 1:
            return (exact or fitting)[0]
        if fitting:
            which = ", ".join(f"{shown(tree.name)} ({shown(tree.folder)})" for tree in fitting[:5])
            more = f" and {len(fitting) - 5} more" if len(fitting) > 5 else ""
            problem = f"{shown(name)!r} could be {which}{more}; say more of the name, or the folder"
            raise AmbiguousTree(problem, fitting)
    near = nearest(name, [tree.name.lower() for tree in known])
    near = next((tree.name for tree in known if tree.name.lower() == near), "")
    remedy = f"did you mean {shown(near)!r}?" if near else f"the garden has {_some(known)}"
    raise NoSuchTree(f"no tree is called {shown(name)!r}; {remedy}")


def _some(trees: tuple[Tree, ...]) -> str:
    if not trees:
        return "no trees yet"
    names = ", ".join(shown(tree.name) for tree in trees[:5])
    return names + (f" and {len(trees) - 5} more" if len(trees) > 5 else "")


def refuse_name(name: str) -> str:
    """The name without outer spaces.

    Raises NameRefused for one that could lead out of the folder, deceive the eye or not be spoken.
    """
    name = name.strip()
    if not spoken(name):
        problem = "the name has no letter or digit"
    elif len(name) > MOST:
        problem = f"the name is longer than {MOST} characters"
    elif any(sign in name for sign in "/\\"):
        problem = "a name may not hold a slash"
    elif name.startswith(".") or ".." in name:
        problem = "a name may not begin with a dot or hold two in a row"
    elif not name.isprintable():
        problem = "a name may not hold control characters"
    else:
        return name
    raise NameRefused(f"{shown(name)!r} cannot be a tree's name: {problem}; choose plain words, as in Gatepost")


def refuse_taken(name: str, trees: Iterable[Tree]) -> None:
    """Raises NameRefused for a name by which one of these trees is found."""
    for tree in trees:
        if spoken(name) in map(spoken, (tree.name, tree.folder, *tree.was)):
            known = shown(tree.name)
            once = "" if spoken(name) in (spoken(tree.name), spoken(tree.folder)) else ", once called that"
            raise NameRefused(f"there is a tree {known!r} already{once}; choose another name than {shown(name)!r}")


def folder_for(name: str) -> str:
    """A folder name of small letters, digits and hyphens that every system takes.

    >>> folder_for("St. Mary's Élm")
    'st-mary-s-elm'
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    words = "".join(sign if sign.isalnum() else " " for sign in plain).split()
    folder = "-".join(words)[:60].strip("-") or "tree"
    return f"tree-{folder}" if folder in _DEVICES else folder


def of_taxon(taxon: str, trees: Iterable[Tree]) -> tuple[Tree, ...]:
    """The trees of a genus, a species or a cultivar: those whose species begins with these words."""
    wanted = taxon.casefold().split()
    return tuple(tree for tree in trees if tree.species and tree.species.casefold().split()[: len(wanted)] == wanted)
