"""The search for the reading that takes in most: the cheapest way through the lattice that the grammar accepts.

A way either takes a token, passes over a word (filler is cheap, a word that says something is dear and counts as
missed) or puts in a pause that was not spoken. Costs add up, and two ways at the same word with the same parser stack
can only go on alike, so keeping the cheaper of them loses nothing: the search is exact.
"""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import dataclass

from ..vocabulary.lexicon import END, Lexicon
from ..vocabulary.words import Word
from .automaton import Automaton, Stack
from .opening import JOINERS, STOPS, opens
from .spotting import Token

PAUSE = 3.5
FILLER, FILLER_TERM, LITTLE, COMMA, STOP = 0.2, 2.5, 4.0, 26.0, 50.0
MISSED, MISSED_DENIAL = 20.0, 45.0
# passing over "and" behind a missed word ("I came back from holiday and the soil is dry"), or over "the" between two
# things ("on the leader the wire is loose")
RUN_ON = 14.0
DETERMINERS = frozenset({"the", "my", "its"})
NAMED = frozenset({"PART", "SPECIES", "NAME"})
KEPT_WAYS = 48  # stacks kept at a word; far more than talk at the bench needs


@dataclass(frozen=True, slots=True)
class Way:
    """A way to a word: what it cost and its last step. token is None where words were passed over; missed tells
    whether they said something."""

    cost: float
    before: Way | None
    token: Token | None
    first: int
    end: int
    missed: bool = False


@dataclass(frozen=True, slots=True)
class Found:
    """The best way through: its tokens in order, and for each word whether it was used, filler or missed."""

    tokens: tuple[Token, ...]
    marks: tuple[str, ...]
    cost: float


def find_reading(
    words: Sequence[Word], lattice: Sequence[Sequence[Token]], automaton: Automaton, lexicon: Lexicon
) -> Found:
    """The cheapest accepted way. There is always one, since every word can be passed over."""
    ways: list[dict[Stack, Way]] = [{} for _ in range(len(words) + 1)]
    ways[0][automaton.start] = Way(0.0, None, None, 0, 0)
    for at in range(len(words) + 1):
        here = ways[at]
        if at == len(words):
            break
        if len(here) > KEPT_WAYS:
            near = sorted(here.items(), key=lambda item: item[1].cost)
            whole = next((item for item in near if automaton.ends(item[0])), near[0])  # so that one way is left
            here = dict([*near[:KEPT_WAYS], whole])
        _pause(here, automaton, at)
        passes = _passes(words, lattice[at], lexicon, at)
        joins = words[at].text in JOINERS and words[at].text != ","
        tokens = _cheapest(lattice[at])
        for stack, way in here.items():
            steps = automaton.steps(stack)
            for token in tokens:
                after = steps[token.kind]
                if after is not None:
                    _keep(ways[token.end], after, way.cost + token.cost, way, token, at, token.end, False)
            run_on = RUN_ON if joins and way.missed else 0.0
            if words[at].text in DETERMINERS and way.token is not None and way.token.kind in NAMED:
                run_on = RUN_ON
            for end, cost, missed in passes:
                _keep(ways[end], stack, way.cost + cost + run_on, way, None, at, end, missed)
    ended = [way for stack, way in ways[-1].items() if automaton.ends(stack)]
    return _trace(min(ended, key=lambda way: way.cost), len(words))


def _cheapest(tokens: Sequence[Token]) -> list[Token]:
    """Of tokens that are the same to the grammar the cheapest, the first of its like."""
    best: dict[tuple[str, int], Token] = {}
    for token in tokens:
        known = best.setdefault((token.kind, token.end), token)
        if token.cost < known.cost:
            best[token.kind, token.end] = token
    return list(best.values())


def _keep(
    ways: dict[Stack, Way],
    stack: Stack,
    cost: float,
    before: Way,
    token: Token | None,
    first: int,
    end: int,
    missed: bool,
) -> None:
    known = ways.get(stack)
    if known is None or cost < known.cost:
        ways[stack] = Way(cost, before, token, first, end, missed)


def _pause(here: dict[Stack, Way], automaton: Automaton, at: int) -> None:
    """Let every way here also go on behind a pause."""
    if at == 0:
        return
    for stack, way in list(here.items()):
        after = automaton.step(stack, "SEP")
        if after is not None:
            _keep(here, after, way.cost + PAUSE, way, Token("SEP", "pause", at, at, PAUSE), at, at, False)


def _passes(words: Sequence[Word], tokens: Sequence[Token], lexicon: Lexicon, at: int) -> list[tuple[int, float, bool]]:
    """(end, cost, missed) of passing over the word at `at`, alone or as the head of a filler phrase."""
    word = words[at].text
    exact = any(not token.guesses for token in tokens)
    out: list[tuple[int, float, bool]] = []
    node, end = lexicon.filler, at
    while end < len(words) and words[end].text in node:
        node = node[words[end].text]
        end += 1
        if END in node and words[end - 1].text == "," and not opens(lexicon, [word.text for word in words], at):
            continue  # "right, so ..." opens a sentence; "on the right, 9 mm thick" does not
        if END in node:
            alone = end == at + 1
            out.append((end, FILLER_TERM if exact and alone else FILLER * (end - at) + (0.9 if exact else 0.0), False))
    if not word[0].isalnum() and word != "'s":
        out.append((at + 1, STOP if word in STOPS else COMMA, False))
    elif any(token.kind == "AUX" and token.value == "not" for token in tokens):
        out.append((at + 1, MISSED_DENIAL, True))
    elif word in lexicon.little:
        out.append((at + 1, LITTLE, False))
    else:
        out.append((at + 1, MISSED, True))
    return out


def _trace(way: Way, size: int) -> Found:
    tokens: list[Token] = []
    marks = ["filler"] * size
    step: Way | None = way
    while step is not None:
        if step.token is not None:
            tokens.append(step.token)
            marks[step.first : step.end] = ["guessed" if step.token.guesses else "used"] * (step.end - step.first)
        elif step.missed:
            marks[step.first : step.end] = ["missed"] * (step.end - step.first)
        step = step.before
    return Found(tuple(reversed(tokens)), tuple(marks), way.cost)
