"""Telling: answers, records, lists and rules in; lines of plain English, or JSON, out.

It reads values alone: it opens no file, asks no clock, and decides nothing that the advice has not decided.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchmate.telling.answer import Answer, as_json
    from benchmate.telling.lines import Line, escape, lay
    from benchmate.telling.told import tell

_WHERE = {"Answer": "answer", "Line": "lines", "as_json": "answer", "escape": "lines", "lay": "lines", "tell": "told"}

__all__ = ["Answer", "Line", "as_json", "escape", "lay", "tell"]


def __getattr__(name: str) -> Any:
    """Import a public name when it is first used: a reading or a list needs no answer."""
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
