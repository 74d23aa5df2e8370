"""One thing that words may be, in its place between the others."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.value import dataclass

from ..vocabulary.lexicon import Lexicon
from .opening import opens

if TYPE_CHECKING:
    from .spotting import Token

ARTICLES = frozenset({"a", "an"})
VERBS = frozenset({"V", "VED", "VING"})
LONGEST = 3  # words of the longest term that is looked back for


@dataclass(frozen=True, slots=True)
class Sense:
    """One thing that words may be, in its place. texts: all words of the statement."""

    lexicon: Lexicon
    lattice: Sequence[Sequence[Token]]
    texts: Sequence[str]
    at: int
    token: Token

    @property
    def kind(self) -> str:
        return self.token.kind

    @property
    def word(self) -> str:
        """The first word."""
        return self.texts[self.at]

    @property
    def after(self) -> str:
        """The word behind, or "" at the end."""
        return self.texts[self.token.end] if self.token.end < len(self.texts) else ""

    @property
    def next(self) -> Sequence[Token]:
        """What may stand behind."""
        return self.lattice[self.token.end] if self.token.end < len(self.texts) else ()

    @property
    def alone(self) -> bool:
        """Whether it is of one word."""
        return self.token.end == self.at + 1

    @property
    def opening(self) -> bool:
        return opens(self.lexicon, self.texts, self.at)

    def is_one_of(self, words: str) -> bool:
        """Whether its first word is in a list of rules/words."""
        return self.word in self.lexicon.sense[words]

    def may_be(self, *kinds: str) -> bool:
        """Whether the same words may also be of one of these kinds."""
        return any(t.kind in kinds and t.end == self.token.end and not t.guesses for t in self.lattice[self.at])

    def behind(self, *kinds: str) -> bool:
        """Whether a word of one of these kinds stands right before it."""
        places = range(max(0, self.at - LONGEST), self.at)
        return any(t.kind in kinds and t.end == self.at and not t.guesses for n in places for t in self.lattice[n])

    def helped_by(self, helper: str, between: Collection[str] | None = None) -> bool:
        """Whether a helper stands before it, with only helpers between. between: those that may; None for any."""
        at = self.at
        while at > 0:
            first = max((n for n in range(at) if helpers(self.lattice[n], at)), default=None)
            if first is None:
                return False
            values = helpers(self.lattice[first], at)
            if helper in values:
                return True
            if between is not None and not values & set(between):
                return False
            at = first
        return False


def helpers(tokens: Sequence[Token], end: int) -> set[str]:
    """The helpers that begin here and end at `end`."""
    return {str(t.value) for t in tokens if t.kind == "AUX" and t.end == end and not t.guesses}
