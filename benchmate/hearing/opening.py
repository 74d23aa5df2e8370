"""Words that ask at the opening of a sentence and only join elsewhere: "which goes?", but "the elm, which is weak"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from .lexicon import END, Lexicon
from .words import Word

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


def drop_false_senses(lattice: list[list[Token]], words: Sequence[Word]) -> None:
    """Take away what a word cannot be beside its neighbours."""
    for at, tokens in enumerate(lattice):
        asks = any(t.kind == "QCOMPARE" and t.end > at + 1 and not t.guesses for t in tokens)
        lattice[at] = [
            t
            for t in tokens
            # "the seal's cracked": what has a "'s" behind it is no verb
            if not (t.kind in ("V", "VING") and t.end < len(words) and words[t.end].text == "'s")
            # "which one goes" asks: then "which" alone does not join
            and not (asks and t.kind == "SEP")
            # "I'm not touching it": what a person is doing is no state of the tree
            and not (t.kind == "STATE" and _rivals(t, tokens) and _doer(lattice, at))
        ]


def _rivals(state: Token, tokens: Sequence[Token]) -> bool:
    """Whether the same words may also be a verb."""
    return any(t.kind == "VING" and t.end == state.end and not t.guesses for t in tokens)


def _doer(lattice: Sequence[Sequence[Token]], at: int) -> bool:
    """Whether "I am", "we're not" or the like stands right before `at`."""
    while at > 0:
        at -= 1
        helpers = [t.value for t in lattice[at] if t.kind == "AUX" and t.end == at + 1 and not t.guesses]
        if not helpers:
            return False
        if "i" in helpers:
            return True
    return False


def tells(lexicon: Lexicon, words: Sequence[Word]) -> bool:
    """Whether words speak of somebody or something at hand ("wrong with it"), which no term does."""
    return any(word.text in lexicon.asking["tellers"] for word in words)
