"""How long the garden takes, as ratios to a baseline of the same run.

`python tests/benchmarks/garden.py [TREES ENTRIES]`: the garden (1,000 trees of 200 entries by default) is made anew in
a temporary folder. Baselines: tomllib alone on the same files, a bare interpreter, a bare write and flush. Each start
is timed when its byte code is there.
"""

from __future__ import annotations

import datetime as dt
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "garden"))

import tomli_w
from orchard import plant

from benchmate.garden import due, open_garden
from benchmate.garden.record import Entry

ON = dt.date(2026, 6, 14)
OPEN = "import sys, datetime; from benchmate.garden import due, open_garden; garden = open_garden(sys.argv[1]); "
DUE = OPEN + "due(garden, datetime.date(2026, 6, 14), 14)"
SAY = OPEN + "garden.place; garden.entries(garden.find('kiln 7'))"


def seconds(work: Callable[[], object], rounds: int = 1, clock: Callable[[], float] = time.process_time) -> float:
    """The median of some rounds; by the processor's time of this process, unless another clock is given."""
    taken = []
    for _ in range(rounds):
        start = clock()
        work()
        taken.append(clock() - start)
    return statistics.median(taken)


def of_process(code: str, *words: str) -> float:
    """The quickest of some runs of a new process, by the wall: what a start takes when nothing else is in its way."""
    return min(seconds(process(code, *words), clock=time.perf_counter) for _ in range(15))


def process(code: str, *words: str) -> Callable[[], object]:
    surroundings = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    surroundings["PYTHONPYCACHEPREFIX"] = str(CACHE)
    return lambda: subprocess.run([sys.executable, "-c", code, *words], check=True, env=surroundings)


def row(what: str, taken: float, baseline: float, name: str) -> None:
    print(f"{what:<58} {taken * 1000:10.1f} ms   {taken / baseline:8.2f} x {name}")


def by_hand(garden: Path) -> None:
    """The same entries in lines as a grower writes them: without ids in the first line and closing keys."""
    for path in garden.glob("*/journal.toml"):
        lines = path.read_text(encoding="utf-8").split("\n")
        kept = [
            "[[entry]]" if line.startswith("[[entry]]") else line for line in lines if not line.startswith("end = ")
        ]
        path.write_text("\n".join(kept), encoding="utf-8")


def by_tomli_w(garden: Path) -> None:
    """The same entries with each work and follow-up on lines of its own."""
    for path in garden.glob("*/journal.toml"):
        path.write_text(tomli_w.dumps(tomllib.loads(path.read_text(encoding="utf-8"))), encoding="utf-8")


def read_with_tomllib(journals: list[Path]) -> None:
    for path in journals:
        tomllib.loads(path.read_text(encoding="utf-8"))


def index_anew(garden: Path) -> Callable[[], object]:
    def work() -> None:
        shutil.rmtree(garden / ".benchmate", ignore_errors=True)
        open_garden(garden).index()

    return work


def measure(garden: Path) -> None:
    journals = sorted(garden.glob("*/*.toml"))
    size = sum(path.stat().st_size for path in journals)
    print(f"{len(journals) // 2} trees, {size / 1e6:.0f} MB\n")

    toml = seconds(lambda: read_with_tomllib(journals))
    row("tomllib alone on all files", toml, toml, "itself")
    row("index from nothing, journals of the program's writing", seconds(index_anew(garden)), toml, "tomllib")
    time.sleep(2.1)  # until files that were just written are trusted

    bare = of_process("pass")
    row("bare interpreter", bare, bare, "itself")
    for code in (DUE, SAY):
        process(code, str(garden))()
    row("due, new process, index in place", of_process(DUE, str(garden)), bare, "bare interpreter")
    row("one tree and its entries, new process", of_process(SAY, str(garden)), bare, "bare interpreter")

    talk = open_garden(garden)
    due(talk, ON, 14)
    row("due, inside the talk", seconds(lambda: due(talk, ON, 14), 15), bare, "bare interpreter")
    tree = talk.find("kiln 7")
    row("find a tree by name, inside the talk", seconds(lambda: talk.find("kiln 7"), 25), bare, "bare interpreter")
    row("all entries of a tree, read before", seconds(lambda: talk.entries(tree), 25), bare, "bare interpreter")
    row("last 20 entries of a tree", seconds(lambda: talk.tail(tree, 20), 25), bare, "bare interpreter")

    scratch = garden / "scratch"

    def write_and_flush() -> None:
        with scratch.open("ab") as file:
            file.write(b"x" * 300)
            file.flush()
            os.fsync(file.fileno())

    plain = seconds(write_and_flush, 50, time.perf_counter)
    row("bare write and flush to the disk", plain, plain, "itself")
    entry = Entry("", ON, "done", "shortened it to two leaves", work=({"work": "shorten", "leaves": 2},))
    row("append one entry", seconds(lambda: talk.append(tree, entry), 50, time.perf_counter), plain, "write and flush")
    print(f"\nlargest memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")

    for rewrite, whose in ((by_hand, "written by hand"), (by_tomli_w, "laid out by tomli_w")):
        rewrite(garden)
        toml = seconds(lambda: read_with_tomllib(journals))
        row(f"index from nothing, journals {whose}", seconds(index_anew(garden)), toml, "tomllib")


if __name__ == "__main__":
    trees, entries = (int(word) for word in sys.argv[1:3]) if len(sys.argv) > 2 else (1000, 200)
    with tempfile.TemporaryDirectory() as home:
        CACHE = Path(home) / "bytecode"
        plant(Path(home) / "orchard", trees, entries)
        measure(Path(home) / "orchard")
