"""Entries of every shape, and how many rounds the long tests take."""

from __future__ import annotations

import datetime as dt
import os

from hypothesis import strategies as st

from benchmate.garden.record import Entry

ROUNDS = int(os.environ.get("BENCHMATE_ROUNDS", "1"))
"""Multiplies the rounds of fault and fuzz tests: `BENCHMATE_ROUNDS=40 pytest tests/garden` is the long run."""

_words = st.text(st.characters(codec="utf-8"), max_size=40)
_keys = st.text("abcdefghij_-0123456789", min_size=1, max_size=8) | st.text(min_size=1, max_size=5).map(
    lambda key: key.encode("utf-8", "replace").decode()
)
_days = st.dates(dt.date(1900, 1, 1), dt.date(2200, 12, 31))
_plain = st.one_of(
    _words,
    st.booleans(),
    st.integers(-(2**53), 2**53),
    st.floats(allow_nan=False),
    _days,
    st.datetimes(dt.datetime(1900, 1, 1)),
    st.datetimes(dt.datetime(1900, 1, 1), timezones=st.just(dt.UTC)),
    st.times(),
)
_values = st.recursive(
    _plain, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_keys, inner, max_size=3), max_leaves=6
)
_tables = st.lists(st.dictionaries(_keys, _values, max_size=4), max_size=3).map(tuple)
KNOWN = frozenset(Entry.__slots__) | {"end"}


def any_entry() -> st.SearchStrategy[Entry]:
    """Entries with anything in them that TOML can hold."""
    return st.builds(
        Entry,
        id=_words.filter(str.strip),
        at=_days | st.datetimes(dt.datetime(1900, 1, 1)),
        kind=st.sampled_from(("seen", "done", "plan", "left", "note", "struck")),
        said=_words,
        facts=_tables,
        work=_tables,
        measures=st.dictionaries(
            _keys, st.floats(allow_nan=False, allow_infinity=False) | st.integers(-9, 9), max_size=3
        ),
        reason=st.none() | _words.filter(bool),
        refused=st.lists(_words, max_size=3).map(tuple),
        follow=_tables,
        strikes=st.none() | _words.filter(bool),
        photo=st.none() | _words.filter(bool),
        when=st.none() | st.sampled_from(("2026", "2026-06", "2026-06-14", "2026-spring")),
        more=st.dictionaries(_keys.filter(lambda key: key not in KNOWN), _values, max_size=3),
    )


def said(words: str, day: dt.date = dt.date(2026, 6, 14)) -> Entry:
    """An entry that is nothing but words."""
    return Entry("", day, "note", words)
