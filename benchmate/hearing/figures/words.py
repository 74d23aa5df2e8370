"""The words of figure questions (rules/words/figure_questions.toml) as one tree of stems, and found in a statement.

A phrase is words, compared by their stems. `[a/b/]` is a choice, `~` up to four words without a number, `#` a number,
`#length` one of that unit. What a phrase gives: evidence for a figure, a place beside which a number of some role
stands, a value that the words alone say, or that something is asked.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from benchmate.value import dataclass

from ..vocabulary.spelling import spellings

GAP, NUMBER, ENDS = "~", "#", ""
LONGEST_GAP = 4
_STEMS: dict[str, str] = {}


@dataclass(frozen=True, slots=True)
class Found:
    """A phrase in its place: pieces [first, end) of the statement. gives: what it says, as compiled; gapped: whether
    words that it does not name stand in it. of: what it is for ("cue", "role", "value", "asks")."""

    first: int
    end: int
    of: str
    gives: Sequence[Any]
    gapped: bool = False


def stem(word: str) -> str:
    """A word without its endings, the same for all its forms.

    >>> [stem(word) for word in ("dries", "closing", "tapered", "gapped", "branches", "ease")]
    ['dry', 'clos', 'taper', 'gap', 'branch', 'eas']
    """
    if word not in _STEMS:
        _STEMS[word] = _stem(word)
    return _STEMS[word]


def _stem(word: str) -> str:
    if len(word) < 4 or not word.isalpha():
        return word
    for ending, kept in (("ies", "y"), ("ied", "y"), ("sses", "ss"), ("ing", ""), ("ed", ""), ("es", ""), ("s", "")):
        if word.endswith(ending) and len(word) - len(ending) >= 3 and not word.endswith("ss"):
            word = word.removesuffix(ending) + kept
            if ending in ("ing", "ed") and word[-1] == word[-2] and word[-1] not in "lsz":
                word = word[:-1]
            break
    return word.removesuffix("e") if len(word) > 3 else word


def compiled_from(tables: Mapping[str, Mapping[str, Any]]) -> dict[str, Any]:
    """`compile_figures` from all parsed rule files by name; without the file, no figure is known by its words."""
    return compile_figures(tables.get("words/figure_questions.toml", {}))


def compile_figures(file: Mapping[str, Any]) -> dict[str, Any]:
    """rules/words/figure_questions.toml as plain data: `tree` of stems, and `roles` of each figure without their
    phrases."""
    tree: dict[str, Any] = {}
    same = same_stems(file.get("small", {}).get("same_as", {}))
    for phrase in file.get("asking", {}).get("says", ()):
        _insert(tree, phrase, ["asks"], same)
    roles: dict[str, dict[str, Any]] = {}
    needs: dict[str, Any] = {}
    of_work: list[str] = []
    for figure, cell in file.get("figure", {}).items():
        for group, weights in cell.get("cues", {}).items():
            for weight, phrases in weights.items():
                for phrase in phrases:
                    _insert(tree, phrase, ["cue", figure, group, float(weight)], same)
        needs[figure] = cell.get("needs", [])
        of_work += [figure] if cell.get("of_work") else []
        roles[figure] = {}
        for name, role in cell.get("roles", {}).items():
            roles[figure][name] = {key: value for key, value in role.items() if key not in ("near", "before", "after")}
            for side in ("near", "before", "after"):
                for phrase in role.get(side, ()):
                    _insert(tree, phrase, ["role", figure, name, side], same)
        for name, values in cell.get("values", {}).items():
            for value, phrases in values.items():
                for phrase in phrases:
                    _insert(tree, phrase, ["value", figure, name, value], same)
    more = {key: file.get(key, {}) for key in ("unit", "counted", "named_day", "rate", "small", "told_in")}
    return {"tree": tree, "roles": roles, "needs": needs, "of_work": of_work, **more}


def pieces_of(phrase: str) -> Iterator[tuple[str, ...]]:
    """The stems, gaps and numbers of a phrase, one tuple for each way of its choices.

    >>> list(pieces_of("how [long/far] ~ #degree"))
    [('how', 'long', '~', '#degree'), ('how', 'far', '~', '#degree')]
    """
    for spelt in spellings(phrase):
        pieces = spelt.replace(",", " , ").split()
        yield tuple(piece if piece[0] in (GAP, NUMBER) else stem(piece) for piece in pieces)


def same_stems(same_as: Mapping[str, str]) -> dict[str, str]:
    """Stems that are read as another, from words that are.

    >>> same_stems({"limb": "branch", "fatten": "thicken"})
    {'limb': 'branch', 'fatten': 'thicken'}
    """
    return {stem(word): stem(other) for word, other in same_as.items()}


def _insert(tree: dict[str, Any], phrase: str, gives: list[Any], same: Mapping[str, str]) -> None:
    for pieces in pieces_of(phrase):
        node = tree
        for piece in pieces:
            node = node.setdefault(same.get(piece, piece), {})
        given = node.setdefault(ENDS, [])
        if gives not in given:
            given.append(gives)


def find_phrases(
    tree: Mapping[str, Any], pieces: Sequence[str], kinds: Sequence[str], stops: Collection[str]
) -> Iterator[Found]:
    """Every phrase among the pieces: stems, and "#" with its unit in `kinds` for numbers. stops: pieces that
    no gap goes over."""
    for first in range(len(pieces)):
        stack: list[tuple[Mapping[str, Any], int, bool, bool]] = [(tree, first, False, False)]
        while stack:
            node, at, passed, gapped = stack.pop()
            for gives in node.get(ENDS, ()) if at > first and not passed else ():
                yield Found(first, at, gives[0], gives[1:], gapped)
            if at >= len(pieces):
                continue
            piece = pieces[at]
            if inner := node.get(piece):
                stack.append((inner, at + 1, False, gapped))
            if piece == NUMBER and (inner := node.get(NUMBER + kinds[at])):
                stack.append((inner, at + 1, False, gapped))
            if at > first and (gap := node.get(GAP)):
                # what stands behind the gap, after none to four words
                for skip in range(LONGEST_GAP + 1):
                    place = at + skip
                    if place >= len(pieces) or (skip and (pieces[place - 1] == NUMBER or pieces[place - 1] in stops)):
                        break
                    stack.append((gap, place, True, True))
