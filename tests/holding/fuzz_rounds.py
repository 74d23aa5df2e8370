"""The long runs: python tests/holding/fuzz_rounds.py statements 100000, files 20000, or rules 200. A third word is the
seed.

`statements`: each is heard as a line of a file is, and one in five is answered at the bench as well, dry, in talks of
forty statements. `files`: each try damages one file or two of a garden and asks commands of it. `rules`: the same with
a folder of rules, compiled anew each time. Each kind of wrong is told once, when it is met; in the end how many tries
went wrong. The exit status is 1 where one did.
"""

from __future__ import annotations

import random
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from damaged import Damage, RuleDamage
from fuzzed import ON, statement, vocabulary, wrong_answer, wrong_hearing
from holding_files import DEMO

from benchmate.garden import check_garden
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

MOST_TOLD = 20
ANSWERED = 5  # one statement in so many is answered as well


def statements(tries: int, seed: int, home: Path) -> Iterator[tuple[str, str]]:
    """(what was said, what went wrong) for each; "" where nothing did."""
    garden = home / "garden"
    shutil.copytree(DEMO, garden, ignore=shutil.ignore_patterns(".benchmate"))
    house = House(garden)
    words = vocabulary(house)
    chance = random.Random(seed)
    bench = Bench(house, ON, dry=True)
    for number in range(tries):
        said = statement(chance, words)
        yield repr(said), wrong_hearing(house, said)
        if number % ANSWERED == 0:
            if number % (40 * ANSWERED) == 0:
                bench = Bench(house, ON, dry=True)
            yield repr(said), wrong_answer(bench, said)
    if faults := check_garden(garden):
        yield "the garden afterwards", str(faults)


def files(tries: int, seed: int, home: Path) -> Iterator[tuple[str, str]]:
    damage = Damage(home / "garden")
    for number in range(tries):
        yield f"try {number}", damage.wrong(random.Random(f"{seed} {number}"))


def rules(tries: int, seed: int, home: Path) -> Iterator[tuple[str, str]]:
    damage = RuleDamage(home / "rules")
    for number in range(tries):
        yield f"try {number}", damage.wrong(random.Random(f"{seed} {number}"))


WAYS = {"statements": statements, "files": files, "rules": rules}


def main(what: str, tries: int, seed: int) -> int:
    wrong: set[str] = set()
    count, begun, slowest = 0, time.perf_counter(), (0.0, "")
    with tempfile.TemporaryDirectory() as home:
        last = time.process_time()
        for number, (name, trouble) in enumerate(WAYS[what](tries, seed, Path(home))):
            now = time.process_time()
            slowest = max(slowest, (now - last, name[:120])) if number else slowest
            last = now
            if trouble:
                count += 1
                kind = "".join(trouble.splitlines()[-3:])[-160:]
                if kind not in wrong and len(wrong) < MOST_TOLD:
                    print(f"--- {name}\n{trouble}", flush=True)
                wrong.add(kind)
    print(f"{tries:,} {what}: {count} went wrong, in {len(wrong)} ways; {time.perf_counter() - begun:.0f} s")
    print(f"slowest: {slowest[0] * 1000:.0f} ms of the processor, {slowest[1]}")
    return int(count > 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 2026))
