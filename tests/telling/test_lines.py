"""Laying lines: nothing broken, nothing lost, nothing obeyed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmate.telling.lines import ANSWER, CAUTION, Line, columns, cut_short, escape, lay, wrap

WORDS = st.lists(
    st.text(alphabet=st.characters(codec="utf-8", categories=("L", "N", "P")), min_size=1, max_size=30),
    min_size=1,
    max_size=40,
)


@given(WORDS, st.sampled_from([20, 40, 80, 120]), st.integers(0, 4))
def test_every_word_stays_whole_and_in_order(words, width, indent):
    rows = wrap(Line(" ".join(words), lead="- ", indent=indent), width)
    back = " ".join(rows).split()
    assert back == ["-", *words]


@given(WORDS, st.sampled_from([20, 40, 80, 120]))
def test_a_row_is_too_wide_only_for_one_long_word(words, width):
    for row in wrap(Line(" ".join(words)), width):
        assert columns(row) <= width or len(row.split()) == 1


@given(st.text())
def test_escaped_words_hold_no_control_character(words):
    shown = escape(words)
    assert shown.isprintable() or not any(ord(c) < 32 or 127 <= ord(c) < 160 for c in shown)
    assert "\x1b" not in shown and "\u202e" not in shown


@pytest.mark.parametrize(
    "raw, shown",
    [
        ("wire\x1b[2Jit", "wire\\x1b[2Jit"),
        ("one\ntwo", "one two"),
        ("a\u202eb", "a\\u202eb"),
        ("bell\x07", "bell\\x07"),
        ("caf\u00e9 9 mm", "caf\u00e9 9 mm"),
    ],
)
def test_control_characters_are_shown_not_obeyed(raw, shown):
    assert escape(raw) == shown


def test_further_rows_hang_under_the_words():
    rows = wrap(Line("shorten the left branch to two leaves and leave the rest", lead="1  "), 24)
    assert rows[0].startswith("1  shorten")
    assert all(row.startswith("   ") for row in rows[1:])


def test_weight_only_where_asked_and_words_the_same_without_it():
    lines = [Line("Yes: wire it.", ANSWER), Line("Sap burns skin.", CAUTION, "! ")]
    plain, lit = lay(lines, 40), lay(lines, 40, lit=True)
    assert "\x1b" not in plain
    stripped = lit.replace("\x1b[1;7m", "").replace("\x1b[1m", "").replace("\x1b[0m", "")
    assert stripped == plain and lit != plain


def test_no_colour_is_used_even_when_lit():
    lit = lay([Line("Yes.", ANSWER), Line("Sap burns.", CAUTION, "! ")], 40, lit=True)
    codes = {part.split("m")[0] for part in lit.split("\x1b[")[1:]}
    assert codes <= {"0", "1", "1;7"}


def test_long_words_are_shortened_with_their_length():
    assert cut_short("x" * 10_000) == "x" * 60 + " ... (10,000 characters)"
    assert cut_short("short") == "short"
