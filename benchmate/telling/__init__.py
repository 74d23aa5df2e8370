"""Telling: answers, records, lists and rules in; lines of plain English, or JSON, out.

It reads values alone: it opens no file, asks no clock, and decides nothing that the advice has not decided.
"""

from benchmate.telling.answer import Answer, as_json
from benchmate.telling.lines import Line, escape, lay
from benchmate.telling.told import tell

__all__ = ["Answer", "Line", "as_json", "escape", "lay", "tell"]
