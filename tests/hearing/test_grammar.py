"""The grammar: no conflict settled in silence, and trees that are those of lark itself."""

from __future__ import annotations

import datetime as dt
import random
from typing import Any

import pytest
from lark import Lark, Tree
from lark.lexer import Lexer, Token

from benchmate.hearing import Ear
from benchmate.hearing.lattice.automaton import GRAMMAR, Node


class _NoLexer(Lexer):
    def __init__(self, conf: object) -> None:
        pass

    def lex(self, lexer_state: Any, parser_state: Any) -> Any:
        yield from ()


@pytest.fixture(scope="module")
def lark() -> Lark:
    # strict: lark raises on any shift/reduce or reduce/reduce conflict instead of choosing
    return Lark(GRAMMAR.read_text(encoding="utf-8"), parser="lalr", lexer=_NoLexer, strict=True)


def _plain(tree: Any) -> Any:
    if isinstance(tree, Tree):
        return (str(tree.data), [_plain(child) for child in tree.children])
    if isinstance(tree, Node):
        return (tree.name, [_plain(child) for child in tree.children])
    return str(tree)


def _random_sentence(ear: Ear, chance: random.Random) -> list[str]:
    """A sentence of token types that the table accepts, walked at random."""
    automaton = ear.automaton
    stack, tokens = automaton.start, []
    while len(tokens) < 40:
        if len(tokens) > 6 and automaton.ends(stack):
            break
        kind = chance.choice(sorted(automaton.expected(stack) - {"$END"}))
        after = automaton.step(stack, kind)
        assert after is not None
        stack, tokens = after, [*tokens, kind]
    return tokens if automaton.ends(stack) else []


def test_table_gives_the_trees_of_lark(lark: Lark, ear: Ear) -> None:
    chance = random.Random(7)
    sentences = [s for s in (_random_sentence(ear, chance) for _ in range(300)) if s]
    assert len(sentences) > 200
    for kinds in sentences:
        parser = lark.parse_interactive()
        for kind in kinds:
            parser.feed_token(Token(kind, kind))
        theirs = parser.feed_eof()
        ours = ear.automaton.tree([(kind, kind) for kind in kinds])
        assert _plain(ours) == _plain(theirs), kinds


def test_every_token_type_is_said_by_some_word(ear: Ear, lark: Lark) -> None:
    """A token type that no word, number or name can give is a dead branch of the grammar, and the other way round."""
    spoken = {kind for _, kind, _ in ear.lexicon.phrases(*[t.name for t in lark.terminals])}
    made = {"NUM", "ORD", "SHARE", "MEASURE", "NPK", "DATE", "NAME", "WORDS"}
    declared = {terminal.name for terminal in lark.terminals}
    assert declared - spoken - made == set()
    in_lexicon = {kind for _, kind, _ in ear.lexicon.phrases(*declared)}
    assert in_lexicon <= declared


def test_longest_talk_keeps_few_stacks(ear: Ear) -> None:
    """Prefixes of a long statement share their stacks: the search stays exact and small."""
    text = ", ".join(["the left branch is weak", "second flush hardened", "cut the right one back to two leaves"] * 15)
    reading = ear.hear(text, dt.date(2026, 6, 14))
    assert len(reading.work) == 15
    assert not reading.missed
