"""Matching next to a general rule engine: python tests/benchmarks/engine.py

The made-up rules of matching.py at 1, 10 and 100 times their number; one statement's facts. clipspy, where it is
installed (`pip install clipspy`), holds the same rules as productions and is reset, given the same facts and run; what
it fires must be what holds here. Ours tells true, false and unknown, and what decided; the engine only what fires.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))

from matching import ON, PLACE, RULES, TREE, book_of

from benchmate.hearing.reading import Fact, Reading, Work
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import RuleBook
from benchmate.practice.facts import Facts
from benchmate.practice.gather import gather
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target

TARGET = Target("work0")
FINDINGS = tuple(Fact("finding", f"finding{number}") for number in range(60))
READING = Reading("made up", ("observe", "ask"), "may", FINDINGS, (Work(TARGET.work),))


def median(run: Callable[[], object], rounds: int = 40) -> float:
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def fired(book: RuleBook, facts: Facts) -> set[str]:
    matcher = Matcher(book, facts, almanac_for(ON, PLACE, facts.entry, book.seasons))
    return {result.rule.id for result in matcher.results(TARGET) if result.truth is True}


def engine_of(clips: Any, book: RuleBook) -> Any:
    """The same rules as productions over (fact KIND VALUE) and (asked WORK)."""
    engine = clips.Environment()
    for rule in book.rules:
        tests = []
        for clause in rule.condition:
            either = [f"(fact {test.kind} {test.value})" for tests_of in clause for test in tests_of]
            tests.append(either[0] if len(either) == 1 else f"(or {' '.join(either)})")
        works = " ".join(f"(asked {work})" for work in rule.work)
        engine.build(f"(defrule {rule.id} (or {works}) {' '.join(tests)} => (assert (fired {rule.id})))")
    return engine


def run_engine(engine: Any, told: list[str]) -> set[str]:
    engine.reset()
    for fact in told:
        engine.assert_string(fact)
    engine.run()
    return {str(fact[0]) for fact in engine.facts() if fact.template.name == "fired"}


def main() -> None:
    try:
        import clips
    except ImportError:
        clips = None
        print("clipspy is not installed, so ours stands alone (pip install clipspy)")
    base, kept = None, []
    for times in (1, 10, 100):
        book = book_of(RULES * times)
        facts = gather(READING, TREE, (), PLACE, ON, book)
        ours = median(lambda book=book, facts=facts: fired(book, facts))
        base = base or ours
        line = (
            f"{times:>4}x {RULES * times:>6} rules: matching {ours * 1000:7.3f} ms, {ours / base:6.2f} times the first"
        )
        if clips is not None:
            engine = engine_of(clips, book)
            told = [f"(asked {TARGET.work})"]
            told += [
                f"(fact {one.kind} {one.value})" for one in facts.all if not one.denied and " " not in str(one.value)
            ]
            here, there = fired(book, facts), run_engine(engine, told)
            theirs = median(lambda engine=engine, told=told: run_engine(engine, told))
            same = "the same rules fire" if here == there else f"fires otherwise: {sorted(here ^ there)[:5]}"
            line += f"; the engine {theirs * 1000:8.3f} ms, {theirs / ours:7.2f} times ours; {same} ({len(here)})"
            kept.append(engine)  # one that is let go of tells of its memory on the screen
        print(line)
    if kept:
        sys.stdout.flush()
        os._exit(0)


if __name__ == "__main__":
    main()
