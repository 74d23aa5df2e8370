"""What a statement asks about, where it asks more than once."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause

_TAGGED = frozenset({"may", "when", "figure", "why", "what-if"})  # questions that "what do you think?" only rounds off


def topic_of(clauses: Sequence[Clause]) -> str | None:
    """The last topic asked; but a comparison stays one when what is compared follows it."""
    asking = [clause for clause in clauses if clause.topic]
    whole = [clause for clause in asking if clause.topic != "list" or clause.facts or clause.work or clause.when]
    topics = [clause.topic for clause in whole or asking]  # "what now, and who's got my gloves"
    while len(topics) > 1 and topics[-1] == "advice" and _bare_tag(whole[-1]) and topics[-2] in _TAGGED:
        topics, whole = topics[:-1], whole[:-1]  # "can I take the guy off now, what do you think?"
    if topics[-2:] == ["may", "recall"] and "or" in clauses[-1].joined:
        return "may"  # "can I cut it back or is it still too weak"
    if "compare" in topics:
        return "compare"
    return topics[-1] if topics else None


def _bare_tag(clause: Clause) -> bool:
    return not (clause.facts or clause.work or clause.when or clause.measures or clause.refers)
