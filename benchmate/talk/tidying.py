"""When memory is tidied in a talk: between the answers, while the grower reads, and never in the middle of one."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator
from typing import TypeVar

Statement = TypeVar("Statement")
WHOLE = 20  # answers from one tidying of all that is held to the next; in between only what is young


def tidied_between(statements: Iterable[Statement]) -> Iterator[Statement]:
    """The same statements. Going over all the objects of a large garden takes longer than most answers do."""
    on = gc.isenabled()
    gc.disable()
    try:
        for number, statement in enumerate(statements, 1):
            yield statement
            gc.collect(1 if number % WHOLE else 2)
    finally:
        if on:
            gc.enable()
