"""What a clause goes on to say of what the one before it spoke of: "checked the wire and it's not biting"."""

from __future__ import annotations

from benchmate.value import replace

from ..clauses import Clause, Setting, chain
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Fact, Spot
from .phrases import Phrase, read_phrase
from .saying import phrase_facts


def carried_on(setting: Setting, clause: Clause, node: Node) -> Phrase | None:
    """ "the right one is 8 mm and has dieback": a clause that begins with "has" goes on about the same thing."""
    first = next(iter(chain(node)), ("", None))
    before = setting.before[-1] if setting.before else None
    if clause.kind != "observe" or first[0] != "aux" or not {"and", "which"} & set(clause.joined) or before is None:
        return None
    found = any(kind == "np" and read_phrase(item).findings for kind, item in chain(node))
    if "i" in (first[1] or ()) or (found and "have" not in (first[1] or ())):
        return None  # "the candles are out and I find no needle cast": said of the tree
    if before.phrase is not None and before.phrase.states and not before.phrase.parts:
        return None  # "crowded inside, and covered with caterpillars"
    return before.phrase if before.kind == "observe" else None


def of_the_part_before(
    setting: Setting, phrase: Phrase, subject: Phrase | None, facts: list[Fact], idle: list[Token]
) -> tuple[list[Fact], list[Token]]:
    """What a state that says nothing of the whole tree says of the part before: "the leaves are out but they're too
    big"."""
    many = subject is not None and subject.many and bool(phrase.states)
    if facts or not (idle or many) or not phrase.only_state or not (subject is None or subject.pronoun):
        return facts, idle
    meant = _part_before(setting)
    facts, idle = phrase_facts(phrase, setting.lexicon, meant) if meant else (facts, idle)
    return [replace(fact, spot=Spot()) for fact in facts], idle


def _part_before(setting: Setting) -> str | None:
    """The part that the clause before spoke of or worked on, if only as the name of its work."""
    for clause in reversed(setting.before):
        if clause.phrase is not None and clause.phrase.parts:
            return clause.phrase.part
        for work in reversed(clause.work):
            named = setting.lexicon.works.get(work.work or "", {}).get("part_named", ())
            return work.spot.part or next(iter(named), None)
        for fact in reversed(clause.facts):
            if fact.value in setting.lexicon.pronoun:
                return setting.lexicon.pronoun[str(fact.value)]
    return None
