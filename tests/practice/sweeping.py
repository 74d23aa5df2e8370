"""Every kind of tree, on days through the year in both hemispheres, in many states, asked for every work.

What must never come out as `go`, and what must at some day, is data: invariants.toml. The gate looks at a part of the
year for each kind (test_invariants.py); `python tests/practice/sweeping.py [STEP]` looks at all of it, a day in STEP.
"""

from __future__ import annotations

import datetime as dt
import itertools
import sys
import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from example_runner import PLACE, built, place_of

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Fact, Reading, Spot
from benchmate.practice import gather
from benchmate.practice.almanac import Almanac, almanac_for
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.practice.taxa import taxon_entry
from benchmate.practice.weigh import weigh

TABLES: dict[str, Any] = tomllib.loads((Path(__file__).parent / "invariants.toml").read_text(encoding="utf-8"))
STATES: dict[str, dict[str, Any]] = TABLES["state"]
PLACES = {"north": place_of(PLACE), "south": Place("Cold south garden", -43.5, 172.6, (10, 5), (5, 5))}
_AT_ANY_TIME = [name for name, told in STATES.items() if not told.get("named_only")]
# what can be asked about one thing is asked about a branch
_ON_A_BRANCH = ("remove", "wire", "bend")
Row = Mapping[str, Any]
# taxon, place, day and state
Case = tuple[str, str, dt.date, str]
# cells that no rule about works looks at
_NOT_WEIGHED = ("hardiness-zone", "toxicity", "thorns", "family", "root-frost-c", "skin-sap", "light")


@dataclass(frozen=True)
class Asked:
    """One tree, day and state. work: a work, or "work:manner"."""

    taxon: str
    place: str
    on: dt.date
    state: str
    work: str

    @property
    def words(self) -> str:
        return f"{self.work} on {self.taxon}, {self.on.isoformat()} {self.place}, {self.state}"


@lru_cache(maxsize=1)
def kinds() -> tuple[str, ...]:
    """One taxon for each way of being a tree that the rules can tell apart."""
    _, _, book = built()
    named = {
        str(test.value) for r in book.rules for c in r.condition for ts in c for test in ts if test.kind == "species"
    }
    first: dict[object, str] = {}
    for taxon in sorted(book.taxa, reverse=True):
        entry = taxon_entry(taxon, book.taxa)
        cells = {name: str(cell["is"]) for name, cell in entry["traits"].items() if name not in _NOT_WEIGHED}
        told = tuple(name for name in entry["lineage"] if name in named)
        first[(tuple(sorted(cells.items())), tuple(sorted(entry["groups"])), told)] = taxon
    return tuple(sorted(first.values()))


def year(step: int) -> tuple[dt.date, ...]:
    return tuple(dt.date(2026, 1, 3) + dt.timedelta(days=day) for day in range(0, 365, step))


def matcher_of(taxon: str, place: str, on: dt.date, state: str) -> Matcher:
    """All that is known of the tree in that state."""
    _, _, book = built()
    told = STATES[state]
    facts = [Fact("finding", value) for value in told.get("seen", ())]
    facts += [Fact("weather", value) for value in told.get("weather", ())]
    facts += [Fact("stage", value) for value in told.get("stage", ())]
    reading = Reading("by hand", ("ask",), "may", tuple(facts), (), measures=dict(told.get("measures", {})))
    entries = [
        Entry(f"done-{number}", on - dt.timedelta(days=row["days"]), "done", work=({**row, "days": 0},))
        for number, row in enumerate(told.get("done", ()))
    ]
    tree = Tree("Anvil", "anvil", taxon, phase=told.get("phase", "ramification"), health=told.get("health", "healthy"))
    facts_then = gather(reading, tree, entries, PLACES[place], on, book)
    return Matcher(book, facts_then, almanac_for(on, PLACES[place], facts_then.entry, book.seasons), tells=False)


def target_of(work: str) -> Target:
    """work: a work, or "work:manner"."""
    name, _, manner = work.partition(":")
    spot = Spot(part="branch") if name in _ON_A_BRANCH else Spot()
    return Target(name, spot, manner=(manner,) if manner else ())


def verdict(work: str, matcher: Matcher) -> str:
    return weigh(target_of(work), matcher).option.verdict


def fits(row: Row, taxon: str, almanac: Almanac) -> bool:
    """Whether an invariant speaks of this tree on this day. What it does not name fits always."""
    entry = taxon_entry(taxon, built()[2].taxa)
    groups, traits = set(entry["groups"]), {name: cell["is"] for name, cell in entry["traits"].items()}
    if "group" in row and not groups & set(row["group"]):
        return False
    if groups & set(row.get("not_group", ())) or set(row.get("not_kind", ())) & set(entry["lineage"]):
        return False
    for name, wanted in row.get("trait", {}).items():
        if str(traits.get(name)) not in wanted:
            return False
    for name, unwanted in row.get("not_trait", {}).items():
        if name not in traits or str(traits[name]) in unwanted:
            return False
    if "between" in row and not almanac.between(*row["between"]):
        return False
    if "stage" in row and (almanac.guess is None or almanac.guess.stage not in row["stage"]):
        return False
    spans = (("frost_days", almanac.frost_days), ("spring_frost_days", almanac.spring_frost_days))
    return all(row[name][0] <= days() <= row[name][1] for name, days in spans if name in row)


def broken(asked: Iterable[Case], rows: Sequence[Row] = TABLES["never"]) -> Iterator[tuple[str, Asked]]:
    """The invariants of which some work comes out as `go` all the same."""
    for taxon, place, on, state in asked:
        held = [row for row in rows if state in row.get("state", _AT_ANY_TIME)]
        matcher = matcher_of(taxon, place, on, state) if held else None
        seen: dict[str, str] = {}
        for row in held if matcher else ():
            for work in row["work"] if fits(row, taxon, matcher.almanac) else ():
                if work not in seen:
                    seen[work] = verdict(work, matcher)
                if seen[work] == "go":
                    yield row["id"], Asked(taxon, place, on, state, work)


def shut(taxa: Sequence[str], days: Sequence[dt.date], place: str = "north") -> Iterator[tuple[str, str, str]]:
    """The invariants of `sometimes` that do not hold: id, taxon and the work that is `go` on none of the days.

    Of a genus the species may first be asked for.
    """
    for taxon in taxa:
        for row in TABLES["sometimes"]:
            state = row.get("state", "strong")
            asked = [matcher_of(taxon, place, on, state) for on in days] if _speaks_of(row, taxon) else []
            for work in row["work"] if asked else ():
                wanted = ("go",) if " " in taxon else ("go", "ask")
                if not any(verdict(work, matcher) in wanted for matcher in asked):
                    yield row["id"], taxon, work


def _speaks_of(row: Row, taxon: str) -> bool:
    return fits(row, taxon, matcher_of(taxon, "north", dt.date(2026, 6, 14), "strong").almanac)


def main(step: int) -> int:
    days = year(step)
    found = [f"{id}: {one.words}" for id, one in broken(itertools.product(kinds(), PLACES, days, STATES))]
    found += [f"{id}: {work} is never go on {taxon}" for id, taxon, work in shut(kinds(), days)]
    print(*found, sep="\n")
    print(
        f"{len(found)} of {len(TABLES['never'])} + {len(TABLES['sometimes'])} invariants broken, {len(kinds())} kinds"
    )
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 15))
