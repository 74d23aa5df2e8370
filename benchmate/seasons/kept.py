"""What was worked out of season tables and what it hangs on, kept while a process lives: many days and trees ask the
same. Tables are known by their identity, since nothing changes them once they are read."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from typing import Any, Generic, TypeVar

Made = TypeVar("Made")


class Kept(Generic[Made]):
    """Results by tables and key. most: how many are kept before all go."""

    def __init__(self, most: int) -> None:
        self._most = most
        # the tables are held beside the result, so that their identity stays theirs
        self._made: dict[tuple[int, Hashable], tuple[Mapping[str, Any], Made]] = {}

    def get(self, tables: Mapping[str, Any], key: Hashable, make: Callable[[], Made]) -> Made:
        """The result for the key, made where it is not kept."""
        full = id(tables), key
        found = self._made.get(full)
        if found is None:
            if len(self._made) >= self._most:
                self._made.clear()
            found = self._made[full] = (tables, make())
        return found[1]
