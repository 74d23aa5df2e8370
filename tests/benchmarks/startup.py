"""How long a start takes, as ratios to a bare interpreter in the same run: python tests/benchmarks/startup.py [ROUNDS]

The fastest of some rounds stands for each, taken in turn, so that a busy machine spoils all alike; beside it stands the
time that the processor spent, which a busy machine spoils least. Byte code is written before. The first prompt is timed
on a terminal of its own, from the start until the prompt stands on the screen.
"""

from __future__ import annotations

import os
import pty
import select
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
HALVE = "the first flush has hardened, can I halve the leaves?"
LEADERS = "hornbeam, second flush, two competing leaders, what now"
ON = ("--on", "2026-06-14")


def surroundings(home: Path) -> dict[str, str]:
    left_out = ("PYTHONDONTWRITEBYTECODE", "BENCHMATE_GARDEN", "COLUMNS")
    kept = {name: value for name, value in os.environ.items() if name not in left_out}
    return kept | {"HOME": str(home), "TERM": "xterm-256color"}


# seconds on the clock, seconds of the processor
Taken = tuple[float, float]


def ran(home: Path, *words: str) -> Callable[[], Taken]:
    env = surroundings(home)

    def run() -> Taken:
        start = time.perf_counter()
        with open(os.devnull, "w+b") as nowhere:
            child = subprocess.Popen([sys.executable, *words], env=env, stdout=nowhere, stderr=nowhere)
            _, status, used = os.wait4(child.pid, 0)
        assert status == 0, f"{words} ended with {status}"
        return time.perf_counter() - start, used.ru_utime + used.ru_stime

    return run


def prompted(home: Path, garden: Path) -> Callable[[], Taken]:
    """Until the prompt of the talk can be typed at."""

    def run() -> Taken:
        start = time.perf_counter()
        child, screen = pty.fork()
        if not child:
            os.execve(
                sys.executable, [sys.executable, "-m", "benchmate", "--garden", str(garden), *ON], surroundings(home)
            )
        seen, taken = b"", 0.0
        while time.perf_counter() - start < 30 and select.select([screen], [], [], 30)[0]:
            try:
                seen += os.read(screen, 65536)
            except OSError:
                break
            # the prompt is drawn with its sign in bold behind the cursor's return; the greeting ends before it
            if seen.rstrip().rfind(b">") > seen.find(b"goodbye") > 0:
                taken = time.perf_counter() - start
                break
        os.kill(child, 9)
        _, _, used = os.wait4(child, 0)
        os.close(screen)
        assert taken, f"no prompt was seen in {seen!r}"
        return taken, used.ru_utime + used.ru_stime

    return run


def largest_memory_mb(home: Path, *words: str) -> float:
    code = (
        "import resource, runpy, sys; sys.argv[0] = 'benchmate'\n"
        "try: runpy.run_module('benchmate', run_name='__main__')\n"
        "except SystemExit: pass\n"
        "sys.stderr.write(str(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *words], env=surroundings(home), check=True, capture_output=True, text=True
    )
    return int(done.stderr.split()[-1]) / 1024


def main(rounds: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        garden = home / "garden"
        shutil.copytree(DEMO, garden, ignore=shutil.ignore_patterns(".benchmate"))
        mine = ("-m", "benchmate", "--garden", str(garden))
        rows = {
            "bare interpreter (python -c pass)": ran(home, "-c", "pass"),
            "import lark": ran(home, "-c", "import lark"),
            "import argparse, dataclasses, json": ran(home, "-c", "import argparse, dataclasses, json"),
            "import prompt_toolkit": ran(home, "-c", "import prompt_toolkit"),
            "benchmate --version": ran(home, "-m", "benchmate", "--version"),
            "benchmate hear": ran(home, "-m", "benchmate", "hear", LEADERS, *ON, "--json"),
            "benchmate due": ran(home, *mine, "due", *ON),
            "benchmate say, one tree": ran(home, *mine, "say", HALVE, "--tree", "Ratchet", *ON, "--dry"),
            "benchmate say, by species": ran(home, *mine, "say", LEADERS, *ON, "--dry"),
            "first prompt": prompted(home, garden),
        }
        for run in rows.values():
            run()
        time.sleep(2.1)  # until files that were just written are trusted
        taken: dict[str, list[Taken]] = {name: [] for name in rows}
        for _ in range(rounds):
            for name, run in rows.items():
                taken[name].append(run())
        best = {name: tuple(map(min, zip(*runs, strict=True))) for name, runs in taken.items()}
        bare = best["bare interpreter (python -c pass)"]
        print(f"{'':<38} {'clock':>11} {'x bare':>8} {'processor':>12} {'x bare':>8}")
        for name, (clock, used) in best.items():
            print(
                f"{name:<38} {clock * 1000:8.1f} ms {clock / bare[0]:8.2f} {used * 1000:9.1f} ms {used / bare[1]:8.2f}"
            )
        say = (*mine[2:], "say", HALVE, "--tree", "Ratchet", *ON, "--dry")
        print(f"largest memory of say {largest_memory_mb(home, *say):.0f} MB")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
