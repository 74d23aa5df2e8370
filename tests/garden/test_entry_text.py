"""Entries to text and back: nothing lost, nothing changed, by the quick way and by the TOML reader alike."""

from __future__ import annotations

import datetime as dt
import tomllib

from entries import ROUNDS, any_entry
from hypothesis import example, given, settings
from hypothesis import strategies as st

from benchmate.garden.append import tidy
from benchmate.garden.journal import read_journal
from benchmate.garden.pieces import read_piece, split
from benchmate.garden.quick import quick_table
from benchmate.garden.record import Entry
from benchmate.garden.toml_text import entry_text

LONG = settings(max_examples=100 * ROUNDS, deadline=None)


@LONG
@given(st.lists(any_entry(), max_size=4, unique_by=lambda entry: entry.id))
def test_written_read_and_written_again_is_the_same(entries: list[Entry]) -> None:
    entries = [tidy(entry) for entry in entries]
    text = "\n".join(map(entry_text, entries))
    journal = read_journal(text.encode(), "journal.toml")
    assert journal.faults == ()
    again = "\n".join(map(entry_text, journal.entries))
    assert again == text
    assert read_journal(again.encode(), "journal.toml").entries == journal.entries


@LONG
@given(any_entry())
def test_the_quick_way_agrees_with_the_toml_reader(entry: Entry) -> None:
    text = entry_text(tidy(entry))
    slow = tomllib.loads(text)["entry"][0]
    quick = quick_table(text.rstrip("\n").split("\n")[1:])
    assert quick is None or repr(quick) == repr(slow)


PLAIN = entry_text(
    Entry(
        "2026-06-14-k3f9x2",
        dt.date(2026, 6, 14),
        "done",
        'cut the "left" one back\tto two leaves',
        facts=({"kind": "flush", "value": 2, "not": True},),
        work=({"work": "shorten", "side": "left", "leaves": 2.0}, {"work": "remove", "share": 1e-05}),
        measures={"height_mm": 410},
        follow=({"work": "check", "on": dt.date(2026, 7, 5), "says": "# look, again"},),
        refused=("leave",),
    )
)


def test_the_quick_way_takes_what_the_program_writes() -> None:
    lines = PLAIN.rstrip("\n").split("\n")[1:]
    assert quick_table(lines) == tomllib.loads(PLAIN)["entry"][0]


@settings(max_examples=1000 * ROUNDS, deadline=None)
@given(
    st.integers(0, len(PLAIN) - 1),
    st.sampled_from('"\\=,{}[]# \t\r\n\x00\x7f01-.:eTx_+é"') | st.characters(),
    st.booleans(),
)
@example(PLAIN.index("done"), '"', False)
def test_one_changed_letter_is_never_read_otherwise_than_as_toml(at: int, letter: str, put_in: bool) -> None:
    text = PLAIN[:at] + letter + PLAIN[at + (not put_in) :]
    quick = quick_table(text.rstrip("\n").split("\n")[1:]) if "\r" not in text else None
    if quick is not None:
        try:
            slow = tomllib.loads("[[entry]]\n" + text.split("\n", 1)[1])
        except tomllib.TOMLDecodeError:
            raise AssertionError(f"the quick way took what TOML refuses: {text}") from None
        assert repr(quick) == repr(slow["entry"][0])


@settings(max_examples=500 * ROUNDS, deadline=None)
@given(st.text(st.sampled_from('[]{}=",\n\t# entrykid0129-.:T"\'\\\x00'), max_size=60))
def test_no_text_breaks_the_reading_of_pieces(text: str) -> None:
    for piece in split(text):
        read_piece(piece)
