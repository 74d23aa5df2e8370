"""Faults of the words of figure questions: one phrase for two things between which it cannot tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from benchmate.fault import Fault
from benchmate.rulebase import RuleTables

from .words import pieces_of

FILE, OPENINGS, NUMBERS = "words/figure_questions.toml", "words/figures.toml", "words/numbers.toml"
_APART = (("stops", "pauses"), ("single_days", "two_edged"), ("meant_ahead", "meant_back"))
_SIDES = ("near", "before", "after")
Said = tuple[str, str, str]  # (table, what a phrase is for, phrase)


def check_figure_words(tables: RuleTables) -> Iterator[Fault]:
    """Every phrase that stands for two things in the same place, with both named."""
    file = tables.tables.get(FILE, {})
    yield from _doubles(tables, _units(tables.tables.get(NUMBERS, {}), file))
    for section in ("counted", "rate"):
        yield from _doubles(tables, [(section, key, p) for key, says in file.get(section, {}).items() for p in says])
    small = file.get("small", {})
    for names in [(name,) for name in small if isinstance(small[name], list)] + list(_APART):
        yield from _doubles(tables, [("small", name, word) for name in names for word in small.get(name, ())])
    yield from _asked_already(tables, file)
    for figure, cell in file.get("figure", {}).items():
        for said in _of_figure(f"figure.{figure}", cell):
            yield from _doubles(tables, said)


def _doubles(tables: RuleTables, said: Iterable[Said]) -> Iterator[Fault]:
    """Phrases that are told for two things, or twice for one."""
    seen: dict[tuple[str, ...], str] = {}
    for table, sense, phrase in said:
        for pieces in pieces_of(phrase):
            before = seen.setdefault(pieces, sense)
            if before != sense:
                path, line = tables.place_of(FILE, table)
                yield Fault(path, line, table, f"'{phrase}' of {sense} already means {before}", "leave one of them out")


def _units(numbers: Mapping[str, Any], file: Mapping[str, Any]) -> Iterator[Said]:
    for source in (numbers, file):
        for name, unit in source.get("unit", {}).items():
            for word in unit.get("says", ()):
                yield "unit", name, word


def _asked_already(tables: RuleTables, file: Mapping[str, Any]) -> Iterator[Fault]:
    """Phrases that ask by a word which asks wherever it stands."""
    words = set(tables.tables.get(OPENINGS, {}).get("asking", {}).get("words", ()))
    for phrase in file.get("asking", {}).get("says", ()):
        if word := next((piece for piece in phrase.split() if piece in words), None):
            path, line = tables.place_of(FILE, "asking")
            yield Fault(path, line, "asking", f"'{phrase}' already asks by '{word}' of {OPENINGS}", "leave it out")


def _of_figure(table: str, cell: Mapping[str, Any]) -> Iterator[list[Said]]:
    """The lists of one figure in each of which a phrase may stand for one thing only."""
    for group, weights in cell.get("cues", {}).items():
        where = f"{table}.cues.{group}"
        yield [(where, f"weight {weight}", phrase) for weight, says in weights.items() for phrase in says]
    for name, values in cell.get("values", {}).items():
        where = f"{table}.values.{name}"
        yield [(where, value, phrase) for value, says in values.items() for phrase in says]
    roles = cell.get("roles", {})
    for kind in {_told_by(role) for role in roles.values()}:
        alike = [(name, role) for name, role in roles.items() if _told_by(role) == kind]
        for side in _SIDES:
            yield [(f"{table}.roles", name, phrase) for name, role in alike for phrase in role.get(side, ())]


def _told_by(role: Mapping[str, Any]) -> tuple[str, ...]:
    """What tells a number of a role from one of another though the same words stand beside both."""
    return (str(role.get("is")), *role.get("tags", ()))
