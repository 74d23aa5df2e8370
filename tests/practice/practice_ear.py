"""Readings made by hand, so that the practice room is tested on values alone."""

from __future__ import annotations

import datetime as dt

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import NOWHERE, Fact, Missed, Reading, Spot, Work

PLACE = Place("Test garden", 51.5, -0.5, (4, 25), (10, 20))
SOUTH = Place("South garden", -35.3, 149.1, (10, 28), (4, 18))
TROPIC = Place("Warm garden", 1.35, 103.8)

_HEALTH = ("strong", "healthy", "recovering", "weak", "declining")
_PHASE = ("structure phase", "refinement phase", "show phase")
_STAGE = ("dormant", "buds swelling", "bud break", "leafing out", "hardened", "extending")
_FINDING = ("weak branch", "dead branch", "competing leaders", "dieback", "crossing", "dry", "wilting", "wire biting")
_TAXA = {"Acer": "maple", "Fagus": "beech", "Pinus": "pine", "Ulmus parvifolia": "Chinese elm", "Taxus": "yew"}
_GROUP = ("conifer", "broadleaf")
_TRAIT = {
    "single flush": "flush:single",
    "bleeder": "bleeding:yes",
    "toxic": "toxicity:toxic",
    "deadly": "toxicity:deadly",
}


def hear_by_hand(words: str) -> Reading:
    """A tiny ear: whole phrases only, "not" and "no" before, "tree" after; anything else is missed."""
    text = words.strip().removesuffix(" tree")
    denied = text.startswith(("not ", "no "))
    text = text.removeprefix("not ").removeprefix("no ").removeprefix("a ")
    fact: Fact | None = None
    if text in _HEALTH:
        fact = Fact("health", text)
    elif text in _PHASE:
        fact = Fact("phase", text.split()[0])
    elif text in _STAGE:
        fact = Fact("stage", text.replace(" ", "-"))
    elif text in _FINDING:
        fact = Fact("finding", text.replace(" ", "-"))
    elif text in ("first flush", "second flush"):
        fact = Fact("flush", 1 if text.startswith("first") else 2)
    elif text in _GROUP:
        fact = Fact("trait", f"group:{text}")
    elif text in _TRAIT:
        fact = Fact("trait", _TRAIT[text])
    elif text == "repotted this season":
        fact = Fact("event", "repot", when="2001")
    else:
        fact = next((Fact("species", taxon) for taxon, name in _TAXA.items() if name == text), None)
    if fact is None:
        return Reading(words, missed=(Missed(words, (0, len(words))),))
    return Reading(words, ("observe",), facts=(Fact(fact.kind, fact.value, when=fact.when, denied=denied),))


def ask(
    work: str, *facts: Fact, spot: Spot = NOWHERE, manner: tuple[str, ...] = (), topic: str = "may", **measures: float
) -> Reading:
    """A question about one work."""
    return Reading("by hand", ("ask",), topic, facts, (Work(work, spot, measures, None, manner),))


def done(day: str, work: str, **more: object) -> Entry:
    """A journal entry of work done."""
    at = dt.date.fromisoformat(day)
    return Entry(f"{day}-{work}", at, "done", work=({"work": work, **more},))


def seen(day: str, kind: str, value: str, **more: object) -> Entry:
    """A journal entry of something seen."""
    at = dt.date.fromisoformat(day)
    return Entry(f"{day}-{value}", at, "seen", facts=({"kind": kind, "value": value, **more},))


def tree(species: str = "Acer campestre", **more: object) -> Tree:
    return Tree("Anvil", "anvil", species, **more)  # type: ignore[arg-type]
