"""What was done before to what is spoken of: "the left branch I wired in May is biting", "the leaves were thinned"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..clauses import Clause, Setting, chain
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Fact
from ..seen.phrases import Phrase, leaves, read_phrase
from ..seen.saying import fact_of_meaning, state_meaning
from .worked_on import Linked


def worked_before(setting: Setting, clause: Clause, subject: Phrase, node: Node) -> None:
    """ "The left branch I wired in May is biting" tells what is seen; that it was wired is an event of its past."""
    work = clause.work[-1]
    parts = [*setting.lexicon.works.get(work.work or "", {}).get("part_named", ()), subject.part]
    facts: list[Fact] = []
    for token in [token for token in clause.idle if token.kind == "STATE"]:
        meanings = (state_meaning(setting.lexicon, token.value, part) for part in parts if part)
        meaning = next((one for one in meanings if one), None)
        span = (token.first, token.end)
        if meaning and (fact := fact_of_meaning(meaning, subject.spot(), setting.lexicon, span, subject.parts)):
            facts.append(fact)
            clause.idle.remove(token)
    apart = {two.first for one, two in pairwise(leaves(node)) if two.kind == "FINDING" and one.end < two.first}
    told = any(
        fact.kind in ("health", "stage") or (fact.kind == "finding" and fact.span[0] in apart) for fact in clause.facts
    )
    told = told and not clause.refers
    if facts or told:  # "the elm I repotted in March is weak"
        clause.facts += [*facts, Fact("event", work.work or "", when=clause.when, span=work.span)]
        clause.work, clause.when, clause.acts, clause.kind = clause.work[:-1], None, ["observe"], "observe"


def places_of(node: Node) -> list[Linked]:
    """Where a subject is, as far as its own clause goes: "the guy on the second branch has been taken off"."""
    out: list[Linked] = []
    link: Token | None = None
    for kind, item in chain(node)[1:]:
        if kind == "aux":
            break
        if kind == "np" and link is not None and link.kind in ("AT", "OF", "FROM"):
            out.append((link, read_phrase(item)))
        link = item if kind == "link" else None
    return out


def no_longer_there(setting: Setting, clause: Clause, subject: Phrase, known: Sequence[Fact]) -> None:
    """Take what the passive tells as gone from what is seen, and its share from the measures of the tree."""
    works = [clause.work[-1]] if clause.work else [work for work, _ in clause.passive[-1:]]
    for work in works:
        named = set(setting.lexicon.works.get(work.work or "", {}).get("part_named", ()))
        gone = [f for f in known if f.kind == "finding" and named & set(setting.lexicon.names.get(str(f.value), ()))]
        clause.facts = [fact for fact in clause.facts if fact not in gone]
        if work.measures.get("share") == clause.measures.get("share"):
            clause.measures.pop("share", None)
