"""The answer to one statement, as the talk hands it over to be told: the advice, and what came of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import Advice, Ask
from benchmate.telling.lines import Line
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything that one statement gave.

    tree: name of the garden's tree that is meant, or None. advice: options, cautions and figures, where there are
    any. says: plain lines of an answer that is no advice (the record, what is due, what a word means), the first the
    answer itself. logged: entries that stand on the disk, or would stand (dry). unlogged: why words that belonged in
    the record are not there. confirm: what the grower must say yes to before anything is logged. asks: questions of
    the talk itself (which tree, which branch). aside: remarks ("taken as Lantern, the only hornbeam"). told_before:
    cautions that this session has had in full. follow: what to come back for. ends: the talk is over.
    logged_for: the tree of each entry of `logged`, where several trees are meant. own: what the grower
    planned or decided of the work that is asked about, the newest first.
    """

    reading: Reading
    on: dt.date
    tree: str | None = None
    advice: Advice | None = None
    says: tuple[str, ...] = ()
    logged: tuple[Entry, ...] = ()
    dry: bool = False
    unlogged: str | None = None
    confirm: str | None = None
    asks: tuple[Ask, ...] = ()
    aside: tuple[str, ...] = ()
    told_before: frozenset[str] = frozenset()
    units: str = "metric"
    ends: bool = False
    found: tuple[Any, ...] = ()
    lines: tuple[Line, ...] = ()
    logged_for: tuple[str, ...] = ()
    own: tuple[str, ...] = ()

    @property
    def all_asks(self) -> tuple[Ask, ...]:
        """Questions of the talk and of the advice, the most telling first, two at most, none twice."""
        asks = (*self.asks, *(self.advice.asks if self.advice else ()))
        seen: dict[str, Ask] = {}
        for ask in asks:
            seen.setdefault(ask.fact, ask)
        return tuple(seen.values())[:2]


def as_json(answer: Answer, told: str) -> dict[str, Any]:
    """The contract's object. Keys beyond the contract: `entries` (what was logged, whole), `follow`, `dry`,
    `not_logged`, `confirm`, `assumed`, `found`, `own`, each only where it says something."""
    advice = answer.advice
    out: dict[str, Any] = {
        "reading": answer.reading.as_json(),
        "tree": answer.tree,
        "on": answer.on.isoformat(),
        "options": [option.as_json() for option in advice.options] if advice else [],
        "cautions": [caution.as_json() for caution in advice.cautions] if advice else [],
        "asks": [ask.as_json() for ask in answer.all_asks],
        "figures": [figure.as_json() for figure in advice.figures] if advice else [],
        "logged": [] if answer.dry else [entry.id for entry in answer.logged],
        "told": told,
    }
    more: dict[str, Any] = {
        "entries": [entry_json(entry) for entry in answer.logged],
        "follow": [_plain(follow) for entry in answer.logged for follow in entry.follow],
        "dry": answer.dry,
        "not_logged": answer.unlogged,
        "confirm": answer.confirm,
        "assumed": list(advice.assumed) if advice else [],
        "dose_left": advice.dose_left if advice else None,
        "found": list(answer.found),
        "own": list(answer.own),
    }
    return out | {key: value for key, value in more.items() if value not in (None, [], False)}


def entry_json(entry: Entry) -> dict[str, Any]:
    """An entry with the keys of the journal; what is empty is left out."""
    out: dict[str, Any] = {"id": entry.id, "at": entry.at.isoformat(), "kind": entry.kind, "said": entry.said}
    more: dict[str, Any] = {
        "facts": [_plain(fact) for fact in entry.facts],
        "work": [_plain(work) for work in entry.work],
        "measures": dict(entry.measures),
        "reason": entry.reason,
        "refused": list(entry.refused),
        "follow": [_plain(follow) for follow in entry.follow],
        "strikes": entry.strikes,
        "photo": entry.photo,
        "when": entry.when,
        "ends": entry.ends,
        "named": entry.named,
        "expects": entry.expects,
        **entry.more,
    }
    return out | {key: value for key, value in more.items() if value}


def _plain(table: Mapping[str, Any]) -> dict[str, Any]:
    """A journal's table with its days as ISO text."""
    return {key: value.isoformat() if isinstance(value, dt.date) else value for key, value in table.items()}
