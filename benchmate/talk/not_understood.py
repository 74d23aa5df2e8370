"""What is told of words that say nothing which the bench could act on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.talk.statement import yes_or_no

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def not_understood(turn: Turn) -> str:
    """That nothing was understood, and what may be said; of a bare yes or no, that nothing waits for one."""
    said = yes_or_no(turn.reading.said)
    if said is None:
        return "That was not understood: say it another way, or keep it with note: and the words"
    if said is False and turn.before.made:
        return "What was put down stands: to correct it say what it should have been, or scratch that"
    return "Nothing waits for a yes or a no"
