"""All that is compiled from the rules, at once: for a copy that is to be installed where nothing is written."""

from __future__ import annotations

from pathlib import Path

from benchmate.rulebase import CompiledStore
from benchmate.rulebase.cache import SHIPPED, shipped_stamp
from benchmate.talk.house import House


def warm(rules: Path, into: Path) -> list[Path]:
    """Compile the rules of a folder into another one, with the stamp by which an installed copy knows them again.

    Gives the files that belong into `benchmate/compiled` of the copy, the stamp last. into: an empty folder.
    """
    from benchmate.talk.asked.plans import plan_book

    house = House(None, rules)
    house.store = CompiledStore((into,))
    kept = (
        house.ear,
        house.book,
        house.figure_tables,
        house.figure_words,
        house.glossary,
        house.told_works,
        house.answers,
    )
    for _ in (*kept, plan_book(house)):
        pass
    mark, stamp = shipped_stamp(house.rule_folders)
    (into / SHIPPED).parent.mkdir(parents=True)
    (into / SHIPPED).write_bytes(stamp)
    return [*sorted(into.glob(f"[!s]*-{mark}.json")), into / SHIPPED]
