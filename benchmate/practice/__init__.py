"""In: a reading, a tree's record, a place, a day. Out: advice, with every reason, question and doubt named.

Never reads a file, never writes, never looks at the clock; knows nothing that the rules do not say.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from benchmate.practice.advise import advise
from benchmate.practice.book import RuleBook, book_as_plain, book_from_plain
from benchmate.practice.facts import Facts
from benchmate.practice.gather import gather

if TYPE_CHECKING:
    from benchmate.practice.compile import compile_book

__all__ = ["Facts", "RuleBook", "advise", "book_as_plain", "book_from_plain", "compile_book", "gather"]


def __getattr__(name: str) -> Any:
    """Compiling is for a start that finds nothing compiled."""
    if name != "compile_book":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from benchmate.practice import compile as compiler

    return compiler.compile_book
