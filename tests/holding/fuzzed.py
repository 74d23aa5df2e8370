"""Statements of every kind, drawn by chance, and what is wrong with what comes of one: an answer or one plain line."""

from __future__ import annotations

import datetime as dt
import json
import random
import re
import traceback
from collections.abc import Sequence

from benchmate.fault import UserError
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import as_json, lay, tell
from benchmate.telling.heard import heard_lines

ON = dt.date(2026, 6, 14)
NOISE = [
    *("0", "-1", "1e308", "99999999999999999999", "3/0", "1/3", "8 mm", "400 degrees", "-5 C", "30.02.2026"),
    *("2026-02-30", "next february 30th", "'s", "n't", "...", "?", "!", ",", "and", "not", "no", "so", "then", "if"),
    *("\u202e", "\u00e9", "ﬁ", "İ", "ß", "\U0001f333", "日本", "\u0300", "\ufeff", "\u2028", '"', "'", "[[entry]]"),
    *("Ratchet", "Old Salt", "call it", "note:", "remind me to", "what does", "mean", "F1", "%", "½", "٣", "that one"),
]
# what a page break or a broken sender puts in; refused in one line
REFUSED = ["\x00", "\x1b[31m", "\x07", "\ud800"]
UNSEEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
_SHAPES = (
    "{0}",
    "{0}.{1}",
    "{0},{1}",
    "{0}/{1}",
    "{0}-{1}",
    "{0}e{1}",
    "{0} to {1}",
    "{0}.{1}.{2}",
    "{0}x{1}",
    "{0}'{1}\"",
)
_UNITS = (
    "",
    "mm",
    " cm",
    " inch",
    '"',
    "'",
    "%",
    " degrees",
    " C",
    " days",
    " weeks",
    " years",
    "th",
    "ml",
    " kg",
    " ppm",
)
_FILL = (" ", "\n", "x", "leaf ", "not ", "1 ", "(", "3/4 ", "and ", "wire the ")


def vocabulary(house: House) -> list[str]:
    """Every phrase of the lexicon, and what no lexicon holds."""
    found: set[str] = set()
    todo = [house.lexicon.trie]
    while todo:
        node = todo.pop()
        for key in node:
            if key:
                todo.append(node[key])
            else:
                found.update(kind for kind, _ in node[key])
    return sorted({words for words, _, _ in house.lexicon.phrases(*found)}) + NOISE


def statement(chance: random.Random, words: Sequence[str]) -> str:
    """Terms in any order; some mistyped, with numbers, letters of all scripts or control characters; some very long."""
    said = " ".join(chance.choice(words) for _ in range(chance.randint(1, 12)))
    kind = chance.random()
    if kind < 0.15:
        return mistyped(chance, said)
    if kind < 0.2:
        return "".join(chance.choice("abcdefg hijk'-.,?0123456789/%") for _ in range(chance.randint(0, 60)))
    if kind < 0.22:
        return said * chance.randint(2, 60)
    if kind < 0.25:
        return said + chance.choice(REFUSED)
    if kind < 0.33:
        return among(chance, said, [number(chance) for _ in range(chance.randint(1, 6))])
    if kind < 0.38:
        return among(chance, said, ["".join(letter(chance) for _ in range(chance.randint(1, 9))) for _ in range(3)])
    if kind < 0.41:
        return among(chance, mistyped(chance, said), [number(chance), letter(chance), chance.choice(REFUSED)])
    if kind < 0.42:
        return chance.choice(_FILL) * chance.randint(100, 4000)
    return said


def mistyped(chance: random.Random, said: str) -> str:
    """Letters lost, doubled and mistaken."""
    letters = list(said)
    for _ in range(chance.randint(1, 6)):
        if letters:
            at = chance.randrange(len(letters))
            letters[at : at + 1] = chance.choice([[], [letters[at]] * 2, [chance.choice("aeiourstn ")]])
    return "".join(letters)


def among(chance: random.Random, said: str, pieces: Sequence[str]) -> str:
    words = said.split(" ")
    for piece in pieces:
        words.insert(chance.randint(0, len(words)), piece)
    return " ".join(words)


def number(chance: random.Random) -> str:
    first = chance.choice([chance.randint(0, 99), chance.randint(-(10**6), 10**6), 10 ** chance.randint(1, 400)])
    return chance.choice(_SHAPES).format(first, chance.randint(0, 99), chance.randint(0, 3000)) + chance.choice(_UNITS)


def letter(chance: random.Random) -> str:
    return chr(chance.choice([chance.randrange(0x250), chance.randrange(0x10000), chance.randrange(0x110000)]))


def wrong_hearing(house: House, said: str) -> str:
    """What goes wrong when a statement is only heard, as a line of a file is; "" where nothing does."""
    try:
        reading = house.hear(said, ON)
        told = lay(heard_lines(reading, ON), 80)
        json.dumps(reading.as_json())
    except Exception:
        return traceback.format_exc()
    return f"unseen characters: {told!r}" if UNSEEN.search(told) else ""


def wrong_answer(bench: Bench, said: str) -> str:
    """What goes wrong when a statement is answered and told; "" where nothing does."""
    try:
        answer = bench.answer(said)
        told = lay(tell(answer), 80)
        json.dumps(as_json(answer, told))
    except UserError as error:
        told = str(error)
        if "\n" in told:
            return f"a fault over several lines: {told}"
    except Exception:
        return traceback.format_exc()
    return f"unseen characters: {told!r}" if UNSEEN.search(told) else ""
