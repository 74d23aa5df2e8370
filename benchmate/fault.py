"""What is wrong with a file, where, and what mends it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from benchmate.value import dataclass

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault of a rule or garden file. Faults are collected, not raised, so that one run shows all of them.

    path: as the user would type it. line: 1 and up, 0 where no line is known. id: the rule, entry or key at fault,
    or "". problem: what was found. remedy: what mends it.
    """

    path: str
    line: int
    id: str
    problem: str
    remedy: str

    def __str__(self) -> str:
        place = f"{self.path}:{self.line}" if self.line else self.path
        name = f"{self.id}: " if self.id else ""
        return f"{place}: {name}{self.problem}; {self.remedy}"

    def as_json(self) -> dict[str, Any]:
        return {name: getattr(self, name) for name in self.__match_args__}


class UserError(Exception):
    """The user's input or files are at fault: one plain line for stderr, exit status 1."""


def unless_broken(make: Callable[[], Made], faults: Callable[[], Sequence[Fault]]) -> Made:
    """What is made from files that were read. Raises UserError where one that does not read lacks in it.

    faults: of the files; asked for only where something lacks.
    """
    try:
        return make()
    except (KeyError, AttributeError):
        if not (found := faults()):
            raise
        raise UserError(f"the rules do not read: {found[0]}") from None
