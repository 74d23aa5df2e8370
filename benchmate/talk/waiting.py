"""What waits for the grower's word: by what it is settled, and of which tree it was said."""

from __future__ import annotations

from benchmate.hearing.reading import Reading
from benchmate.talk.context import Pending
from benchmate.talk.statement import yes_or_no
from benchmate.telling.answer import Answer
from benchmate.value import replace


def settles(answer: Answer, pending: Pending) -> bool:
    """Whether a statement settles what waited: a yes or a no, "scratch that", the same or a correction of it, work told
    anew and logged; and for something that was to be taken back, that it is asked for again."""
    said, before = answer.reading, pending.reading
    if yes_or_no(said.said) is not None or said.said.startswith(before.said):
        return True
    if answer.says == ("Nothing was logged",) or said.acts == before.acts == ("strike",):
        return True
    if pending.wants == "tree" and "new" in said.acts and answer.logged:
        return True  # it is in the record of the tree that was named
    works = {work.work for work in before.work if work.work}
    logged = {table.get("work") for entry in answer.logged for table in entry.work}
    return bool(works) and works <= logged and answer.tree in (None, pending.tree)


def of_its_tree(pending: Pending, here: str | None) -> Reading:
    """What waited, as said of the tree that was at hand then, though another is now."""
    reading = pending.reading
    if pending.tree in (None, here) or reading.tree or reading.several or "new" in reading.acts:
        return reading
    return replace(reading, tree=pending.tree)
