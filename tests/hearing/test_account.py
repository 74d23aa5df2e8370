"""No word is lost in silence: each is used, filler, guessed or missed, and any text gives a reading."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchmate.hearing import Ear, Reading

ON = dt.date(2026, 6, 14)
MARKS = {"used", "filler", "guessed", "missed"}

_WORDS = """
beech hornbeam weak strong not no the left right one cut wire wired take off back to two leaves can i when why
second flush hardened repotted in march since , ? and or because it them unicorn glimmer 8 mm half a third remind
me check next tree note scratch that option three weeks ago spring minus five percent candles needles
"""
_some_words = st.lists(
    st.sampled_from(_WORDS.split()),
    max_size=14,
).map(" ".join)


def _meant(reading: Reading) -> list[tuple[object, ...]]:
    """What a reading says, without where in the words it says it."""
    facts = [(f.kind, f.value, f.spot, f.denied) for f in reading.facts]
    return [*facts, *[(w.work, w.spot, w.done) for w in reading.work]]


@pytest.fixture(scope="module")
def shared(ear: Ear) -> Ear:
    return ear


@settings(max_examples=300, deadline=None)
@given(text=st.one_of(st.text(max_size=200), _some_words))
def test_any_text_gives_a_reading(shared: Ear, text: str) -> None:
    reading = shared.hear(text, ON)
    assert reading.said == text
    for missed in reading.missed:
        assert text[missed.span[0] : missed.span[1]].strip() == missed.words
    for fact in reading.facts:
        assert 0 <= fact.span[0] <= fact.span[1] <= len(text)


def test_a_statement_broken_off_gives_a_reading(shared: Ear) -> None:
    """Every statement of the corpus, its end left out behind one word or another, as it is and with an "'s"."""
    number = 0
    for path in sorted((Path(__file__).parent / "corpus").glob("*.toml")):
        for case in tomllib.loads(path.read_text(encoding="utf-8"))["case"]:
            words = case["say"].split()
            kept = " ".join(words[: 1 + number % len(words)])
            for said in (kept, f"{kept}'s"):
                assert shared.hear(said, ON).said == said
            number += 1


@settings(max_examples=200, deadline=None)
@given(text=_some_words)
def test_every_word_is_accounted_for(shared: Ear, text: str) -> None:
    words = shared.words(text)
    if not words:
        return
    found = shared.find(text, words, ON)
    assert len(found.marks) == len(words)
    assert set(found.marks) <= MARKS
    covered = sorted(n for token in found.tokens for n in range(token.first, token.end))
    assert len(covered) == len(set(covered)), "a word is used once"
    assert {n for n, mark in enumerate(found.marks) if mark in ("used", "guessed")} == set(covered)


@settings(max_examples=100, deadline=None)
@given(text=_some_words)
def test_reading_is_repeatable(shared: Ear, text: str) -> None:
    assert shared.hear(text, ON) == shared.hear(text, ON)


@pytest.mark.parametrize(
    ("said", "same"),
    [
        ("It isn't weak.", "it isnt weak"),
        ("What's due?", "whats due"),
        ("cut the right-hand one", "cut the right hand one"),
        ("Scots pine, candles are extending", "scots pine candles are extending"),
        ("that’s me done", "thats me done"),
    ],
)
def test_punctuation_and_case_do_not_matter(ear: Ear, said: str, same: str) -> None:
    first, second = ear.hear(said, ON), ear.hear(same, ON)
    assert first.acts == second.acts
    assert _meant(first) == _meant(second)


@pytest.mark.parametrize(("heard", "never"), [("unwire it", "wire"), ("wire it", "unwire"), ("pinch it", "bend")])
def test_opposites_are_heard_exactly(ear: Ear, heard: str, never: str) -> None:
    reading = ear.hear(heard, ON)
    assert [w.work for w in reading.work] != [never]
    assert not reading.guessed


@pytest.mark.parametrize(
    ("said", "word"),
    [("defoilated the elm", "defoilated"), ("repott the larch", "repott"), ("hornbean is weak", "hornbean")],
)
def test_a_guess_that_could_change_work_or_species_is_grave(ear: Ear, said: str, word: str) -> None:
    reading = ear.hear(said, ON)
    assert [(g.heard, g.grave) for g in reading.guessed] == [(word, True)]
    assert 0.7 < reading.guessed[0].likeness < 1


def test_denial_is_never_passed_over(ear: Ear) -> None:
    """A "not" that finds no place is missed, not filler."""
    for said in ("not", "cut not the left", "the wire not"):
        reading = ear.hear(said, ON)
        denied = any(f.denied for f in reading.facts) or any(w.done == "not" for w in reading.work)
        assert denied or any("not" in m.words for m in reading.missed), said
