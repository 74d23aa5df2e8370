"""Lengths that stand loose: no height of the tree unless they are said of it."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..vocabulary.lexicon import Lexicon

_HEIGHT = "height_mm"
_OF_TREE = frozenset({"PRON", "SPECIES", "NAME"})
_TREES = frozenset({"tree", "trunk", "crown"})


def settle_loose_sizes(clauses: Sequence[Clause], found: Found, lexicon: Lexicon) -> None:
    """A bare length beside work is the work's, where it has such a size ("wired two on the elm with 2.5 mm"). Beside
    words that were not understood it is of what they name ("chewed the bark, 3 cm patch") and tells nothing of the
    tree, and so it is behind work that no size of its own is known of: the words count as not understood."""
    table = lexicon.numbers.get("bare_after", {})
    for at, clause in enumerate(clauses):
        size = _bare_size(clause, found)
        _gauged(clause, size, lexicon)
        if size is None or clause.measures.get(_HEIGHT) is None:
            continue
        if clause.work and clause.kind == "decide":
            number = clause.measures.pop(_HEIGHT)
            work, thin = clause.work[-1], number <= table.get("thick_most_mm", 0)
            if thin and work.work in table.get("thick", ()) and "diameter_mm" not in work.measures:
                clause.work[-1] = replace(work, measures={**work.measures, "diameter_mm": number})
            else:
                clause.idle.append(size)
            clause.series = [one for one in clause.series if one != (_HEIGHT, number)]
        elif clause.kind == "observe" and not _of_the_tree(clause, found) and _lost_beside(clauses, at, found):
            clause.measures = {name: value for name, value in clause.measures.items() if name != _HEIGHT}
            clause.series = [one for one in clause.series if one[0] != _HEIGHT]
            clause.idle.append(size)
            clause.acts = clause.acts if clause.facts or clause.measures or clause.candidates else []


def _gauged(clause: Clause, size: Token | None, lexicon: Lexicon) -> None:
    """ "Rewired the apex in two millimetre": how thick the wire was."""
    table = lexicon.numbers.get("bare_after", {})
    for at, work in enumerate(clause.work):
        number = work.measures.get(_HEIGHT)
        if size is None or number is None or work.work not in table.get("by_gauge", ()):
            continue
        if number <= table.get("wire_most_mm", 0) and "diameter_mm" not in work.measures:
            rest = {name: value for name, value in work.measures.items() if name != _HEIGHT}
            clause.work[at] = replace(work, measures={**rest, "diameter_mm": number})


def _bare_size(clause: Clause, found: Found) -> Token | None:
    """The length of the clause of which no word tells what it measures."""
    first, end = clause.span
    sizes = [token for token in found.tokens if token.kind == "MEASURE" and first <= token.first < end]
    bare = [token for token in sizes if token.value.bare and token.value.bare not in ("degree", "across")]
    return bare[0] if len(bare) == len(sizes) == 1 else None


def _of_the_tree(clause: Clause, found: Found) -> bool:
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    return any(token.kind in _OF_TREE or (token.kind == "PART" and token.value in _TREES) for token in tokens)


def _lost_beside(clauses: Sequence[Clause], at: int, found: Found) -> bool:
    """Whether words beside the clause, or before it in one breath, were not understood, or it goes on from work."""
    clause, before = clauses[at], clauses[at - 1] if at else None
    first, end = clause.span
    start = before.span[0] if before is not None and "." not in clause.joined else first
    behind = clauses[at + 1] if at + 1 < len(clauses) else None
    lost_clauses = [before] if before is not None and "." not in clause.joined else []
    lost_clauses += [behind] if behind is not None and set(behind.joined) <= {"pause"} else []
    if any(one.idle_whole for one in lost_clauses):
        return True
    if any(mark == "missed" for mark in (*found.marks[start:end], *found.marks[end : end + 1])):
        return True
    return before is not None and bool(before.work) and before.kind == "decide" and "." not in clause.joined
