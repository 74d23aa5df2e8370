"""What a word cannot be beside its neighbours: "my hose is dry" waters nothing, "won't wire that one" names no wire."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from .lexicon import Lexicon
from .opening import opens
from .words import Word

if TYPE_CHECKING:
    from .spotting import Token

_THINGS = frozenset({"PART", "MEANS", "FINDING", "EVENT", "STATE"})
_VERBS = frozenset({"V", "VING"})


def drop_false_senses(lexicon: Lexicon, lattice: list[list[Token]], words: Sequence[Word]) -> None:
    """Take away what a word cannot be beside its neighbours."""
    for at, tokens in enumerate(lattice):
        asks = any(t.kind == "QCOMPARE" and t.end > at + 1 and not t.guesses for t in tokens)
        if asks:  # "which one goes" asks: then "which" alone does not join
            tokens = [t for t in tokens if t.kind != "SEP"]
        lattice[at] = [t for t in tokens if not any(false(lexicon, lattice, words, at, t) for false in _FALSE)]


def _owned_verb(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "The seal's cracked", "my hose is dry": what owns or is owned is no verb."""
    if t.kind not in _VERBS:
        return False
    behind = t.end < len(words) and words[t.end].text == "'s"
    return behind or (t.kind == "V" and at > 0 and words[at - 1].text in lexicon.sense["owners"])


def _doing(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "I'm not touching it", "I've wired one": what a person does is no state of the tree."""
    rivalled = any(_rivalled(lattice[at], t, kind) for kind in ("VING", "VED"))
    return t.kind == "STATE" and rivalled and _helped(lattice, at, "i", frozenset())


def _to_be_done(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "Won't wire that one", "please feed this one": behind these stands the verb, not the thing."""
    if t.kind not in _THINGS or not _rivalled(lattice[at], t, "V"):
        return False
    return any(_helped(lattice, at, helper, frozenset({"not", "i"})) for helper in ("will", "do", "let"))


def _denied_thing(
    lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token
) -> bool:
    """ "No the right one", said without a pause: where a determiner follows, "no" denies nothing but corrects."""
    if t.kind not in ("AUX", "CORRECT") or t.end != at + 1 or words[at].text not in lexicon.sense["refusals"]:
        return False
    pointed = t.end < len(words) and words[t.end].text in lexicon.sense["pointers"]
    return pointed if t.kind == "AUX" else not (pointed and opens(lexicon, [word.text for word in words], at))


def _one_thing(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "The left one to three leaves": behind a place "one" counts nothing."""
    if t.kind not in ("NUM", "MEASURE", "SHARE") or at == 0 or not any(o.kind == "ONE" for o in lattice[at]):
        return False
    return any(o.kind in ("SIDE", "LEVEL", "ORD") and o.end == at and not o.guesses for o in lattice[at - 1])


def _adverb(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "Right at the top", "black spot is back on the elm": no side, where a preposition follows a bare word."""
    if t.end != at + 1 or t.end >= len(words):
        return False
    followed = lexicon.sense["before"].get(f"{words[at].text} {t.kind}", ())
    led = at > 0 and any(o.end == at and o.kind in ("DET", "AT", "TO", "FROM", "OF") for o in lattice[at - 1])
    return words[t.end].text in followed and not led


def _remaining(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "Any scale left", "two buds left on the elm": what remains lies on no side, and nobody left it."""
    if t.kind not in ("SIDE", "VED", "V") or t.end != at + 1 or words[at].text not in lexicon.sense["remains"]:
        return False
    if t.kind == "SIDE" and opens(lexicon, [word.text for word in words], at):  # "left three buds on it"
        counts = [o for o in lattice[t.end] if o.kind == "NUM" and o.end < len(words)] if t.end < len(words) else []
        return any(o.kind == "PART" and o.value in lexicon.amount for count in counts for o in lattice[count.end])
    for first in range(max(0, at - 3), at):
        counted = first > 0 and (
            words[first - 1].text in lexicon.sense["denying"]
            or any(o.kind == "NUM" and o.end == first for o in lattice[first - 1])
        )
        if counted and any(o.kind in ("FINDING", "PART") and o.end == at and not o.guesses for o in lattice[first]):
            return True
    return False


def _clipped(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "So that's the one I keep": a clipped verb opens no question; "how long's the" does not ask since when."""
    if t.kind[0] != "Q" or t.kind == "QMEANING":
        return False
    texts = [word.text for word in words[at : t.end]]
    return texts[0] == "'s" or (t.kind == "QRECALL" and texts[0] == "how" and texts[-1] == "'s")


def _named_next(lexicon: Lexicon, lattice: Sequence[Sequence[Token]], words: Sequence[Word], at: int, t: Token) -> bool:
    """ "Wired Ratchet", "leaf cut Ratchet": what opens a sentence before a tree's name was done to it."""
    if t.kind not in _THINGS or t.end >= len(words) or not any(o.kind == "NAME" for o in lattice[t.end]):
        return False
    done = any(_rivalled(lattice[at], t, kind) for kind in ("V", "VED"))
    return done and opens(lexicon, [word.text for word in words], at)


def _rivalled(tokens: Sequence[Token], one: Token, kind: str) -> bool:
    """Whether the same words may also be of another kind."""
    return any(t.kind == kind and t.end == one.end and not t.guesses for t in tokens)


def _helped(lattice: Sequence[Sequence[Token]], at: int, helper: str, between: frozenset[str]) -> bool:
    """Whether a helper stands before `at`, with nothing but helpers between. between: those that may; empty for any."""
    while at > 0:
        first = max((n for n in range(at) if _helpers(lattice[n], at)), default=None)
        if first is None:
            return False
        values = _helpers(lattice[first], at)
        if helper in values:
            return True
        if between and not values & between:
            return False
        at = first
    return False


def _helpers(tokens: Sequence[Token], end: int) -> set[str]:
    """The helpers that begin here and end at `end`."""
    return {str(t.value) for t in tokens if t.kind == "AUX" and t.end == end and not t.guesses}


_FALSE: tuple[Callable[[Lexicon, Sequence[Sequence[Token]], Sequence[Word], int, Token], bool], ...] = (
    _owned_verb,
    _doing,
    _to_be_done,
    _denied_thing,
    _one_thing,
    _adverb,
    _remaining,
    _named_next,
    _clipped,
)
