"""From recognised words to a reading: what was not heard for certain goes in as a guess, and guesses are read back.

Three things make a word unsure: the recogniser's own confidence in it; a rival, another run of words that fits the
sound about as well; and a pause beside it that would part clauses, where it may have been none. What means the same
raises no doubt.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any

from benchmate.hearing import Ear, Guess, Reading

Spans = list[tuple[int, int]]
Written = tuple[str, Spans]
SURE = 0.5  # confidence from which a word needs no asking
PAUSE_S = 0.18  # a silence that long inside a statement is a comma, where the ear reads it no worse with one
BREATH_S = 0.06  # one that long may be a comma
CLOSE = 1.0  # how much more another way of setting commas may cost the ear and still raise doubt


@dataclass(frozen=True, slots=True)
class HeardWord:
    """word: as it is written. confidence: 0 to 1. pause_s: silence before it, seconds."""

    word: str
    confidence: float = 1.0
    pause_s: float = 0.0


def heard_words(
    words: Sequence[HeardWord],
    ear: Ear,
    on: dt.date,
    southern: bool = False,
    names: Sequence[str] = (),
    first_frost: str | None = None,
    rivals: Sequence[str] = (),
) -> Reading:
    """The reading of what was said aloud. Unsure words are in `guessed`, each of them grave: nothing is logged on them.

    rivals: other words that fit the sound about as well. The other arguments are those of `Ear.hear`.
    """
    (text, spans), others = _written(words, ear, on, names)
    reading = ear.hear(text, on, southern, names, first_frost)
    sense = _sense(reading)
    doubts: dict[tuple[int, int], Guess] = {}
    for other, places in others:
        if _sense(ear.hear(other, on, southern, names, first_frost)) == sense:
            continue
        for at, span in enumerate(spans):
            if (text[span[1] :][:1] == ",") != (other[places[at][1] :][:1] == ","):
                doubts[span] = Guess(words[at].word, words[at].word, SURE, span, grave=True)
    for word, span in zip(words, spans, strict=True):
        if word.confidence < SURE:
            doubts[span] = Guess(word.word, word.word, word.confidence, span, grave=True)
    for rival in rivals:
        if _sense(ear.hear(rival, on, southern, names, first_frost)) == sense:
            continue
        for first, end, other in _differences([word.word for word in words], rival.split()):
            for at in range(first, end):
                likeness = min(words[at].confidence, SURE)
                doubts[spans[at]] = Guess(other or words[at].word, words[at].word, likeness, spans[at], grave=True)
    known = {guess.span for guess in reading.guessed}
    added = tuple(guess for span, guess in sorted(doubts.items()) if span not in known)
    return replace(reading, guessed=(*(replace(guess, grave=True) for guess in reading.guessed), *added))


def _written(words: Sequence[HeardWord], ear: Ear, on: dt.date, names: Sequence[str]) -> tuple[Written, list[Written]]:
    """(the text with the commas that suit the ear best, other ways of setting them that come close)."""
    forms: dict[str, Spans] = {}
    for least in (PAUSE_S, BREATH_S, math.inf):
        text, spans = _with_commas(words, least)
        forms.setdefault(text, spans)
    if len(forms) == 1:
        return next(iter(forms.items())), []
    costs = {text: ear.find(text, ear.words(text), on, names=names).cost for text in forms}
    best = min(costs, key=lambda text: costs[text])  # of two that cost the same the one with the commas heard
    near = [(text, forms[text]) for text in forms if text != best and costs[text] <= costs[best] + CLOSE]
    return (best, forms[best]), near


def _with_commas(words: Sequence[HeardWord], least: float) -> Written:
    """The text with a comma at each pause of `least` seconds or more, and each word's place in it."""
    text, spans = "", []
    for at, word in enumerate(words):
        if at:
            text += ", " if word.pause_s >= least else " "
        spans.append((len(text), len(text) + len(word.word)))
        text += word.word
    return text, spans


def _differences(words: Sequence[str], rival: Sequence[str]) -> Iterator[tuple[int, int, str]]:
    """(first, end, the rival's words) of each stretch that differs; where the rival has words more, the ones beside."""
    for what, first, end, start, stop in SequenceMatcher(None, words, rival, autojunk=False).get_opcodes():
        if what == "insert":
            near = max(0, first - 1), min(len(words), first + 1)
            yield near[0], near[1], " ".join(rival[start:stop])
        elif what != "equal":
            yield first, end, " ".join(rival[start:stop])


def _sense(reading: Reading) -> Any:
    """The reading without its words and their places: what would be logged, asked or answered.

    Where the ear reads nothing the words themselves count: a "no" must never be taken for a "yes" unasked.
    """
    if not reading.acts:
        return reading.said
    return replace(
        reading,
        said="",
        facts=tuple(replace(fact, span=(0, 0)) for fact in reading.facts),
        work=tuple(replace(work, span=(0, 0)) for work in reading.work),
        candidates=tuple(replace(fact, span=(0, 0)) for fact in reading.candidates),
        supposes=tuple(replace(work, span=(0, 0)) for work in reading.supposes),
        missed=(),
        guessed=(),
        reason=None,
        series=(),
    )
