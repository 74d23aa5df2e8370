"""A bare length behind what was done: "shortened the low left branch", then "to about 5 cm"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_LOOSE = frozenset({"height_mm", "diameter_mm"})  # what hearing makes of a length alone, and of "12 mm thick"


def size_after(short: Short, talk: Context) -> Reading | None:
    """The size as one of the work that was logged just before, where that work has such a size, or None."""
    last, heard = talk.amends, short.heard
    if last is None or not talk.made or heard.acts != ("observe",) or set(heard.refers) - {"it"}:
        return None
    told = [work for work in last.work if work.work and work.done in ("done", "now")]
    beside = heard.facts or heard.work or heard.candidates or heard.tree or heard.figure or heard.when or heard.missed
    if len(told) != 1 or beside or len(heard.measures) != 1 or set(heard.measures) - _LOOSE:
        return None
    ((name, number),) = heard.measures.items()
    named = {words[0] for words in map(str.split, short.lexicon.numbers["dimension"]["height_mm"])}
    if named & set(short.texts) or set(short.texts) & set(short.lexicon.sense["whole_tree"]):
        return None
    size = _size_of(told[0], name, number, short)
    return Reading(short.said, ("correct",), work=(Work(told[0].work, measures={size: number}),)) if size else None


def _size_of(work: Work, name: str, number: float, short: Short) -> str | None:
    table, spot = short.lexicon.numbers["bare_after"], work.spot
    placed = bool(spot.side or spot.level or spot.ordinal or spot.part)
    if "it" in short.heard.refers and not placed:
        return None  # "pruned it", "it is 45 cm": the tree
    left = short.texts[:1] == ["to"] or bool(set(short.texts) & set(short.lexicon.sense["what_is_left"]))
    if name == "height_mm" and ((left and work.work in table["cut_to"]) or work.work in table["long"]):
        return "length_mm"
    return "diameter_mm" if work.work in table["thick"] and number <= table["thick_most_mm"] else None
