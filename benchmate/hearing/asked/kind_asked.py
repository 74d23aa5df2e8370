"""Questions about what a kind of tree takes ("how cold can the ficus take"): heard by the patterns of
rules/words/kind_questions.toml, since they have too many orders of words for the grammar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import replace

from ..lattice.spotting import Token
from ..reading import Fact, Reading
from ..seen.saying import species_fact
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.word_patterns import Classes, end_of
from ..vocabulary.words import Word

KIND = "kind"
_TREE, _END = "@", "$"


def asked_of_kind(
    reading: Reading, words: Sequence[Word], lattice: Sequence[Sequence[Token]], lexicon: Lexicon
) -> Reading:
    """The reading as a question about a kind, its `term` what is asked ("cold"), where the whole statement is one."""
    classes, asks = lexicon.kinds.get("class", {}), lexicon.kinds.get("asks", {})
    if reading.several or set(classes.get("signs", ())).isdisjoint(word.text for word in words):
        return reading
    named = _named(words, lattice)
    texts = _with_tree(words, named)
    term = next((name for name, patterns in asks.items() if _fits(texts, patterns, classes)), None)
    if term is None:
        return reading
    facts, tree = reading.facts, reading.tree
    species = tuple(fact for fact in facts if fact.kind == "species" and not fact.denied)
    if not species and not tree:
        species = tuple(_placed(species_fact(token), words) for token in named if token.kind == "SPECIES")
        tree = next((str(token.value) for token in named if token.kind == "NAME"), None)
    spans = [fact.span for fact in species]
    guessed = tuple(one for one in reading.guessed if any(a <= one.span[0] < b for a, b in spans))
    return Reading(reading.said, ("ask",), KIND, species, tree=tree, guessed=guessed, term=term, refers=reading.refers)


def kind_patterns(table: Mapping[str, Any]) -> dict[str, Any]:
    """What hearing keeps of the file: the classes of words, and the patterns by what is asked."""
    return {
        "class": table.get("class", {}),
        "asks": {name: cell["asks"] for name, cell in table.get("asked", {}).items()},
    }


def _fits(texts: Sequence[str], patterns: Sequence[str], classes: Classes) -> bool:
    """Whether one of the patterns takes up the whole statement."""
    whole = (["<open>*", *pattern.split(), "<tail>*", _END] for pattern in patterns)
    return any(end_of(pattern, texts, classes) is not None for pattern in whole)


def _named(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> list[Token]:
    """The kinds and names that are said, the longest at each place."""
    out: list[Token] = []
    at = 0
    while at < len(words):
        here = [token for token in lattice[at] if token.kind in ("SPECIES", "NAME")]
        best = max(here, key=lambda token: (token.end, not token.guesses), default=None)
        if best is not None:
            out.append(best)
        at = best.end if best is not None else at + 1
    return out


def _with_tree(words: Sequence[Word], named: Sequence[Token]) -> list[str]:
    """The words with one sign for each tree that is named, and one for the end."""
    ends = {token.first: token.end for token in named}
    out: list[str] = []
    at = 0
    while at < len(words):
        out.append(_TREE if at in ends else words[at].text)
        at = ends.get(at, at + 1)
    return [*out, _END]


def _placed(fact: Fact, words: Sequence[Word]) -> Fact:
    first, end = fact.span
    return replace(fact, span=(words[first].start, words[end - 1].end))
