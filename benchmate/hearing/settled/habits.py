"""Work told as a habit: "I've been watering every day" tells what was done up to now, and is no plan."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..amounts.date_spans import first_time
from ..clauses import Clause
from ..done.doing import DONE, NOW

EVERY = "every_days"


def as_habits(clauses: Sequence[Clause], on: str) -> None:
    """Set work of a habit as done, up to today, with the days from one time to the next. on: today, ISO."""
    for clause in clauses:
        mood = clause.mood
        if not clause.every or not clause.work or mood is None or clause.topic or clause.until:
            continue
        if mood.done != DONE and not (mood.habit and mood.done == NOW):
            continue
        if clause.when == first_time(clause.every, on):
            clause.when = None
        clause.mood = replace(mood, done=DONE)
        often = {EVERY: float(clause.every)}
        clause.work = [replace(work, done=DONE, measures={**work.measures, **often}) for work in clause.work]
