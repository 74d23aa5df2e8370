"""How long an answer takes inside a talk: python tests/benchmarks/answers.py [TREES ENTRIES]

Reading stands beside one bare LALR parse by lark of the same tokens, once over the statements of tests/hearing/corpus
and once over the ten below; the rest is told in multiples of the latter's parse. The
last rows are of a garden of 1,000 trees and 200,000 entries (made in a temporary folder), through its index. Times are
the processor's, which a busy machine spoils least; what a disk takes to flush is in garden.py.
"""

from __future__ import annotations

import datetime as dt
import resource
import shutil
import statistics
import sys
import tempfile
import time
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent / "garden"))

from lark import Lark
from lark.lexer import Lexer
from lark.lexer import Token as LarkToken
from orchard import plant

from benchmate.garden import due, open_garden
from benchmate.hearing.lattice.automaton import GRAMMAR
from benchmate.practice import advise, gather
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
CORPUS = Path(__file__).resolve().parents[1] / "hearing" / "corpus"
ON = dt.date(2026, 6, 14)
SAID = (
    "hornbeam, second flush, two competing leaders, what now",
    "the first flush has hardened, can I halve the leaves?",
    "cut the left one back to two leaves",
    "the larch is weak since the repot in March",
    "what wire for an 8 mm branch",
    "what's due this week",
    "when did I last repot the beech",
    "remind me to check the wire in three weeks",
    "hornbean, secnd flush, two competting leaders",
    "won't defoliate it this year",
)


class _Fed(Lexer):
    """Gives lark the tokens that the spotter found, so that the parse alone is timed."""

    def __init__(self, conf: object) -> None:
        pass

    def lex(self, lexer_state: Any, parser_state: Any) -> Any:
        yield from (LarkToken(kind, kind) for kind in lexer_state.text)


def seconds(run: Callable[[], object], rounds: int = 15) -> list[float]:
    taken = []
    for _ in range(rounds):
        start = time.process_time()
        run()
        taken.append(time.process_time() - start)
    return taken


def median(run: Callable[[], object], rounds: int = 15) -> float:
    return statistics.median(seconds(run, rounds))


def bare_parses(house: House, statements: Sequence[str] = SAID, rounds: int = 60) -> dict[str, float]:
    """Seconds of one parse by lark of each statement's tokens."""
    lark = Lark(GRAMMAR.read_text(encoding="utf-8"), parser="lalr", lexer=_Fed)
    out = {}
    for said in statements:
        found = house.ear.find(said, house.ear.words(said), ON)
        kinds = [token.kind for token in found.tokens]
        parser = lark.parse_interactive

        def feed(kinds: list[str] = kinds, parser: Any = parser) -> None:
            state = parser()
            for kind in kinds:
                state.feed_token(LarkToken(kind, kind))
            state.feed_eof()

        out[said] = median(feed, rounds)
    return out


def corpus(house: House) -> None:
    """The median reading over every tenth statement of the corpus, warm, beside the median bare parse of the same."""
    cases = [case for path in sorted(CORPUS.glob("*.toml")) for case in tomllib.loads(path.read_text())["case"]][::10]
    statements = [case["say"] for case in cases]
    bare = statistics.median(bare_parses(house, statements, 5).values())
    for said in statements:
        house.hear(said, ON)
    taken = [median(lambda said=said: house.hear(said, ON), 3) for said in statements]
    row(f"one LALR parse by lark, median of {len(statements):,} of the corpus", bare, bare)
    row("reading of the same, median", statistics.median(taken), bare)
    row("reading of the same, 90 of 100 below", sorted(taken)[len(taken) * 9 // 10], bare)


def row(what: str, taken: float, bare: float) -> None:
    print(f"{what:<56} {taken * 1000:9.3f} ms {taken / bare:9.1f} x a bare parse")


def measure(house: House, tree: str) -> None:
    bare = statistics.median(bare_parses(house).values())
    row("one LALR parse by lark of the same tokens", bare, bare)
    for said in SAID:
        house.hear(said, ON)
    row("reading, median statement", statistics.median(median(lambda s=said: house.hear(s, ON)) for said in SAID), bare)
    reading = house.hear(SAID[1], ON)
    own = house.garden.find(tree)
    entries = house.entries(own)
    facts = gather(reading, own, entries, house.place, ON, house.book)
    row("facts gathered", median(lambda: gather(reading, own, entries, house.place, ON, house.book)), bare)
    row(
        f"advice from {len(house.book.rules)} rules",
        median(lambda: advise(reading, facts, house.book, house.place, ON)),
        bare,
    )
    whole(house, tree, bare, "whole answer at the prompt")


def whole(house: House, tree: str, bare: float, what: str) -> None:
    """Each statement in a talk of its own: thought and told alone, then written to the journal where it decides."""
    for dry, how in ((True, ""), (False, " and logged")):

        def answer(said: str, dry: bool = dry) -> None:
            lay(tell(Bench(house, ON, tree=tree, dry=dry).answer(said)), 80)

        first = {said: time_of(lambda s=said: answer(s)) for said in SAID}
        again = {said: seconds(lambda s=said: answer(s)) for said in SAID}
        slowest = max(again, key=lambda said: max(again[said]))
        row(f"{what}{how}, median", statistics.median(taken for runs in again.values() for taken in runs), bare)
        row(f"{what}{how}, slowest", max(again[slowest]), bare)
        print(f"    {slowest}")
        if dry:
            row(f"{what}, slowest when first said", max(first.values()), bare)
            print(f"    {max(first, key=lambda said: first[said])}")


def time_of(run: Callable[[], object]) -> float:
    return seconds(run, 1)[0]


def main(trees: int, entries: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        demo = Path(folder) / "demo"
        shutil.copytree(DEMO, demo, ignore=shutil.ignore_patterns(".benchmate"))
        house = House(demo)
        corpus(house)
        measure(house, "Ratchet")
        bare = statistics.median(bare_parses(house).values())
        home = Path(folder) / "orchard"
        plant(home, trees, entries // trees)
        time.sleep(2.1)  # until files that were just written are trusted
        garden = open_garden(home)
        row(f"index of {trees:,} trees, {entries:,} entries, from nothing", time_of(garden.index), bare)
        large = House(home)
        row("what is due in it, first", time_of(lambda: due(large.garden, ON, 14)), bare)
        row("what is due in it, again", median(lambda: due(large.garden, ON, 14)), bare)
        whole(large, large.trees()[7].name, bare, f"whole answer, {trees:,} trees")
    print(f"largest memory {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB, lark's parser in it")


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:3])) if len(sys.argv) > 2 else main(1000, 200_000)
