"""The values that rules may name, gathered from the files that give them their words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from benchmate.rulebase.read import RuleTables, Table

Vocabulary = Mapping[str, frozenset[str]]


def vocabulary(tables: RuleTables) -> Vocabulary:
    """Known values by kind: work (with groups of works), part, stage, finding, health, phase, weather, caution, rule,
    source, group, taxon, trait."""
    out: dict[str, set[str]] = {kind: set() for kind in _KINDS}
    for name, table in tables.tables.items():
        if name.startswith("works/"):
            out["work"] |= set(table.get("work", {})) | {str(w.get("group")) for w in table.get("work", {}).values()}
        for section, kind in (("caution", "caution"), ("source", "source"), ("group", "group")):
            if isinstance(table.get(section), dict):
                out[kind] |= set(table[section])
        if "taxon" in table:
            out["taxon"].add(str(table["taxon"]))
        for section in ("rule", "cap", "root_cap"):
            rows = table.get(section, ())
            out["rule"] |= {str(row["id"]) for row in rows if isinstance(row, dict) and "id" in row}
    for kind, value in _meanings(tables.tables.get("words/states.toml", {})):
        if kind in out:
            out[kind].add(value)
    out["finding"] |= set(tables.tables.get("words/findings.toml", {}).get("FINDING", {}))
    out["part"] |= {p for p in tables.tables.get("words/places.toml", {}).get("PART", {}) if not p.startswith("~")}
    for trait, values in tables.tables.get("words/traits.toml", {}).get("trait", {}).items():
        out["trait"] |= {f"{trait}:{value}" for value in values}
    out["work"] |= {"any"}
    out["part"] |= {"tree"}
    return {kind: frozenset(values) for kind, values in out.items()}


_KINDS = (
    "work",
    "part",
    "stage",
    "finding",
    "health",
    "phase",
    "weather",
    "caution",
    "rule",
    "source",
    "group",
    "taxon",
    "trait",
)


def _meanings(states: Table) -> Iterator[tuple[str, str]]:
    """Every kind and value that a state word can mean ("stage:dormant")."""

    def walk(value: Any) -> Iterator[tuple[str, str]]:
        if isinstance(value, dict):
            for key, inner in value.items():
                if key != "says":
                    yield from walk(inner)
        elif isinstance(value, str) and ":" in value:
            kind, _, what = value.partition(":")
            yield kind, what

    yield from walk(states)
