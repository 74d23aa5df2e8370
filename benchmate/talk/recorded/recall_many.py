"""The record of many trees asked at once: days from the garden's index, and only the entries that will be shown."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading
from benchmate.talk.dates import span_asked

if TYPE_CHECKING:
    from benchmate.garden import Garden

MANY = 12
SHOWN, NAMED = 12, 6  # lines of an answer, and trees that it names for what it leaves out


def newest_of(
    reading: Reading, garden: Garden, trees: Sequence[Tree], on: dt.date, southern: bool
) -> tuple[Mapping[str, Sequence[Entry]], Mapping[str, int]]:
    """(tree name -> the newest entries that answer the question, work -> how many there are in all).

    What `recall` tells of these is what it would tell of all the journals. With no work the count stands under "".
    """
    span = span_asked(reading, on, southern)
    start, end = (span[0].toordinal(), span[1].toordinal()) if span else (0, on.toordinal())
    days = garden.days()
    wanted: dict[str, set[int]] = {}
    counts: dict[str, int] = {}
    for work in [work.work for work in reading.work if work.work] or [""]:
        kinds = ("done", "left") if work in ("leave", "wait") else ("done",)
        dated = [(day, tree.folder) for tree in trees for day in days.of(tree.folder, work, kinds)]
        within = sorted((pair for pair in dated if start <= pair[0] <= end), key=lambda pair: pair[0], reverse=True)
        counts[work] = len(within)
        before = [max((pair for pair in dated if pair[0] <= start), key=lambda pair: pair[0], default=None)]
        for day, folder in _shown(within) if within else [pair for pair in before if pair and span]:
            wanted.setdefault(folder, set()).add(day)
    journals = {}
    for tree in trees:
        if asked := wanted.get(tree.folder):
            held = Counter(day for day in days.of(tree.folder) if day in asked)
            journals[tree.name] = garden.entries_of_days(tree, asked, held)
    return journals, counts


def _shown(dated: Sequence[tuple[int, str]]) -> Sequence[tuple[int, str]]:
    """The newest: as many as are shown, and on until as many trees are among them as are named."""
    folders: set[str] = set()
    for number, (_, folder) in enumerate(dated, 1):
        folders.add(folder)
        if number > SHOWN and len(folders) >= NAMED:
            return dated[:number]
    return dated
