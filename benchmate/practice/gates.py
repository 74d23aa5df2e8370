"""The index from what is known to the rules that it touches.

Each rule stands behind one gate: the clause of its condition that is true of the fewest trees. A rule whose gate is
shut is false whatever else is so, and is never looked at; so the time to match grows with the rules that the facts
touch, not with the rules there are. A gate opens for what is true and for what is unknown.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.practice.book import Rule
from benchmate.practice.condition import UNSEEN, Claim, Clause
from benchmate.practice.facts import Facts
from benchmate.practice.taxa import lineage_of
from benchmate.practice.truth import CLOSED

ALWAYS = "always"
# most telling first: true of fewer trees, so the gate is shut more often
_ORDER = ("means", "finding", "weather", "species", "trait", "event", "phase", "health", "flush", "stage")

Index = dict[str, dict[str, list[int]]]


def build_index(rules: Iterable[Rule]) -> Index:
    """work -> gate -> numbers of rules."""
    index: Index = {}
    for number, rule in enumerate(rules):
        for work in rule.work:
            gates = index.setdefault(work, {})
            for key in gate_keys(rule):
                gates.setdefault(key, []).append(number)
    return index


def gate_keys(rule: Rule) -> set[str]:
    """The keys that open the rule's gate; it must be looked at when any of them is so, or may be."""
    if rule.manner:
        return {f"manner:{rule.manner}"}
    best: tuple[int, set[str]] = (len(_ORDER), {ALWAYS})
    for clause in rule.condition:
        rank, keys = _clause_keys(clause)
        if rank < best[0]:
            best = rank, keys
    if rule.within and best[0] > _ORDER.index("event"):
        return {"event", *(f"event:{work}" for work, _ in rule.within[:1])}
    return best[1]


def _clause_keys(clause: Clause) -> tuple[int, set[str]]:
    """A clause can be a gate when each of its alternatives has a test that is not a denial."""
    rank, keys = 0, set()
    for tests in clause:
        usable = [test for test in tests if not test.denied and test.kind in _ORDER and test.ever != UNSEEN]
        if not usable:
            return len(_ORDER), {ALWAYS}
        test = min(usable, key=lambda test: _ORDER.index(test.kind))
        rank = max(rank, _ORDER.index(test.kind))
        keys |= _test_keys(test)
    return rank, keys


def _test_keys(test: Claim) -> set[str]:
    value = str(test.value)
    keys = {f"{test.kind}:{value}"}
    if test.kind in CLOSED:
        return keys
    if test.kind == "species":
        lineage = lineage_of(value)
        return keys | {"species"} | ({f"below:{lineage[-1]}"} if len(lineage) > 1 else set())
    if test.kind == "trait":
        name = value.partition(":")[0]
        return keys | {"species"} | ({f"unknown:{name}"} if name != "group" else set())
    return keys | {test.kind}


def open_keys(facts: Facts, book_traits: Iterable[str]) -> list[str]:
    """All keys that are so or may be so for these facts. A kind's bare name opens all of its gates."""
    keys = [ALWAYS]
    for kind in CLOSED:
        keys += [f"{kind}:{known.value}" for known in facts.of(kind) if not known.denied]
    keys += _taxon_keys(facts, book_traits)
    for kind in ("health", "phase", "flush"):
        known = facts.first(kind)
        keys.append(f"{kind}:{known.value}" if known else kind)
    stages = facts.of("stage")
    keys += [f"stage:{known.value}" for known in stages if not known.denied] if stages else ["stage"]
    keys += [f"event:{done.work}" for done in facts.done]
    if not facts.tree:
        keys.append("event")
    return list(dict.fromkeys(keys))


def _taxon_keys(facts: Facts, book_traits: Iterable[str]) -> list[str]:
    said = [f"trait:{known.value}" for known in facts.of("trait") if not known.denied]
    if facts.taxon is None:
        return ["species", *said]
    entry: Mapping[str, Any] = facts.entry
    keys = [*said, *(f"species:{taxon}" for taxon in entry["lineage"]), f"below:{facts.taxon}"]
    keys += [f"trait:group:{group}" for group in (*entry.get("groups", ()), *entry.get("some", ()))]
    traits = entry.get("traits", {})
    for name in book_traits:
        cell = traits.get(name)
        if cell is None:
            keys.append(f"unknown:{name}")
            continue
        held = cell["is"]
        values = held if isinstance(held, list) else [("yes" if held else "no") if isinstance(held, bool) else held]
        keys += [f"trait:{name}:{value}" for value in values]
        if isinstance(held, bool):
            keys.append(f"trait:{name}:{'true' if held else 'false'}")
    return keys
