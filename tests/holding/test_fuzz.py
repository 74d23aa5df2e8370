"""Whatever is said and whatever the garden's files hold: an answer or one plain line, never a traceback.

A few hundred tries here; `FUZZ=100000 python -m pytest tests/holding/test_fuzz.py` for the long run.
"""

import contextlib
import datetime as dt
import io
import json
import os
import random
import re
import shutil
import traceback
from pathlib import Path

import pytest
from holding_files import DEMO, ROOT

from benchmate import cli
from benchmate.fault import UserError
from benchmate.garden import check_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import as_json, lay, tell

TRIES = int(os.environ.get("FUZZ", "300"))
SEED = int(os.environ.get("FUZZ_SEED", "2026"))
ON = dt.date(2026, 6, 14)
NOISE = [
    *("0", "-1", "1e308", "99999999999999999999", "3/0", "1/3", "8 mm", "400 degrees", "-5 C", "30.02.2026"),
    *("2026-02-30", "next february 30th", "'s", "n't", "...", "?", "!", ",", "and", "not", "no", "so", "then", "if"),
    *("\u202e", "\u00e9", "ﬁ", "İ", "ß", "\U0001f333", "日本", "\u0300", "\ufeff", "\u2028", '"', "'", "[[entry]]"),
    *("Ratchet", "Old Salt", "call it", "note:", "remind me to", "what does", "mean", "F1", "%", "½", "٣", "that one"),
]
# what a page break or a broken sender puts in; refused in one line
REFUSED = ["\x00", "\x1b[31m", "\x07", "\ud800"]


def vocabulary(house):
    return sorted({words for words, _, _ in house.lexicon.phrases(*_types(house))}) + NOISE


def _types(house):
    found = set()
    todo = [house.lexicon.trie]
    while todo:
        node = todo.pop()
        for key in node:
            if key:
                todo.append(node[key])
            else:
                found.update(kind for kind, _ in node[key])
    return found


def statement(chance, words):
    kind = chance.random()
    said = " ".join(chance.choice(words) for _ in range(chance.randint(1, 12)))
    if kind < 0.15:  # letters lost, doubled and swapped
        letters = list(said)
        for _ in range(chance.randint(1, 6)):
            at = chance.randrange(len(letters))
            letters[at : at + 1] = chance.choice([[], [letters[at]] * 2, [chance.choice("aeiourstn ")]])
        said = "".join(letters)
    elif kind < 0.2:
        said = "".join(chance.choice("abcdefg hijk'-.,?0123456789/%") for _ in range(chance.randint(0, 60)))
    elif kind < 0.22:
        said = said * chance.randint(2, 60)
    elif kind < 0.25:
        said += chance.choice(REFUSED)
    return said


def test_any_statement_has_an_answer_or_one_plain_line(tmp_path):
    """One talk after another, each with a context of its own growing."""
    garden = tmp_path / "garden"
    shutil.copytree(DEMO, garden, ignore=shutil.ignore_patterns(".benchmate"))
    house = House(garden)
    words = vocabulary(house)
    chance = random.Random(SEED)
    bench = Bench(house, ON)
    for number in range(TRIES):
        if number % 40 == 0:
            bench = Bench(house, ON, dry=number % 80 == 0)
        said = statement(chance, words)
        try:
            answer = bench.answer(said)
            told = lay(tell(answer), 80)
            json.dumps(as_json(answer, told))
        except UserError as error:
            told = str(error)
            assert "\n" not in told, repr(said)
        except Exception:
            pytest.fail(f"{said!r} (try {number}): {traceback.format_exc()}")
        assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u202e]", told), (said, told)
    assert check_garden(garden) == []


def harm(chance, path):
    """Damage one file of a garden; what was done, in words."""
    body = path.read_bytes()
    at = chance.randrange(len(body)) if body else 0
    lines = body.split(b"\n")
    row = chance.randrange(len(lines))
    ways = {
        "cut": lambda: body[:at],
        "byte": lambda: body[:at] + bytes([chance.randrange(256)]) + body[at + 1 :],
        "bytes": lambda: body[:at] + chance.randbytes(chance.randint(1, 20)) + body[at:],
        "line gone": lambda: b"\n".join(lines[:row] + lines[row + 1 :]),
        "line twice": lambda: b"\n".join(lines[: row + 1] + lines[row:]),
        "type": lambda: _retyped(chance, lines, row),
        "key": lambda: b"\n".join([*lines[:row], b"vedict = [1, {a = 2}]", *lines[row:]]),
        "empty": lambda: b"",
        "quote": lambda: body.replace(b'"', b"", 1),
        "huge": lambda: body + b"x = [" + b"1, " * 20_000 + b"]\n",
        "bom": lambda: b"\xef\xbb\xbf" + body,
    }
    kind = chance.choice(list(ways))
    path.write_bytes(ways[kind]())
    return f"{kind} at {at} or line {row + 1} of {path.name}"


def _retyped(chance, lines, row):
    name, equals, _ = lines[row].partition(b" = ")
    value = chance.choice([b"1", b'"words"', b"[]", b"{}", b"true", b"2026-13-40", b"-1e400", b"[[1]]", b"1979-05-27"])
    return b"\n".join([*lines[:row], name + equals + value if equals else lines[row], *lines[row + 1 :]])


ASKED = [
    ["say", "second flush, two competing leaders, what now", "--tree", "{tree}"],
    ["say", "cut the left branch back to two leaves", "--tree", "{tree}"],
    ["record", "{tree}"],
    ["record", "{tree}", "--json"],
    ["sheet", "{tree}", "--out", "-"],
    ["sheet", "{tree}", "--text"],
    ["due"],
    ["check"],
    ["calendar"],
    ["export", "{tree}"],
    ["plan", "{tree}", "--years", "1"],
]


def run(words):
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = cli.main(words)
        except SystemExit as left:
            status = left.code
    return status, out.getvalue(), err.getvalue()


def test_any_damage_to_a_garden_is_told_in_one_plain_line(tmp_path, monkeypatch):
    """Each try damages one file or two of a garden with one tree, and asks two things of it."""
    monkeypatch.chdir(tmp_path)
    chance = random.Random(SEED)
    trees = sorted(path.parent for path in DEMO.glob("*/tree.toml"))
    known = {command for command in _commands()}
    asked = [words for words in ASKED if words[0] in known]
    for number in range(max(1, TRIES // 5)):
        home = tmp_path / f"garden-{number % 4}"
        shutil.rmtree(home, ignore_errors=True)
        tree = chance.choice(trees)
        shutil.copytree(tree, home / tree.name)
        shutil.copy(DEMO / "garden.toml", home / "garden.toml")
        files = sorted(home.rglob("*.toml"))
        done = [harm(chance, path) for path in chance.sample(files, chance.choice([1, 1, 2]))]
        for words in chance.sample(asked, 2):
            words = [word.replace("{tree}", tree.name) for word in words]
            status, out, err = run([*words, "--garden", str(home), "--on", ON.isoformat()])
            what = f"try {number}: {done}; {words}: {out[-300:]} {err}"
            assert status in (0, 1), what
            assert "Traceback" not in err and "slip in benchmate" not in err, what
            if status and words[0] != "check":
                assert err.startswith("benchmate: ") and err.count("\n") == 1, what


def _commands():
    from benchmate.talk.commands.registry import COMMANDS

    return [command.name for command in COMMANDS]


def test_the_command_line_takes_any_arguments():
    """Wrong usage is status 2 with the usage, a wrong value status 1 with one line."""
    chance = random.Random(SEED)
    bits = [
        *("say", "hear", "due", "record", "rules", "show", "--on", "--json", "--tree", "--garden", "--days", "--"),
        *(
            "2026-06-14",
            "2026-02-30",
            "-1",
            "Ratchet",
            "",
            "\x00",
            "é",
            str(DEMO),
            str(ROOT / "nowhere"),
            "--file",
            ".",
        ),
    ]
    for _ in range(max(20, TRIES // 10)):
        words = [chance.choice(bits) for _ in range(chance.randint(0, 6))]
        if not {"say", "hear", "due", "record", "rules"} & set(words):
            continue  # the talk has tests of its own
        status, _, err = run([*words, *(["--dry"] if "say" in words else [])])
        assert status in (0, 1, 2), (words, err)
        assert "Traceback" not in err and "slip in benchmate" not in err, (words, err)


def test_a_folder_where_a_file_should_be(tmp_path):
    home = tmp_path / "garden"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    for name in ("ratchet/journal.toml", "crag/tree.toml"):
        Path(home / name).unlink()
        Path(home / name).mkdir()
    for words in (
        ["due"],
        ["say", "what now", "--tree", "Ratchet"],
        ["say", "fed it", "--tree", "Crag"],
        ["record", "Ratchet"],
    ):
        status, _, err = run([*words, "--garden", str(home), "--on", ON.isoformat()])
        assert status in (0, 1) and "slip" not in err and "Traceback" not in err, err
