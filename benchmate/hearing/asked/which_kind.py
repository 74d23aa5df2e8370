"""Which trees of a kind: "which maples were repotted last spring" asks for a list, and tells of no tree."""

from __future__ import annotations

from benchmate.value import replace

from ..clauses import Clause, Setting, undone_since
from ..reading import Work

_UNSPOKEN = ("pause",)


def which_kind(setting: Setting, clause: Clause) -> None:
    """Ask for the trees of a kind of which something is told right behind a bare "which"."""
    before = setting.before[-1] if setting.before else None
    if before is None or before.topic != "compare" or clause.joined != _UNSPOKEN or clause.topic:
        return
    bare = not (before.work or before.facts or before.phrase)
    kinds = [fact for fact in clause.facts if fact.kind == "species"]
    named = kinds and kinds[0].span[0] - clause.span[0] <= 2  # "which of the elms"
    if not (bare and named) or len(clause.facts) == len(kinds):
        return
    events = [fact for fact in clause.facts if fact.kind == "event"]
    clause.work += [Work(str(fact.value), fact.spot, denied=fact.denied, span=fact.span) for fact in events]
    clause.work = [replace(work, done=None) for work in clause.work]
    clause.when = clause.when or next((fact.when for fact in events if fact.when), None)
    clause.facts = [fact for fact in clause.facts if fact not in events]
    undone_since(setting, clause)
    before.acts, before.topic, before.taken = [], None, True
    clause.acts, clause.topic, clause.kind = ["ask"], "list", "list"
