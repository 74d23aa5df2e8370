"""What a tree was given: "the elm got a feed" and "the maple had a bigger pot" tell work of the grower."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Fact, Work
from ..seen.phrases import HIDDEN
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .doing import DONE

_TREES = frozenset({"SPECIES", "NAME", "TREEWORD", "PRON"})
_SMALL = frozenset({"DET", "NUM", "ORD", "DATE", "PART", "EVENT", "MEANS", "OF", "OTHER"})


def was_given(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """The work that was done to a tree which "got" it, as the passive tells it; `join` weighs what stands beside it."""
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        at = next((n for n, t in enumerate(tokens) if t.kind in ("AUX", "HARM") and _got(t, words, lexicon)), None)
        tree = tokens[: at or 0]
        if len(tree) > 1 and tree[-1].kind == "AUX" and tree[-1].value == "have":  # "the elm has had a feed"
            tree = tree[:-1]
        if clause.kind != "observe" or clause.work or clause.denied or not at or not _of_a_tree(tree):
            continue
        behind = tokens[at + 1 :]
        if not behind or not {token.kind for token in behind} <= _SMALL:
            continue
        for event in [fact for fact in clause.facts if fact.kind == "event" and not fact.denied]:
            clause.passive.append((_work(str(event.value), behind, event), event))
        if clause.passive or any(fact.kind != "species" for fact in clause.facts):
            continue
        things = [token for token in behind if token.kind == "PART" and str(token.value).startswith(HIDDEN)]
        named = [lexicon.patterns.get(f"give||{token.value}|") for token in things]
        if len(things) == 1 and named[0]:
            event = Fact("event", named[0], when=clause.when, span=(things[0].first, things[0].end))
            clause.facts.append(event)
            clause.passive.append((_work(named[0], behind, event), event))
            clause.idle = [token for token in clause.idle if token.end <= event.span[0] or event.span[1] <= token.first]


def _got(token: Token, words: Sequence[Word], lexicon: Lexicon) -> bool:
    return " ".join(word.text for word in words[token.first : token.end]) in lexicon.sense["given_to"]


def _of_a_tree(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and tokens[-1].kind in _TREES and all(token.kind in (*_TREES, "DET") for token in tokens)


def _work(name: str, behind: Sequence[Token], event: Fact) -> Work:
    started = behind[0].first
    return replace(Work(name, event.spot, dict(event.measures), DONE), span=(started, behind[-1].end))
