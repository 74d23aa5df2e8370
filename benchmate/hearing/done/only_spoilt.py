"""Leaves that were seen spoilt and then taken off: those, and never all."""

from __future__ import annotations

from benchmate.value import replace

from ..reading import NOWHERE, Reading, Work
from ..vocabulary.lexicon import Lexicon

_FEW = ("sick", "old")  # what tells a few leaves of a work apart: that they are spoilt, or of last year
_ALL = "all"  # the manner of work on every one of them


def only_the_spoilt(reading: Reading, lexicon: Lexicon) -> Reading:
    """ "The leaves have orange spots, took them off", "took the spotty leaves off": work on all leaves, told behind
    what a few of them suffer from, is work on those few, unless every one of them is said."""
    if not reading.work or not reading.facts:
        return reading
    cells = [(name, cell[key]) for name, cell in lexicon.works.items() for key in _FEW if key in cell]
    parts = [part for part, counted in lexicon.amount.items() if counted == "leaves"]

    def spared(work: Work) -> Work:
        for name, sick in cells:
            found = [fact for fact in reading.facts if fact.value in sick["findings"] and not fact.denied]
            seen = [fact for fact in found if fact.spot.part in (None, *parts)]
            before = any(fact.span[0] <= work.span[0] for fact in seen)
            within = any(
                work.span[0] <= fact.span[0]
                and set(reading.said[fact.span[0] : fact.span[1]].lower().split()) & set(sick.get("leaves", ()))
                for fact in seen
            )
            bare = work.work == sick.get("bare") and (within or (before and sick.get("them", False)))
            words = set(reading.said[work.span[0] : work.span[1]].lower().split())
            few = bare or (work.work == sick.get("whole") and before and bool(words & set(sick["pronouns"])))
            if few and work.spot == NOWHERE and _ALL not in work.manner and "share" not in work.measures:
                return replace(work, work=name, manner=(*work.manner, sick["manner"]))
        return work

    return replace(reading, work=tuple(spared(work) for work in reading.work))
