"""What is told of words that say nothing which the bench could act on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.talk.statement import yes_or_no
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def not_understood(turn: Turn) -> str:
    """That nothing was understood, and what may be said; of a bare yes or no, that nothing waits for one."""
    said = yes_or_no(turn.reading.said)
    if said is None:
        return "That was not understood: say it another way, or keep it with note: and the words"
    turn.reading = replace(turn.reading, missed=())
    if turn.before.advice and turn.before.advice.asks:
        return f"A yes or a no leaves that open, so say it whole: {turn.before.advice.asks[0].says}"
    if said is False and turn.before.made:
        return "What was put down stands: to correct it say what it should have been, or scratch that"
    return "Nothing waits for a yes or a no"
