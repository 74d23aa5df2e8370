"""The grammar as a table: lark builds it once, the search steps through it.

Stepping the LALR table here, rather than through lark, does two things: the search can try what a word may be without
paying for a parser copy, and a start that finds the compiled table never imports lark. A test holds the trees against
those of lark itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from benchmate.value import dataclass

GRAMMAR = Path(__file__).with_name("bench.lark")
END = "$END"
Stack = tuple[int, ...]
_Rule = tuple[str, int, str | None, bool]  # origin, length, alias, whether one child passes through


@dataclass(frozen=True, slots=True)
class Node:
    """A branch of the parse tree: the rule's alias or name, and what it holds."""

    name: str
    children: tuple[Any, ...]


def grammar_data() -> dict[str, Any]:
    """The LALR table of bench.lark as plain data (JSON). Imports lark; raises its GrammarError on a faulty grammar."""
    from lark import Lark
    from lark.grammar import Rule
    from lark.lexer import Lexer, TerminalDef

    class NoLexer(Lexer):
        """The spotter makes the tokens; lark never sees text."""

        def __init__(self, conf: object) -> None:
            pass

        def lex(self, lexer_state: Any, parser_state: Any) -> Any:
            yield from ()

    lark = Lark(GRAMMAR.read_text(encoding="utf-8"), parser="lalr", lexer=NoLexer)
    data, memo = lark.memo_serialize([TerminalDef, Rule])
    table = data["parser"]["parser"]
    tokens = {int(number): name for number, name in table["tokens"].items()}
    rules: list[list[Any]] = []
    numbers: dict[int, int] = {}
    for number, rule in memo.items():
        if rule["__type__"] == "Rule":
            numbers[int(number)] = len(rules)
            origin = rule["origin"]["name"]
            options = rule["options"]
            rules.append([origin, len(rule["expansion"]), rule["alias"], bool(options and options["expand1"])])
    states = {
        str(state): {
            tokens[int(t)]: [0, arg] if kind == 0 else [1, numbers[arg["@"]]] for t, (kind, arg) in row.items()
        }
        for state, row in table["states"].items()
    }
    ends = {"start": table["start_states"]["start"], "end": table["end_states"]["start"]}
    return {**ends, "rules": rules, "states": states}


class _States(dict[int, Mapping[str, tuple[int, int]]]):
    """Rows of the table by number, each fetched when a way first comes to it."""

    def __init__(self, rows: Mapping[str, Mapping[str, tuple[int, int]]]) -> None:
        self._rows = rows

    def __missing__(self, state: int) -> Mapping[str, tuple[int, int]]:
        row = self[state] = self._rows[str(state)]
        return row


class _Steps(dict[str, Stack | None]):
    """Where each token leads from one stack."""

    def __init__(self, states: _States, rules: Sequence[_Rule], end: int, stack: Stack) -> None:
        self._states, self._rules, self._end, self._stack = states, rules, end, stack

    def __missing__(self, token: str) -> Stack | None:
        after = self[token] = self._after(token)
        return after

    def _after(self, token: str) -> Stack | None:
        states = list(self._stack)
        while True:
            action = self._states[states[-1]].get(token)
            if action is None:
                return None
            kind, arg = action
            if kind == 0:
                return (*states, arg)
            origin, size, _, _ = self._rules[arg]
            if size:
                del states[-size:]
            goto = self._states[states[-1]].get(origin)
            if goto is None:
                return None
            states.append(goto[1])
            if goto[1] == self._end:
                return tuple(states)


class Automaton:
    """Steps of the LALR table on stacks of state numbers. Steps are remembered, since the same few occur again."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self._rules: list[_Rule] = [tuple(rule) for rule in data["rules"]]
        self._states = _States(data["states"])
        self.start: Stack = (int(data["start"]),)
        self._end = int(data["end"])
        self._steps: dict[Stack, _Steps] = {}

    def step(self, stack: Stack, token: str) -> Stack | None:
        """The stack after `token`, or None where the grammar does not take it there."""
        return self.steps(stack)[token]

    def steps(self, stack: Stack) -> Mapping[str, Stack | None]:
        """token -> the stack after it, or None: for every token, worked out when it is first asked for."""
        known = self._steps.get(stack)
        if known is None:
            if len(self._steps) > 5_000:  # a long talk must not grow without end
                self._steps.clear()
            known = self._steps[stack] = _Steps(self._states, self._rules, self._end, stack)
        return known

    def ends(self, stack: Stack) -> bool:
        """Whether the sentence may end here."""
        return self.step(stack, END) is not None

    def expected(self, stack: Stack) -> frozenset[str]:
        """The token types that may come next."""
        return frozenset(t for t in self._states[stack[-1]] if t.isupper() and self.step(stack, t) is not None)

    def tree(self, tokens: Sequence[tuple[str, Any]]) -> Node:
        """The parse tree of a token sequence, shaped as lark shapes it: `_rule` spliced in, `?rule` of one child passed
        through. tokens: (type, leaf); the leaf is kept as it is. Raises ValueError where they do not parse."""
        states, values = [*self.start], []
        for token, leaf in [*tokens, (END, None)]:
            while True:
                action = self._states[states[-1]].get(token)
                if action is None:
                    raise ValueError(f"no parse at {token}")
                kind, arg = action
                if kind == 0:
                    states.append(arg)
                    values.append(leaf)
                    break
                values.append(self._reduce(states, values, arg))
                goto = self._states[states[-1]][self._rules[arg][0]]
                states.append(goto[1])
                if goto[1] == self._end:
                    break
        root: Node = values[0]
        return root

    def _reduce(self, states: list[int], values: list[Any], number: int) -> Node | Any:
        origin, size, alias, expand = self._rules[number]
        taken = values[len(values) - size :]
        if size:
            del states[-size:]
            del values[-size:]
        children: list[Any] = []
        for child in taken:
            if isinstance(child, Node) and child.name.startswith("_"):
                children += child.children
            else:
                children.append(child)
        if expand and len(children) == 1 and not alias:
            return children[0]
        return Node(alias or origin, tuple(children))
