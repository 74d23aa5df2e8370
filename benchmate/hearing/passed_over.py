"""The words of a statement that were passed over, to be shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from .clauses import Clause
from .lattice.opening import is_filler
from .lattice.search import Found
from .lattice.sense import ARTICLES
from .reading import Missed
from .seen.phrases import CREATURE
from .vocabulary.words import Word


def missed_words(
    text: str,
    words: Sequence[Word],
    found: Found,
    clauses: Sequence[Clause],
    taken: frozenset[int],
    filler: Mapping[str, Any],
) -> tuple[Missed, ...]:
    """Runs of words that were passed over though they say something, or that turned out to say nothing here; but not
    those that are filler as a whole ("it's fine"). taken: words that no sentence took, but a number of a figure did."""
    marks = list(found.marks)
    for clause in clauses:
        if clause.idle_whole:
            marks[slice(*clause.span)] = ["missed" if mark == "used" else mark for mark in marks[slice(*clause.span)]]
        for token in clause.idle:
            marks[token.first : token.end] = ["missed"] * (token.end - token.first)
    for token in found.tokens:  # who broke a branch helps to tell that it broke, and is kept in the grower's words
        if token.value == CREATURE:
            marks[token.first : token.end] = ["missed"] * (token.end - token.first)
    for place in taken:
        marks[place] = "used"
    used = "used" in marks  # where nothing else was said, the filler is all that was
    out: list[Missed] = []
    at = 0
    while at < len(words):
        if marks[at] != "missed":
            at += 1
            continue
        end = at + 1
        while end < len(words) and (marks[end] == "missed" or _between_missed(marks, words, end)):
            end += 1
        span = (words[at].start, words[end - 1].end)
        if not (used and is_filler(filler, ["is" if word.text == "'s" else word.text for word in words[at:end]])):
            out.append(Missed(text[span[0] : span[1]], span))
        at = end
    return tuple(out)


def _between_missed(marks: Sequence[str], words: Sequence[Word], at: int) -> bool:
    """Whether a word that says nothing lies between two missed ones: "grown from a cutting" is told as a whole."""
    return marks[at] == "filler" and words[at].text in ARTICLES and marks[at + 1 : at + 2] == ["missed"]
