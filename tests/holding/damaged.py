"""A garden of two trees, damage to one file or two of it, and what must hold then: every command tells what is wrong in
plain lines, `check` names the file with a remedy, and the other tree is as it was."""

from __future__ import annotations

import contextlib
import io
import json
import os
import random
import shutil
import tomllib
from collections.abc import Sequence
from pathlib import Path

from holding_files import DEMO, ROOT

from benchmate import cli

ON = ("--on", "2026-06-14")
HARMED, OTHER = "ratchet", "minnow"
ASKED = [
    ["say", "second flush, two competing leaders, what now", "--tree", "{tree}"],
    ["say", "cut the left branch back to two leaves", "--tree", "{tree}"],
    ["record", "{tree}"],
    ["record", "{tree}", "--json"],
    ["sheet", "{tree}", "--out", "-"],
    ["sheet", "{tree}", "--text"],
    ["due"],
    ["calendar"],
    ["export", "{tree}"],
    ["plan", "{tree}", "--years", "1"],
]


def run(words: Sequence[str]) -> tuple[int, str, str]:
    """Status, output and errors of one command, in this process."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = cli.main(words)
        except SystemExit as left:
            status = left.code
    return status, out.getvalue(), err.getvalue()


def fresh(home: Path) -> list[Path]:
    """A new garden of two trees at home; the files that may be damaged."""
    shutil.rmtree(home, ignore_errors=True)
    for name in (HARMED, OTHER):
        shutil.copytree(DEMO / name, home / name, ignore=shutil.ignore_patterns(".benchmate"))
    shutil.copy(DEMO / "garden.toml", home / "garden.toml")
    return [home / "garden.toml", home / HARMED / "tree.toml", home / HARMED / "journal.toml"]


def harm(chance: random.Random, path: Path) -> str:
    """Damage one file; what was done, in words."""
    body = path.read_bytes()
    at = chance.randrange(len(body)) if body else 0
    lines = body.split(b"\n")
    row = chance.randrange(len(lines))
    ways = {
        "cut": lambda: body[:at],
        "byte": lambda: body[:at] + bytes([chance.randrange(256)]) + body[at + 1 :],
        "bytes": lambda: body[:at] + chance.randbytes(chance.randint(1, 20)) + body[at:],
        "line gone": lambda: b"\n".join(lines[:row] + lines[row + 1 :]),
        "line cut": lambda: b"\n".join(
            [*lines[:row], lines[row][: chance.randint(0, len(lines[row]))], *lines[row + 1 :]]
        ),
        "line twice": lambda: b"\n".join(lines[: row + 1] + lines[row:]),
        "type": lambda: _retyped(chance, lines, row),
        "key": lambda: b"\n".join([*lines[:row], b"vedict = [1, {a = 2}]", *lines[row:]]),
        "empty": lambda: b"",
        "quote": lambda: body.replace(b'"', b"", 1),
        "huge": lambda: body + b"x = [" + b"1, " * 20_000 + b"]\n",
        "bom": lambda: b"\xef\xbb\xbf" + body,
        "wide": lambda: body.decode().encode("utf-16"),
        "zeros": lambda: body[:at] + b"\0" * (len(body) - at),
        "old line ends": lambda: body.replace(b"\n", b"\r"),
    }
    kind = chance.choice(list(ways))
    path.write_bytes(ways[kind]())
    return f"{kind} at {at} or line {row + 1} of {path.name}"


def _retyped(chance: random.Random, lines: list[bytes], row: int) -> bytes:
    name, equals, _ = lines[row].partition(b" = ")
    value = chance.choice(
        [
            b"1",
            b'"words"',
            b"[]",
            b"{}",
            b"true",
            b"2026-13-40",
            b"-1e400",
            b"[[1]]",
            b"1979-05-27",
            b'"../../x"',
            b"nan",
        ]
    )
    return b"\n".join([*lines[:row], name + equals + value if equals else lines[row], *lines[row + 1 :]])


class Damage:
    """One garden that is damaged and mended again, try after try."""

    def __init__(self, home: Path) -> None:
        self.home = home
        fresh(home)
        self.other = self._ask(["record", OTHER, "--json"])[1]

    def wrong(self, chance: random.Random, asked: int = 1) -> str:
        """What goes wrong in one try; "" where nothing does. asked: commands run beside `check` and the other tree."""
        files = fresh(self.home)
        hurt = chance.sample(files, chance.choice([1, 1, 2]))
        done = [harm(chance, path) for path in hurt]
        for words in chance.sample(ASKED, asked):
            words = [word.replace("{tree}", HARMED) for word in words]
            if slip := self._slip(words):
                return f"{done}; {words}: {slip}"
        status, out, err = self._ask(["record", OTHER, "--json"])
        if status or out != self.other:
            return f"{done}: the other tree's record is not as it was: {err or out[-300:]}"
        return "".join(f"{done}: {slip}" for slip in self._unchecked(hurt))

    def _ask(self, words: Sequence[str]) -> tuple[int, str, str]:
        return run([*words, "--garden", str(self.home), *ON])

    def _slip(self, words: Sequence[str]) -> str:
        status, out, err = self._ask(words)
        if status not in (0, 1) or "Traceback" in err or "slip in benchmate" in err:
            return f"status {status}: {out[-300:]} {err}"
        if status and not (err.startswith("benchmate: ") and err.count("\n") == 1):
            return f"not told in one line: {err!r}"
        return ""

    def _unchecked(self, hurt: Sequence[Path]) -> list[str]:
        """What `check` leaves out: a file that is no TOML must be named, and each fault needs a place and a remedy."""
        status, out, err = self._ask(["check", "--json"])
        if status not in (0, 1) or "slip in benchmate" in err:
            return [f"check: status {status}: {err}"]
        faults = json.loads(out)["faults"]
        wrong = [f"a fault without place or remedy: {fault}" for fault in faults if not _told(fault, self.home)]
        named = {fault["path"] for fault in faults}
        return wrong + [
            f"check says nothing of {path.name}" for path in hurt if not _reads(path) and str(path) not in named
        ]


class RuleDamage:
    """A folder of few rules whose files are damaged and mended again, try after try."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        some_rules(folder)
        self.whole = {path: path.read_bytes() for path in sorted(folder.rglob("*.toml"))}

    def wrong(self, chance: random.Random) -> str:
        """What goes wrong in one try; "" where nothing does."""
        hurt = chance.sample(list(self.whole), chance.choice([1, 1, 2]))
        done = [harm(chance, path) for path in hurt]
        try:
            for words in (["rules", "check", "--json"], ["say", "hornbeam is weak, what now", "--dry"]):
                status, out, err = run([*words, "--rules", str(self.folder), *ON])
                if status not in (0, 1) or "Traceback" in err or "slip in benchmate" in err:
                    return f"{done}; {words}: status {status}: {out[-300:]} {err}"
                if words[0] == "rules":
                    named = {fault["path"] for fault in json.loads(out)["faults"]}
                    if unnamed := [path.name for path in hurt if not _reads(path) and str(path) not in named]:
                        return f"{done}: rules check says nothing of {unnamed}"
        finally:
            for path in hurt:
                path.write_bytes(self.whole[path])
        return ""


def some_rules(into: Path) -> None:
    """Few rules, so that they compile quickly: all words and works, and a part of each of the large rooms."""
    part = {"practice": "leader*", "species": "carpinus*", "planning": "bounds*"}
    for path in (ROOT / "rules").rglob("*.toml"):
        room = path.parent.name
        if room not in part or path.match(part[room]):
            (into / path.relative_to(ROOT / "rules")).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(path, into / path.relative_to(ROOT / "rules"))


def _told(fault: dict[str, object], home: Path) -> bool:
    inside = str(fault["path"]).startswith(str(home) + os.sep)
    return inside and bool(fault["problem"]) and bool(fault["remedy"])


def _reads(path: Path) -> bool:
    try:
        tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except (ValueError, RecursionError):
        return False
    return True
