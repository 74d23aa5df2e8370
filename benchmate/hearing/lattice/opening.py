"""Words that ask at the opening of a sentence and only join elsewhere: "which goes?", but "the elm, which is weak"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ..vocabulary.lexicon import END, Lexicon
from ..vocabulary.words import Word

if TYPE_CHECKING:
    from .spotting import Token

STOPS = frozenset({".", ";", "?", "!", ":", "(", "-", "..."})
JOINERS = frozenset({",", "and", "so", "but", "or", "then"})


def stands_there(lexicon: Lexicon, sense: str, heard: Sequence[str], first: int, end: int) -> bool:
    """Whether a sense of a word ("which QCOMPARE") may stand at heard[first:end], by the lists of the lexicon."""
    if sense.endswith(" QCAN") and first and heard[first - 1] in lexicon.asking["tellers"]:
        return False  # "a gap you could park in"
    if sense not in lexicon.opening and sense not in lexicon.inside:
        return True
    outside = opens(lexicon, heard, first) or end == len(heard) or heard[end] == "?"
    return outside == (sense in lexicon.opening)


def opens(lexicon: Lexicon, heard: Sequence[str], at: int) -> bool:
    """Whether nothing but filler and joining words stands before `at` in its sentence."""
    while at > 0 and heard[at - 1] not in STOPS:
        at -= 1
        if heard[at] not in JOINERS and END not in lexicon.filler.get(heard[at], {}):
            return False
    return True


def is_filler(filler: Mapping[str, Any], texts: Sequence[str]) -> bool:
    """Whether the words are one phrase of the filler."""
    node = filler
    for text in texts:
        if text not in node:
            return False
        node = node[text]
    return END in node


def end_of_term(lexicon: Lexicon, words: Sequence[Word], first: int) -> int:
    """Where the term that is asked about ends: before "mean" and before filler ("a whorl, when it's at home")."""
    last = len(words)
    while last > first + 1 and words[last - 1].text in ("?", ".", "mean", "means", "meant", "is", "are"):
        last -= 1
    texts = [word.text for word in words[:last]]
    ends = (n for n in range(first + 1, last - 1) if is_filler(lexicon.filler, texts[n:]))
    last = next(ends, last)
    while last > first + 1 and words[last - 1].text in ("mean", "means", "meant"):
        last -= 1
    return last


def tells(lexicon: Lexicon, words: Sequence[Word]) -> bool:
    """Whether words speak of somebody or something at hand ("wrong with it"), which no term does."""
    return any(word.text in lexicon.asking["tellers"] for word in words)


def asks_what_to_call(lexicon: Lexicon, words: Sequence[Word], token: Token) -> bool:
    """Whether a token is "call it" and stands in a question, so that what follows names no tree: "when can I call
    it finished". But a word that is not known may be a name that is put forward: "shall we call it Lodge"."""
    sense, first, end = lexicon.sense["calling"], token.first, token.end
    if token.kind != "CALLED" or not {word.text for word in words[first:end]} & set(sense["bare"]):
        return False
    at = first
    while at > 0 and words[at - 1].text not in STOPS | {","}:
        at -= 1
    while at < first and words[at].text in lexicon.sense["openers"]:
        at += 1
    if words[at].text in sense["proposes"]:
        return all(word.text in lexicon.known or word.text in lexicon.plain for word in words[end : end + 1])
    return words[at].text in sense["asks"]
