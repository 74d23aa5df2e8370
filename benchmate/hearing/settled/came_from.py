"""Where a tree came from: "it was collected in the Alps", "collected in 2016, never repotted" is no work of today."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import DONE
from ..reading import Fact, Spot
from ..vocabulary.lexicon import Lexicon


def came_from(clauses: Sequence[Clause], lexicon: Lexicon, on: str) -> None:
    """How trees are come by is an event where the passive tells it of no day, or a participle alone of years ago. on:
    today, ISO."""
    origins = lexicon.sense["origins"]
    for clause in clauses:
        clause.passive = [
            (work, event) for work, event in clause.passive if event.when is not None or work.work not in origins
        ]
        named = clause.by_grower or clause.refers or clause.facts  # "I dug it up", "dug up a yew last October"
        if clause.kind != "decide" or clause.topic or named or not _years_ago(clause.when, on):
            continue
        told = [work for work in clause.work if work.work in origins and work.done == DONE and work.spot == Spot()]
        if len(told) == 1 == len(clause.work):
            clause.facts.append(Fact("event", str(told[0].work), Spot(), {}, clause.when, span=told[0].span))
            clause.work, clause.when, clause.acts = [], None, ["observe"]
            clause.mood = replace(clause.mood, event=True) if clause.mood is not None else None


def _years_ago(when: str | None, on: str) -> bool:
    return when is not None and when[:4].isdigit() and int(when[:4]) < int(on[:4]) - 1
