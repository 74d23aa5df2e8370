"""The vocabulary's own names, which may stand in a condition as they are, also where they would be no sentence."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Plain = dict[str, Any]


def vocabulary_names(tables: Mapping[str, Plain]) -> dict[str, tuple[str, str]]:
    """The names of findings, of weather and of means, as words -> kind and value.

    >>> vocabulary_names({"words/findings.toml": {"FINDING": {"wire-on": []}}})
    {'wire on': ('finding', 'wire-on')}
    """
    out: dict[str, tuple[str, str]] = {}
    for section, kind in (("MEANS", "means"), ("WEATHER", "weather"), ("FINDING", "finding")):
        for name in tables.get("words/findings.toml", {}).get(section, {}):
            out[name.replace("-", " ")] = kind, name
    for state in tables.get("words/states.toml", {}).get("state", {}).values():
        for meaning in _meanings(state):
            kind, _, value = meaning.partition(":")
            if kind == "finding":
                out.setdefault(value.replace("-", " "), (kind, value))
    return out


def _meanings(value: Any) -> Iterator[str]:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key != "says":
                yield from _meanings(inner)
    elif isinstance(value, str) and ":" in value:
        yield value
