"""What waits for the grower's word: by what it is settled, and of which tree it was said."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.talk.context import Pending
from benchmate.talk.statement import yes_or_no
from benchmate.talk.trees.which_tree import named
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


def of_another_tree(pending: Pending, words: str, trees: Sequence[Tree], lexicon: Lexicon) -> Reading | None:
    """What waits for a yes, as said of the tree that is named in its stead: "no, Elmo", "I meant Elmo", "it was Elmo".
    None where the words say anything else."""
    reading = pending.reading
    if pending.wants != "yes" or pending.offer or reading.several or {"strike", "new"} & set(reading.acts):
        return None
    sense = lexicon.sense
    texts = [text for text in lexicon.split(words) if text[0].isalnum() or text[0] == "'"]
    start = 0
    while start < len(texts) and texts[start] in sense["refusals"]:
        start += 1
    leads = (lead.split() for lead in sense["wrong_tree"]["leads"])
    led = max((len(lead) for lead in leads if texts[start : start + len(lead)] == lead), default=0)
    tree = named(trees, " ".join(texts[start + led :])) if start + led else None
    if tree is None or tree.name in (pending.tree, reading.tree):
        return None
    return replace(reading, tree=tree.name, facts=tuple(one for one in reading.facts if one.kind != "species"))
