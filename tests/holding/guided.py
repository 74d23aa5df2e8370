"""Fuzzing led by coverage: python tests/holding/guided.py hearing|journal [SECONDS]

atheris (`pip install atheris`), where it is installed, changes its inputs towards code that was not reached yet, for so
many seconds (60). `hearing`: bytes choose phrases of the lexicon, or stand as text; the statement is heard and told.
`journal`: bytes are a tree's journal; it is read, looked over and appended to. The first input that goes wrong is shown
and ends the run with a status other than 0.
"""

from __future__ import annotations

import datetime as dt
import os
import sys
import tempfile
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path

from holding_files import DEMO

ON = dt.date(2026, 6, 14)
SAID = ("hornbeam, second flush, two competing leaders, what now", "3/8 inch branch, bend it forty degrees?")
IN_FILES = 20  # one journal in so many is laid on the disk, and the next entry put in
Tried = tuple[Callable[[bytes], None], list[bytes]]  # what is done with an input, and the inputs to begin from


def hearing(home: Path) -> Tried:
    from fuzzed import vocabulary, wrong_hearing

    from benchmate.talk.house import House

    house = House(None)
    words = vocabulary(house)

    def said_by(data: bytes) -> str:
        """The first byte chooses how the rest is taken: as text, or two by two as phrases."""
        if not data or data[0] < 128:
            return data[1:].decode("utf-8", "replace")
        numbers = [int.from_bytes(data[at : at + 2], "big") for at in range(1, min(len(data), 40), 2)]
        return " ".join(words[number % len(words)] for number in numbers)

    def test(data: bytes) -> None:
        trouble = wrong_hearing(house, said_by(data))
        assert not trouble, f"{said_by(data)!r}: {trouble}"

    return test, [*(b"\0" + said.encode() for said in SAID), b"\xff" + bytes(range(40))]


def journal(home: Path) -> Tried:
    from benchmate.garden import Entry, Place, check_garden, new_garden, new_tree, open_garden
    from benchmate.garden.follow import follow_ups
    from benchmate.garden.journal import read_journal
    from benchmate.garden.shapes import ENTRY_KEYS
    from benchmate.garden.toml_text import entry_text

    garden = new_garden(home / "garden", Place())
    folder = garden.path / new_tree(garden, "Gatepost").folder

    def test(data: bytes) -> None:
        read = read_journal(data, "journal.toml")
        told = read_journal(data, "journal.toml", strict=True)
        assert read.entries == told.entries, "the quick way and the slow one read different entries"
        assert all(str(fault).isprintable() and fault.remedy for fault in (*read.faults, *told.faults)), told.faults
        follow_ups(read.entries)
        # a value of the wrong kind is kept beside the entry's own keys, and is not written under them again
        whole = [entry for entry in read.entries if not entry.more.keys() & ENTRY_KEYS.keys()]
        again = read_journal("\n".join(map(entry_text, whole)).encode(), "journal.toml")
        for entry, back in zip(whole, again.entries, strict=True):
            assert repr(back) == repr(entry), f"written again it reads otherwise: {entry}, {back}"
        if sum(data) % IN_FILES == 0:
            in_files(data)

    def in_files(data: bytes) -> None:
        for old in folder.glob("journal*"):
            old.unlink()
        (folder / "journal.toml").write_bytes(data)
        check_garden(garden.path)
        opened = open_garden(garden.path)
        tree = opened.find("Gatepost")
        before = opened.entries(tree)
        assert len(opened.tail(tree, 3)) <= 3
        new = opened.append(tree, Entry("", ON, "note", "after it"))
        after = open_garden(garden.path).entries(tree)
        assert [repr(entry) for entry in after if entry != new] == list(map(repr, before)), "the next entry changed one"
        assert new in after, "the next entry is not there"

    return test, [path.read_bytes()[:1500] for path in sorted(DEMO.glob("*/journal.toml"))]


def fuzz(what: str, seconds: int, home: Path) -> None:
    import atheris

    with atheris.instrument_imports(include=["benchmate"]):
        test, seeds = {"hearing": hearing, "journal": journal}[what](home)
        for seed in seeds:  # so that what is imported late is imported now
            test(seed)
    (home / "seeds").mkdir()
    for number, seed in enumerate(seeds):
        (home / "seeds" / str(number)).write_bytes(seed)
    limits = [f"-max_total_time={seconds}", "-max_len=3000", "-timeout=30", f"-artifact_prefix={home}/"]
    atheris.Setup([sys.argv[0], *limits, "-print_final_stats=1", str(home / "seeds")], test)
    atheris.Fuzz()


def main(what: str, seconds: int) -> int:
    if find_spec("atheris") is None:
        print("atheris is not installed, so nothing was tried (pip install atheris)")
        return 0
    room = "/dev/shm" if os.access("/dev/shm", os.W_OK) else None
    with tempfile.TemporaryDirectory(dir=room) as home:
        if (child := os.fork()) == 0:  # it ends the process in which it runs, and would leave the folder behind
            fuzz(what, seconds, Path(home))
            os._exit(0)
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 60))
