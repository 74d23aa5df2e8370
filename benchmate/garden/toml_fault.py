"""What a TOML reader found wrong, in a grower's words."""

from __future__ import annotations

import re

from benchmate.garden.shapes import shown

_PLACE = re.compile(r" \(at (?:line (\d+), column \d+|end of document)\)")
_DAY_CUT = re.compile(r"=\s*\d{4}-\d{1,2}-\d{1,2}\b")
_KINDS = (
    (("Invalid date",), "no day of the calendar", "write a date as in 2026-06-14"),
    (
        ("Illegal character", "Unterminated", "Unescaped", "hex value", "Escaped character"),
        "words in quotes that do not end or hold a stray sign",
        'end the words with " on the same line, and write \\" for a quote inside them and \\\\ for a backslash',
    ),
    (("overwrite", "Duplicate", "twice", "mutate"), "the same key a second time", "keep one of the two"),
    (("Unclosed",), "a [ or { that is not closed", "close it on the same line"),
    (("must be a list",), "entries that are no list of tables", "begin each entry with a line [[entry]]"),
    (("Expected newline",), "more than one thing on a line", "write one key = value on a line"),
    (("recursion", "Exceeds the limit"), "tables or numbers beyond any measure", "write them plainly"),
)


def told(message: str, text: str) -> tuple[int, str, str]:
    """(line in the text, counted from 0; problem; remedy) for a message of the TOML reader."""
    match = _PLACE.search(message)
    lines = text.split("\n")
    row = int(match[1]) - 1 if match and match[1] else max(len(text.rstrip().split("\n")) - 1, 0)
    row = min(row, len(lines) - 1)
    found, remedy = "a line that cannot be read", 'write key = value, as in said = "repotted"'
    for signs, what, mends in _KINDS:
        if any(sign in message for sign in signs):
            found, remedy = what, mends
            break
    if _DAY_CUT.search(lines[row]) and "Expected newline" in message:  # "2026-05-1" reads as a number, and more
        found, remedy = "no day of the calendar", "write a date as in 2026-06-14"
    line = shown(lines[row].strip())
    return row, f"{found}: {line}" if line else found, remedy
