"""Entries to text and back: nothing lost, nothing changed, by the quick way and by the TOML reader alike."""

from __future__ import annotations

import datetime as dt
import tomllib

import pytest
import tomli_w
from entries import ROUNDS, any_entry
from hypothesis import example, given, settings
from hypothesis import strategies as st
from orchard import entries_of

from benchmate.garden.append import tidy
from benchmate.garden.journal import read_journal
from benchmate.garden.pieces import Piece, read_piece, read_quickly, split
from benchmate.garden.quick import quick_table
from benchmate.garden.record import Entry
from benchmate.garden.toml_text import entry_text

LONG = settings(max_examples=30 * ROUNDS, deadline=None)


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


BY_HAND = """[[entry]]  # in spring
id = "2026-03-14-a"
  at = 2026-03-14T09:30:00   # in the morning
# a line of my own

kind = "done"
said = "repotted, \\"deep\\" pot"
work = [{work = "repot"}, {work = "root-prune", share = 0.33, on = 2026-03-14}]
measures = { height_mm = 410 }
refused = [
    "leave",
    "wire",
]
"""
LETTERS = "\"\\=,{}[]# \t\r\n\x00\x7f01-.:eTx_+é'"


@settings(max_examples=500 * ROUNDS, deadline=None)
@given(
    st.sampled_from((PLAIN, BY_HAND)),
    st.floats(0, 1),
    st.sampled_from(LETTERS) | st.characters(codec="utf-8"),
    st.booleans(),
)
@example(PLAIN, PLAIN.index("done") / len(PLAIN), '"', False)
def test_one_changed_letter_is_never_read_otherwise_than_as_toml(
    text: str, at: float, letter: str, put_in: bool
) -> None:
    place = int(at * len(text))
    text = text[:place] + letter + text[place + (not put_in) :]
    held = read_quickly(Piece(0, text))
    if held and held.tables:
        try:
            slow = tomllib.loads(text)["entry"]
        except (tomllib.TOMLDecodeError, KeyError):
            raise AssertionError(f"the quick way took what TOML refuses: {text}") from None
        assert repr(list(held.tables)) == repr(slow)


@pytest.mark.parametrize("text", [PLAIN, BY_HAND], ids=["own", "by hand"])
def test_the_quick_way_takes_plain_lines(text: str) -> None:
    held = read_quickly(Piece(0, text))
    assert held and list(held.tables) == tomllib.loads(text)["entry"]


@pytest.mark.parametrize("layout", ["lists in lines", "keys of keys"])
def test_entries_laid_out_otherwise_are_read_the_same(layout: str) -> None:
    entries = entries_of("laid out", 30)
    plain = read_journal("\n".join(map(entry_text, entries)).encode(), "journal.toml")
    tables = tomllib.loads("\n".join(map(entry_text, entries)))["entry"]
    laid_out = tomli_w.dumps({"entry": [{k: v for k, v in table.items() if k != "end"} for table in tables]})
    assert "work = [\n" in laid_out
    if layout == "keys of keys":
        laid_out = laid_out.replace('kind = "', '"kind" = "')
    read = read_journal(laid_out.encode(), "journal.toml")
    assert (read.entries, read.faults) == (plain.entries, ())
    broken = read_journal((laid_out + "\n[[entry]]\nid = x\n").encode(), "journal.toml")
    assert (broken.entries, len(broken.faults)) == (plain.entries, 1)


@settings(max_examples=500 * ROUNDS, deadline=None)
@given(st.text(st.sampled_from('[]{}=",\n\t# entrykid0129-.:T"\'\\\x00'), max_size=60))
def test_no_text_breaks_the_reading_of_pieces(text: str) -> None:
    for piece in split(text):
        read_piece(piece)
