"""What rules, cautions and species say is told in both hemispheres: seasons, no months."""

from __future__ import annotations

import calendar
import re
from collections.abc import Iterator

from example_runner import built

# "may" and "march" are words of their own, so a month is known by its capital inside a sentence
MONTHS = re.compile(r"(?<=[a-z,;] )(" + "|".join(calendar.month_name[1:]) + r")\b")


def said(value: object, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            if key in ("says", "short") and isinstance(inner, str):
                yield f"{path}: {value.get('id', value.get('taxon', ''))}", inner
            elif key != "example":
                yield from said(inner, path)
    elif isinstance(value, list):
        for inner in value:
            yield from said(inner, path)


def test_no_sentence_that_is_told_names_a_month() -> None:
    tables, _, _ = built()
    told = [
        (where, words)
        for name, table in tables.tables.items()
        if name.startswith(("practice/", "cautions/", "species/", "planning/"))
        for where, words in said(table, name)
    ]
    assert len(told) > 1000
    assert not [(where, words) for where, words in told if MONTHS.search(words)]
