"""Hearing: a statement in plain words comes in, a `Reading` goes out; nothing is looked up, asked or kept here.

The words come from rules/words, rules/works and rules/species (`build_lexicon`), the sentences from bench.lark.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from .ear import Ear
from .lattice.automaton import grammar_data
from .reading import Fact, Guess, Missed, Reading, Spot, Work
from .vocabulary.lexicon import Lexicon

if TYPE_CHECKING:
    from .vocabulary.compiling import build_lexicon, lexicon_data

__all__ = [
    "Ear",
    "Fact",
    "Guess",
    "Lexicon",
    "Missed",
    "Reading",
    "Spot",
    "Work",
    "build_lexicon",
    "grammar_data",
    "hear",
    "lexicon_data",
]

_ears: dict[int, Ear] = {}


def hear(text: str, lexicon: Lexicon, on: dt.date, southern: bool = False, names: Sequence[str] = ()) -> Reading:
    """The reading of one statement; see `Ear.hear`. Builds the grammar table on first use; a compiled one is faster."""
    ear = _ears.get(id(lexicon))
    if ear is None or ear.lexicon is not lexicon:
        ear = _ears[id(lexicon)] = Ear(lexicon, grammar_data())
    return ear.hear(text, on, southern, names)


def __getattr__(name: str) -> Any:
    """Compiling is for a start that finds nothing compiled."""
    if name not in ("build_lexicon", "lexicon_data"):
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from .vocabulary import compiling

    return getattr(compiling, name)
