"""Faults of the words: one word for two things in the same place, and words that no sentence can use."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchmate.fault import Fault
from benchmate.rulebase import RuleTables

from ..figures.check import check_figure_words
from ..lattice.automaton import GRAMMAR
from .compiling import TERM_FILES, pattern_keys
from .spelling import spellings
from .words import split_words

# Small words whose values only sort them; the sentence makes nothing of the difference ("'s" for "is" and for "has").
_PLAIN = re.compile(r"[a-z \[\]/]+")  # a phrase whose spellings are their own words
_LOOSE = frozenset({"AUX", "SEP", "DET"})


def check_words(tables: RuleTables) -> list[Fault]:
    """Everything that is wrong with the words among themselves, sorted by place."""
    checks = (_unreachable, _double_terms, _double_patterns, check_figure_words)
    return sorted({fault for check in checks for fault in check(tables)})


def _unreachable(tables: RuleTables) -> Iterator[Fault]:
    """Token types that no rule of the grammar takes."""
    declared = set(re.findall(r"\b[A-Z]{2,}\b", GRAMMAR.read_text(encoding="utf-8")))
    for file in TERM_FILES:
        for kind in tables.tables.get(file, {}):
            if kind not in declared:
                path, line = tables.place_of(file, kind)
                yield Fault(
                    path,
                    line,
                    kind,
                    "no sentence of the grammar takes such words",
                    "use a type that stands in bench.lark",
                )


def _terms(tables: RuleTables) -> Iterator[tuple[str, str, str, str, str]]:
    """(file, table, type, value, phrase) of every phrase that is written."""
    for file in TERM_FILES:
        for kind, values in tables.tables.get(file, {}).items():
            for value, phrases in values.items():
                for phrase in phrases:
                    yield file, kind, kind, value, phrase
    for name, state in tables.tables.get("words/states.toml", {}).get("state", {}).items():
        for phrase in state.get("says", []):
            yield "words/states.toml", f"state.{name}", "STATE", name, phrase
    for figure, cell in tables.tables.get("words/figures.toml", {}).get("figure", {}).items():
        for phrase in cell.get("asks", []):
            if "[" not in phrase:
                yield "words/figures.toml", f"figure.{figure}", "QFIGURE", figure, phrase


def _double_terms(tables: RuleTables) -> Iterator[Fault]:
    contractions = tables.tables.get("words/contractions.toml", {})
    short, bare = contractions.get("short", {}), contractions.get("bare", {})
    contracted = {*short, *bare}
    seen: dict[tuple[str, str], str] = {}
    for file, table, kind, value, written in _terms(tables):
        if kind in _LOOSE:
            continue
        plain = _PLAIN.fullmatch(written) and contracted.isdisjoint(re.findall("[a-z]+", written))
        for phrase in spellings(written):
            words = phrase if plain else " ".join(word.text for word in split_words(phrase, short, bare))
            before = seen.setdefault((kind, words), value)
            if before != value:
                path, line = tables.place_of(file, table)
                yield Fault(path, line, value, f"'{phrase}' already means {before}", "leave it out of one of the two")


def _double_patterns(tables: RuleTables) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    for file, table in tables.tables.items():
        if not file.startswith("works/"):
            continue
        for work, cell in table.get("work", {}).items():
            for pattern in cell.get("says", []):
                for key in pattern_keys(pattern):
                    before = seen.setdefault(key, work)
                    if before != work:
                        path, line = tables.place_of(file, f"work.{work}")
                        yield Fault(
                            path, line, work, f"'{pattern}' already means {before}", "leave it out of one of the two"
                        )
