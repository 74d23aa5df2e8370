"""Kills and disk faults at every step of appending: `python tests/garden/fault_rounds.py 10000`.

A round is a child process that appends a few entries and tells through a pipe which were acknowledged and which were
refused. At one step of its work with the disk (open, write, flush, shorten, rename, close) it is killed before, after
or in the middle of it, or the step fails as on a full, read-only or failing disk. With a "power cut" what was not
flushed is lost as well: cut anywhere, or turned to zeros. Then the garden is opened anew: whatever was acknowledged has
to be there, what was refused must not, and the next entry has to go in.
"""

from __future__ import annotations

import datetime as dt
import errno
import json
import os
import random
import signal
import sys
import tempfile
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from benchmate.garden.append import NotLogged
from benchmate.garden.making import new_garden, new_tree
from benchmate.garden.record import Entry, Place
from benchmate.garden.store import open_garden
from benchmate.garden.toml_text import entry_text

STEPS = ("open", "write", "fsync", "ftruncate", "replace", "close")
ERRORS = {"full": errno.ENOSPC, "read-only": errno.EROFS, "failing": errno.EIO}
KILLS = ("before", "after", "within", "power cut")
WAYS = (*KILLS, *ERRORS, "full within")
STARTS = ("no file", "empty", "entries", "cut", "no line end", "zeros")
DAY = dt.date(2026, 6, 14)
TORN = entry_text(Entry("2026-06-13-tttttt", DAY, "note", "cut off long ago"))[:-20]


@dataclass(frozen=True)
class Round:
    """start: how the journal begins. step: which step of the work meets the fault, from 0. way: what happens there."""

    start: str
    step: int
    way: str
    seed: int

    def entries(self) -> list[Entry]:
        chance = random.Random(self.seed)
        words = (
            "cut the left one",
            "élan " * chance.choice((1, 40)),
            'a "quote"\n[[entry]]',
            "x" * chance.choice((9, 20000)),
        )
        return [Entry("", DAY, "done", f"{n} {chance.choice(words)}", reason=chance.choice(words)) for n in range(3)]


class Fault:
    """Counts the steps of a child's work with the disk, and does the harm at one of them."""

    def __init__(self, plan: Round, journal: Path, tell: Callable[[Any], None]) -> None:
        self.plan, self.journal, self.tell, self.count = plan, journal, tell, 0
        self.real = {name: getattr(os, name) for name in STEPS}
        self.chance = random.Random(plan.seed + plan.step)

    def lay(self) -> None:
        for name in STEPS:
            setattr(os, name, self._step(name))

    def _step(self, name: str) -> Callable[..., Any]:
        def step(*args: Any, **more: Any) -> Any:
            here = self.count == self.plan.step
            self.count += 1
            if here and self.plan.way in ("before", "power cut"):
                self._die()
            if here and name == "write" and "within" in self.plan.way:
                self.real["write"](args[0], bytes(args[1])[: self.chance.randrange(len(args[1]) + 1)])
            if here and self.plan.way == "within":
                self._die()
            if here and self.plan.way not in KILLS:
                raise OSError(ERRORS[self.plan.way.split()[0]], os.strerror(ERRORS[self.plan.way.split()[0]]))
            result = self.real[name](*args, **more)
            if name == "fsync" and self.journal.exists():
                self.tell({"flushed": self.journal.stat().st_size})
            if here and self.plan.way == "after":
                self._die()
            return result

        return step

    def _die(self) -> NoReturn:
        os.kill(os.getpid(), signal.SIGKILL)
        raise SystemExit


def begin(home: Path, start: str) -> tuple[Path, list[str]]:
    """A garden with one tree, its journal as the round wants it; the ids in it."""
    garden = new_garden(home / "garden", Place("Shed"))
    tree = new_tree(garden, "Gatepost")
    journal = garden.path / tree.folder / "journal.toml"
    old = [Entry(f"2026-06-13-{n}", DAY, "note", f"old {n}") for n in range(2)]
    text = "\n".join(map(entry_text, old))
    match start:
        case "no file":
            return journal, []
        case "empty":
            text, old = "", []
        case "cut":
            text += "\n" + TORN
        case "no line end":
            text = text.rstrip("\n")
        case "zeros":
            text += "\n" + "\0" * 40
    journal.write_text(text, encoding="utf-8")
    return journal, [entry.id for entry in old]


def child(plan: Round, garden: Path, journal: Path, pipe: int) -> NoReturn:
    write = os.write

    def tell(news: Any) -> None:
        write(pipe, (json.dumps(news) + "\n").encode())

    try:
        opened = open_garden(garden)
        tree = opened.find("Gatepost")
        fault = Fault(plan, journal, tell)
        fault.lay()
        for entry in plan.entries():
            try:
                tell({"kept": opened.append(tree, entry).id, "said": entry.said})
            except NotLogged as refused:
                assert str(refused).startswith("not logged: ") and "\n" not in str(refused)
                tell({"refused": entry.said})
        tell({"steps": fault.count})
        os._exit(0)
    except BaseException as bug:
        tell({"bug": repr(bug)})
        os._exit(1)


def run(plan: Round, home: Path) -> int:
    """One round; gives how many steps a child without harm takes, else 0. AssertionError where a word is lost."""
    journal, kept = begin(home, plan.start)
    garden = journal.parent.parent
    reading, writing = os.pipe()
    process = os.fork()
    if process == 0:
        os.close(reading)
        child(plan, garden, journal, writing)
    os.close(writing)
    with os.fdopen(reading, encoding="utf-8") as pipe:
        news = [json.loads(line) for line in pipe]
    os.waitpid(process, 0)
    assert not (bugs := [item["bug"] for item in news if "bug" in item]), (plan, bugs)
    if plan.way == "power cut" and journal.exists():
        lose_unflushed(journal, max([item["flushed"] for item in news if "flushed" in item], default=None), plan)
    kept += [item["kept"] for item in news if "kept" in item]
    refused = [item["refused"] for item in news if "refused" in item]
    judge(plan, garden, journal, kept, refused)
    return max([item["steps"] for item in news if "steps" in item], default=0)


def lose_unflushed(journal: Path, flushed: int | None, plan: Round) -> None:
    data = journal.read_bytes()
    chance = random.Random(plan.seed)
    if flushed is None or flushed > len(data):
        return  # nothing was written yet, or only taken away
    cut = chance.randint(flushed, len(data))
    journal.write_bytes(data[:cut] + b"\0" * (len(data) - cut if chance.random() < 0.5 else 0))


def judge(plan: Round, garden: Path, journal: Path, kept: list[str], refused: list[str]) -> None:
    opened = open_garden(garden)
    tree = opened.find("Gatepost")
    found = opened.entries(tree)
    ids = [entry.id for entry in found]
    assert [own for own in ids if own in kept] == kept, (plan, "lost", set(kept) - set(ids))
    assert len(set(ids) - set(kept)) <= 1, (plan, "more than the one in flight", ids)
    assert not (wrong := [entry.said for entry in found if entry.said in refused]), (plan, "refused, yet there", wrong)
    words = "said after the fault"
    new = opened.append(tree, Entry("", DAY, "note", words))
    again = open_garden(garden)
    assert [entry.id for entry in again.entries(tree)] == [*ids, new.id], (plan, "the next one")
    assert again.faults == (), (plan, again.faults)
    tomllib.loads(journal.read_text(encoding="utf-8"))
    if plan.start == "cut":
        aside = [path.read_bytes() for path in journal.parent.glob("journal.torn-*.txt")]
        assert TORN.encode() in aside, (plan, "the words that were cut off", aside)


def every_step(*starts: str) -> Iterator[Round]:
    """Each way of harm at each step, from each beginning; a step beyond the last one ends a row."""
    for start in starts or STARTS:
        with tempfile.TemporaryDirectory(dir=room()) as home:
            steps = run(Round(start, 1 << 30, "before", 1), Path(home))
        for way in WAYS:
            yield from (Round(start, step, way, 1) for step in range(steps))


def any_step(seed: int) -> Round:
    chance = random.Random(seed)
    return Round(chance.choice(STARTS), chance.randrange(40), chance.choice(WAYS), seed)


def room() -> str | None:
    """Memory, where the system has a folder there: a round is about order, not about the disk's speed."""
    return "/dev/shm" if os.access("/dev/shm", os.W_OK) else None


def play(plan: Round) -> None:
    with tempfile.TemporaryDirectory(dir=room()) as home:
        run(plan, Path(home))


if __name__ == "__main__":
    wanted, done = int(sys.argv[1]), 0
    for plan in every_step():
        play(plan)
        done += 1
    print(f"every step: {done} rounds, 0 acknowledged entries lost")
    for seed in range(done, wanted):
        play(any_step(seed))
    print(f"all: {max(done, wanted)} rounds, 0 acknowledged entries lost")
