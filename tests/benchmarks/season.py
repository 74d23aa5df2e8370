"""A season of use, 500 sessions over 50 trees, March to November: python tests/benchmarks/season.py [SESSIONS TREES]

Every session opens a talk anew on its day, says some of what a grower says, and ends. In the end the record must hold
what the answers said was logged, no more and no less, in order, and `check` must be silent. Told is how long answers
took at the start and at the end of the season, per statement; the exit status is 1 where something is wrong.
"""

from __future__ import annotations

import datetime as dt
import random
import shutil
import statistics
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from benchmate.fault import UserError
from benchmate.garden import check_garden, new_garden, new_tree, open_garden
from benchmate.garden.record import Place
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

SPECIES = (
    "Carpinus betulus",
    "Acer palmatum",
    "Fagus sylvatica",
    "Larix decidua",
    "Pinus sylvestris",
    "Ulmus parvifolia",
)
SAID = (
    "buds are swelling", "repotted it, took a third of the roots", "fed it", "second flush is out", "it is weak",
    "it is strong", "two competing leaders, what now", "take the second", "can I halve the leaves?",
    "wired the left branch",
    "remind me to check the wire in three weeks", "cut the left one back to two leaves", "when did I last feed it",
    "what's due this week", "took the wire off", "won't defoliate it this year", "note: a bird sat on it",
    "scratch that",
    "shortened the leader by a third", "watered it", "what did I do this year", "leave it alone", "why 1", "more",
)  # fmt: skip


def begin(home: Path, trees: int) -> list[str]:
    garden = new_garden(home, Place("Simulated", 52.0, -1.0, (4, 28), (10, 18)))
    names = [f"Tree {number:02d}" for number in range(trees)]
    for number, name in enumerate(names):
        new_tree(
            garden, name, SPECIES[number % len(SPECIES)], since=dt.date(2024, 3, 1), phase="structure", health="healthy"
        )
    return names


def main(sessions: int, trees: int) -> int:
    chance = random.Random(26)
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "garden"
        names = begin(home, trees)
        start = dt.date(2026, 3, 1)
        logged: dict[str, list[str]] = {name: [] for name in names}
        refused: Counter[str] = Counter()
        taken: list[tuple[int, float]] = []
        for session in range(sessions):
            on = start + dt.timedelta(days=session * 270 // sessions)
            bench = Bench(House(home), on, tree=chance.choice(names))
            bench.house.ear, bench.house.book  # noqa: B018 - opened before anything is timed
            for said in chance.sample(SAID, chance.randint(2, 6)):
                if chance.random() < 0.2:
                    bench.turn_to(chance.choice(names))
                begun = time.process_time()
                try:
                    answer = bench.answer(said)
                    lay(tell(answer), 80)
                except UserError as error:
                    refused[str(error)] += 1
                    continue
                taken.append((session, time.process_time() - begun))
                for entry in answer.logged:
                    logged[answer.tree or ""].append(entry.id)
        return tell_season(home, logged, refused, taken, sessions)


def tell_season(
    home: Path, logged: dict[str, list[str]], refused: Counter[str], taken: list[tuple[int, float]], sessions: int
) -> int:
    garden = open_garden(home)
    held = {tree.name: [entry.id for entry in garden.entries(tree)] for tree in garden.trees()}
    wrong = [name for name, ids in logged.items() if Counter(held.get(name, ())) != Counter(ids)]
    order = [name for name, ids in held.items() if ids != logged[name]]
    faults = check_garden(home)
    whole = Counter(id for ids in held.values() for id in ids)
    said = f"{sessions} sessions, {len(taken)} statements, {refused.total()} refused"
    print(f"{said}, {whole.total()} entries on {len(held)} trees")
    print(f"trees whose record is not what was said to be logged: {len(wrong)}; out of order: {len(order)}")
    print(f"ids that stand twice: {sum(count > 1 for count in whole.values())}; faults: {len(faults)}")
    shutil.rmtree(home / ".benchmate", ignore_errors=True)
    anew = {tree.name: [entry.id for entry in open_garden(home).entries(tree)] for tree in open_garden(home).trees()}
    print(f"read anew without what was derived: {'the same' if anew == held else 'different'}")
    tenth = sessions // 10
    first = statistics.median(seconds for session, seconds in taken if session < tenth)
    last = statistics.median(seconds for session, seconds in taken if session >= sessions - tenth)
    print(f"median answer: {first * 1000:.2f} ms in the first tenth, {last / first:.2f} times that in the last")
    for error, count in refused.most_common(5):
        print(f"  refused {count}: {error}")
    return int(bool(wrong or order or faults or anew != held))


if __name__ == "__main__":
    sys.exit(main(*(int(word) for word in sys.argv[1:3])) if len(sys.argv) > 2 else main(500, 50))
