"""The line at the bottom: tree, day, stage, dose left."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.telling.dates import MONTHS, day_words
from benchmate.telling.wording import list_words

if TYPE_CHECKING:
    from benchmate.practice.facts import Facts
    from benchmate.talk.bench import Bench

_SEP = " | "
_MOST_NAMES = 3
_DRY = ("dry: nothing is logged", "dry", "dry")


def status_words(bench: Bench, width: int | None = None) -> str:
    """Tree, day, stage and dose left, as far as they are known, in the longest form that the width has room for.

    width: columns, None for any. The shortest form stands even where it does not fit: then the screen folds it.
    """
    here, facts = bench.here, _facts(bench)
    name = here.name if here else bench.context.species or _names(bench.context.those) or "no tree yet"
    left = _dose(bench, facts) if facts else None
    for form in (0, 1, 2):
        bits = [name, _day(bench.on, form)]
        if bench.dry:
            bits.append(_DRY[form])
        if facts and (stage := stage_words(facts, short=form == 2)):
            bits.append(stage)
        if left is not None:
            bits.append(f"{left * 100:.0f} %{(' leaf left', ' left', '')[form]}")
        words = (_SEP, _SEP, " ")[form].join(bits)
        if width is None or len(words) <= width:
            break
    return words


def _names(those: tuple[str, ...]) -> str:
    """The trees that are spoken of, where they are several."""
    return list_words(list(those)) if len(those) <= _MOST_NAMES else f"{len(those)} trees"


def _day(on: dt.date, form: int) -> str:
    return day_words(on) if form == 0 else f"{on.day} {MONTHS[on.month - 1][:3]}"


def stage_words(facts: Facts, *, short: bool = False) -> str:
    """The growth stage and flush that hold, and that the date only suggests it where nobody said: "hardened, flush 2"
    or, short, "hardened 2"."""
    stages = [known for known in facts.of("stage") if not known.denied]
    flush = facts.first("flush")
    if not stages:
        return ""
    words = str(stages[0].value).replace("-", " ")
    if flush:
        words += f" {flush.value}" if short else f", flush {flush.value}"
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
