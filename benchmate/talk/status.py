"""The line at the bottom: tree, day, stage, dose left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.telling.dates import day_words

if TYPE_CHECKING:
    from benchmate.practice.facts import Facts
    from benchmate.talk.bench import Bench

_SEP = " | "


def status_words(bench: Bench) -> str:
    """Tree, day, stage and dose left, as far as they are known."""
    here = bench.here
    bits = [here.name if here else bench.context.species or "no tree yet", day_words(bench.on)]
    if bench.dry:
        bits.append("dry: nothing is logged")
    facts = _facts(bench)
    if facts and (stage := stage_words(facts)):
        bits.append(stage)
    if facts and (left := _dose(bench, facts)) is not None:
        bits.append(f"{left * 100:.0f} % leaf left")
    return _SEP.join(bits)


def stage_words(facts: Facts) -> str:
    """The growth stage and flush that hold, and that the date only suggests it where nobody said."""
    stages = [known for known in facts.of("stage") if not known.denied]
    flush = facts.first("flush")
    if not stages:
        return ""
    words = str(stages[0].value).replace("-", " ")
    if flush:
        words += f", flush {flush.value}"
    return words + ("?" if stages[0].origin in ("season", "default") else "")


def known_words(bench: Bench) -> list[str]:
    """What is known of the tree at hand, each with where it comes from."""
    facts = _facts(bench)
    if facts is None:
        return []
    shown = [known.told for known in facts.all if not (known.kind == "stage" and known.denied)]
    return list(dict.fromkeys(shown))


def _facts(bench: Bench) -> Facts | None:
    from benchmate.practice import gather

    here, context = bench.here, bench.context
    if here is None and context.species is None:
        return None
    house = bench.house
    return gather(Reading(""), here, house.entries(here), house.place, bench.on, house.book, context.facts)


def _dose(bench: Bench, facts: Facts) -> float | None:
    from benchmate.practice import advise

    house = bench.house
    return advise(Reading(""), facts, house.book, house.place, bench.on).dose_left
