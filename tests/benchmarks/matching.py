"""How the time for one statement grows with the number of rules: python tests/benchmarks/matching.py

Rules are made up: each bears on a few works and holds for one of many findings, taxa or stages, as real ones do. One
statement touches the same few of them at 1, 10 and 100 times the rules; beside it stands a plain pass over all rules of
the work, measured in the same run. Only ratios are printed: times differ from machine to machine.
"""

from __future__ import annotations

import datetime as dt
import random
import statistics
import time
from collections.abc import Callable

from benchmate.garden.record import Place, Tree
from benchmate.hearing.reading import Fact, Reading, Work
from benchmate.practice.advise import advise
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.condition import Claim
from benchmate.practice.gates import build_index
from benchmate.practice.gather import gather
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target

ON = dt.date(2026, 6, 15)
PLACE = Place("Anywhere", 51.5, -0.5, (4, 25), (10, 20))
TREE = Tree("Anvil", "anvil", "Genus0", health="strong", phase="structure")
READING = Reading("made up", ("observe", "ask"), "may", (Fact("finding", "finding0"),), (Work("work0"),))
WORKS, RULES = 10, 400


def made_up(number: int, chance: random.Random) -> Rule:
    """One rule behind one of many gates; more rules bring more kinds of trees and findings, not more about each."""
    spread = max(number // 4, 40)
    clause: tuple[tuple[Claim, ...], ...] = (
        (
            Claim(
                *chance.choice(
                    [
                        ("finding", f"finding{chance.randrange(spread)}"),
                        ("species", f"Genus{chance.randrange(spread)}"),
                    ]
                )
            ),
        ),
    )
    health = ((Claim("health", chance.choice(["weak", "strong", "healthy"])),),)
    return Rule(
        id=f"made-up-{number}",
        work=(f"work{chance.randrange(WORKS)}",),
        condition=(clause, health),
        weight=1,
        says="Made up.",
        when="made up",
    )


def book_of(rules: int) -> RuleBook:
    chance = random.Random(7)
    rows = tuple(made_up(number, chance) for number in range(rules))
    taxa = {f"Genus{n}": {"lineage": [f"Genus{n}"], "groups": [], "traits": {}} for n in range(50)}
    works = {f"work{n}": {"group": "care", "takes": "none"} for n in range(WORKS)}
    return RuleBook(
        rules=rows,
        index=build_index(rows),
        taxa=taxa,
        works=works,
        cautions={},
        questions={},
        sources={},
        budget={"cap": [], "root_cap": []},
        places={"groups": {}, "traits": []},
        seasons=real_seasons(),
        by_id={rule.id: number for number, rule in enumerate(rows)},
    )


def real_seasons() -> dict[str, object]:
    from benchmate.rulebase import find_rules, read_tables

    tables = read_tables(find_rules()).tables
    return {name[8:-5]: table for name, table in tables.items() if name.startswith("seasons/")}


def seconds(run: Callable[[], object], rounds: int = 60) -> float:
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def measure(times: int) -> tuple[float, float, int]:
    """Seconds for advice by the index and for a pass over all rules of the work, and how many rules were touched."""
    book = book_of(RULES * times)
    facts = gather(READING, TREE, (), PLACE, ON, book)
    target = Target("work0")

    def whole_pass() -> None:
        matcher = Matcher(book, facts, almanac_for(ON, PLACE, facts.entry, book.seasons))
        for rule in book.rules:
            if target.work in rule.work:
                matcher.result(rule, target)

    matcher = Matcher(book, facts, almanac_for(ON, PLACE, facts.entry, book.seasons))
    touched = len(list(matcher.touched(target)))
    return seconds(lambda: advise(READING, facts, book, PLACE, ON)), seconds(whole_pass, 15), touched


def main() -> None:
    base: tuple[float, float, int] | None = None
    for times in (1, 10, 100):
        now = measure(times)
        base = base or now
        print(
            f"{times:>4}x {RULES * times:>6} rules, {now[2]:>3} touched: "
            f"advice {now[0] / base[0]:6.2f} times the first, a pass over all {now[1] / base[1]:8.2f} times"
        )


if __name__ == "__main__":
    main()
