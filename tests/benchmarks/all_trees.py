"""How long a question over all trees takes: python tests/benchmarks/all_trees.py

Told in multiples of one bare LALR parse by lark (see answers.py), over the demo garden. Each question is asked in a
talk that is warm but has not heard it, then once more. A plan of each tree laid and told whole stands beside them.
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from answers import DEMO, ON, bare_parses, row, seconds, time_of

from benchmate.talk.asked.plans import plan_for
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

ASKED = (
    "which trees need repotting",
    "which trees are overdue for a repot",
    "which trees are overdue",
    "which trees should I repot in spring",
    "which trees are weak",
    "which trees should be fed next month",
)
ROUNDS = 5


def asked(said: str, folder: Path) -> tuple[float, float]:
    """Seconds for a question in a talk that is warm, and for the same once more."""
    house = House(folder)
    for before in ("what is due this week", "plan Crag", "what now"):
        Bench(house, ON).answer(before)
    first = time_of(lambda: Bench(house, ON).answer(said))
    return first, time_of(lambda: Bench(house, ON).answer(said))


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        demo = Path(folder) / "demo"
        shutil.copytree(DEMO, demo, ignore=shutil.ignore_patterns(".benchmate"))
        house = House(demo)
        bare = statistics.median(bare_parses(house).values())
        row("one LALR parse by lark, the median statement's tokens", bare, bare)
        for said in ASKED:
            first, again = zip(*(asked(said, demo) for _ in range(ROUNDS)), strict=True)
            row(f"{said}, first", statistics.median(first), bare)
            row(f"{said}, again", statistics.median(again), bare)
        whole = [time for tree in house.trees() for time in seconds(lambda t=tree: plan_for(house, t, ON, 1), 3)]
        row("one tree's plan of a year laid and told whole, median", statistics.median(whole), bare)


if __name__ == "__main__":
    main()
