"""Several trees in one statement: "fed the beech and the hornbeam", "watered everything except the jade"."""

from __future__ import annotations

from collections.abc import Sequence

from .clauses import Clause
from .lexicon import Lexicon
from .reading import Reading, Several
from .search import Found
from .words import Word

_NAMING = frozenset({"SPECIES", "NAME", "DET", "POSS", "TREEWORD", "AT", "OF", "DATE", "MANNER", "SEP", "PARTICLE"})
_ONE_TREE = frozenset({"correct", "turn", "new", "note", "strike"})


def several_of(
    reading: Reading, clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon
) -> Several | None:
    """The trees that a statement is about where they are several, else None. clauses: all of the statement's."""
    if _ONE_TREE & set(reading.acts):
        return None
    texts = [word.text for word in words]
    left_out = next((at for at in range(len(texts)) if _begins(texts, at, lexicon.several["except"])), len(texts))
    kept = {str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied}
    trees = [[(at, name) for at, name, kind in _named(c, found) if kind == "NAME" or name in kept] for c in clauses]
    named = [[name for at, name in own if at < left_out] for own in trees]
    out = tuple(dict.fromkeys(name for own in trees for at, name in own if at > left_out))
    if _says_every(reading, texts, lexicon):
        return Several(every=True, but=out)
    # a second tree in the same clause is a place ("next to the elm"), one in a clause of its own is meant as well
    firsts = [(clause, own[0]) for clause, own in zip(clauses, named, strict=True) if own]
    apart = tuple(dict.fromkeys(name for _, name in firsts))
    if len(apart) < 2 or any(_same(one, other) for one in apart for other in apart if one is not other):
        return None
    telling = {name for clause, name in firsts if _tells(clause, found)}
    return Several(named=apart, but=out, shared=len(telling) < 2)


def _named(clause: Clause, found: Found) -> list[tuple[int, str, str]]:
    """(place, name or taxon, kind of word) of each tree that a clause names."""
    first, end = clause.span
    tokens = [t for t in found.tokens if first <= t.first < end and t.kind in ("SPECIES", "NAME")]
    return [(t.first, str(t.value), t.kind) for t in tokens]


def _tells(clause: Clause, found: Found) -> bool:
    """Whether a clause says anything of its tree but its name, even something that no fact was made of."""
    first, end = clause.span
    kinds = {token.kind for token in found.tokens if first <= token.first < end}
    return bool(clause.work or clause.topic or clause.measures or kinds - _NAMING)


def _same(one: str, other: str) -> bool:
    """Whether two names may be of one tree: a genus and a species of it ("the elm, a Chinese elm")."""
    return one.startswith(f"{other} ") or other.startswith(f"{one} ")


def _says_every(reading: Reading, texts: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether all trees are meant: said outright, or "everything" where the work is one that a whole tree is given."""
    whole = set(lexicon.several["works"])
    works = [work.work for work in reading.work]
    if not works or any(work.spot.part for work in reading.work):
        return False
    phrases = list(lexicon.several["trees"])
    if whole.issuperset(work for work in works if work):
        phrases += lexicon.several["vague"]
    return any(_begins(texts, at, phrases) for at in range(len(texts)))


def _begins(texts: Sequence[str], at: int, phrases: Sequence[str]) -> bool:
    """Whether one of the phrases begins at `at`."""
    return any(list(texts[at : at + len(phrase.split())]) == phrase.split() for phrase in phrases)
