"""Sentences of the bench, sampled: shapes filled with other terms of the same kind, and free walks of the grammar.

They are what the language model counts. The same seed gives the same sentences, so that a model can be built again.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence

from benchmate.hearing import Ear

from .core import Core
from .filler import VALUES, Filler
from .shapes import Shape, Slot
from .varied import Variation

SEED = 7
KEPT = 0.6  # share of places in which a shape keeps its own words
WALKED = 0.01  # share of sentences that are free walks of the grammar
CORE, WIDE = 0.12, 0.55  # shares of sentences drawn from what is said most, and from the ways round it
CORE_SET = "statement"
CONTRACTED = 0.5
WOKEN = 0.08  # share of sentences that begin with a wake word
LONGEST_WALK = 9
# Words that carry a sentence and are taken as the shape has them; their kinds hold forms that do not fit one another.
_FIXED = frozenset({"", "AUX", "SEP", "WORDS", "QCAN", "POSS", "OF", "TO", "NOTE", "CALLED", "PARTICLE", "BACKTO"})


def sample_sentences(
    shapes: Sequence[Shape],
    core: Core,
    wide: Core,
    filler: Filler,
    ear: Ear,
    count: int,
    wake: Sequence[str] = (),
    seed: int = SEED,
) -> Iterator[tuple[str, ...]]:
    """`count` sentences, each a tuple of words. wake: words that some of them begin with."""
    rng = random.Random(seed)
    short = _short_forms(ear.lexicon.short)
    for _ in range(count):
        drawn = rng.random()
        if drawn < WALKED:
            words = _walk(ear, filler, rng)
        elif drawn < WALKED + CORE or not shapes:
            words = core.draw(CORE_SET, rng)
        elif drawn < WALKED + CORE + WIDE:
            words = wide.draw(CORE_SET, rng)
        else:
            words = [word for slot in rng.choice(shapes) for word in _fill(slot, filler, rng)]
        if words:
            called = rng.choice(wake).split() if wake and rng.random() < WOKEN else []
            yield (*called, *_contract(_with_article(words), short, rng))


def vary_statements(
    statements: Sequence[Sequence[str]], variation: Variation, count: int, seed: int = SEED
) -> Iterator[tuple[str, ...]]:
    """`count` of the statements, one after the other, with other words of the same kind in them."""
    rng = random.Random(seed)
    for at in range(count if statements else 0):
        yield tuple(_with_article(list(variation.of(statements[at % len(statements)], rng))))


def _fill(slot: Slot, filler: Filler, rng: random.Random) -> tuple[str, ...]:
    if slot.kind in VALUES:
        return slot.words if rng.random() < KEPT / 2 else filler.vary(slot.words, slot.kind, rng)
    if slot.kind in _FIXED or rng.random() < KEPT:
        return slot.words
    return filler.draw(slot.kind, rng) or slot.words


def _walk(ear: Ear, filler: Filler, rng: random.Random) -> list[str]:
    """A sentence that the grammar takes, kinds drawn as often as the shapes have them."""
    automaton, stack = ear.automaton, ear.automaton.start
    words: list[str] = []
    for _ in range(LONGEST_WALK):
        kinds = sorted(kind for kind in automaton.expected(stack) if kind not in ("SEP", "WORDS") and kind[0] != "$")
        if not kinds or (words and automaton.ends(stack) and rng.random() < 0.3):
            break
        kind = rng.choices(kinds, [0.5 + filler.kinds[kind] ** 0.7 for kind in kinds])[0]
        after = automaton.step(stack, kind)
        drawn = filler.draw(kind, rng)
        if after is not None and drawn:
            stack = after
            words += drawn
    return words


def _short_forms(short: Mapping[str, str]) -> dict[tuple[str, ...], list[str]]:
    forms: dict[tuple[str, ...], list[str]] = {}
    for form, full in short.items():
        if "'" in form:
            forms.setdefault(tuple(full.split()), []).append(form)
    return forms


def _contract(words: Sequence[str], short: Mapping[tuple[str, ...], list[str]], rng: random.Random) -> Iterator[str]:
    words = _with_possessive(words)
    at = 0
    while at < len(words):
        pair = tuple(words[at : at + 2])
        if pair in short and rng.random() < CONTRACTED:
            yield short[pair][0]
            at += 2
        elif (
            words[at] == "not"
            or words[at].endswith("s")
            or words[at + 1 : at + 2] != ["is"]
            or at + 2 >= len(words)
            or rng.random() > 0.25
        ):
            yield words[at]
            at += 1
        else:
            yield f"{words[at]}'s"
            at += 2


def _with_possessive(words: Sequence[str]) -> list[str]:
    """ "'s" belongs to the word before it."""
    out: list[str] = []
    for word in words:
        if word == "'s" and out:
            out[-1] += word
        else:
            out.append(word)
    return out


def _with_article(words: Sequence[str]) -> list[str]:
    """ "a" before a vowel is "an"."""
    out = list(words)
    for at in range(len(out) - 1):
        if out[at] in ("a", "an"):
            out[at] = "an" if out[at + 1][0] in "aeio" else "a"
    return out
