"""What is wrong with a file, where, and what mends it."""

from __future__ import annotations

from typing import Any

from benchmate.value import dataclass


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
