"""What a noun phrase says as facts: its states by the part they are said of, its findings in their place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.value import replace

from ..lattice.spotting import Token
from ..reading import Fact, Span, Spot
from ..vocabulary.lexicon import Lexicon
from .phrases import ASIDE, HIDDEN, Phrase


def state_meaning(lexicon: Lexicon, state: str, part: str | None) -> str | None:
    """kind:value of a state said of a part (or of the tree), or None where it says nothing of that part."""
    if state.startswith("="):
        return state[1:]
    cell: Mapping[str, Any] = lexicon.states.get(state, {})
    if part is not None:
        meaning: str | None = cell.get("of", {}).get(part) or cell.get("on") or cell.get("alone")
        return meaning
    return cell.get("alone") or cell.get("on")


def _of_tree(phrase: Phrase, token: Token) -> bool:
    """ "beech healthy roots circling": the part has its own state behind it, so the first is that of the tree."""
    behind_name = any(name.end == token.first for name in phrase.species)
    return (
        behind_name
        and bool(phrase.parts)
        and phrase.states[-1] is not token
        and phrase.states[-1].end == phrase.span[1]
    )


def meaning_of_some(lexicon: Lexicon, meaning: str) -> str:
    """What is said of the whole tree ("health:weak") where only some of it is spoken of; the same where that is all
    one."""
    for cell in lexicon.states.values():
        if cell.get("alone") == meaning and ("some" in cell or meaning.startswith("health:")):
            return str(cell.get("some") or cell.get("on") or f"{ASIDE}:{meaning}")
    return meaning


def fact_of_meaning(meaning: str, spot: Spot, lexicon: Lexicon, span: Span, parts: Sequence[str] = ()) -> Fact | None:
    """The fact that a meaning stands for; None for an aside. A part that the finding names already is left out."""
    kind, _, value = meaning.partition(":")
    if kind == ASIDE:
        return None
    if kind != "finding":
        return Fact(kind, value, span=span)
    return Fact(kind, value, without_named(value, spot, lexicon, parts), span=span)


def without_named(finding: str, spot: Spot, lexicon: Lexicon, parts: Sequence[str] = ()) -> Spot:
    """The spot without a part that the finding names. parts: all that are named; "left branch wire biting" has two."""
    named = lexicon.names.get(finding, ())
    if spot.part in named:
        others = [part for part in parts if part not in named and not part.startswith(HIDDEN)]
        return replace(spot, part=others[-1] if others else None)
    return spot


_OF_THE_TREE = ("stage:", "health:")
CIRCUMSTANCE = "means:"  # no finding, but what advice goes by: "it sprang back"


def phrase_facts(
    phrase: Phrase, lexicon: Lexicon, subject: str | None = None, seen: bool = False
) -> tuple[list[Fact], list[Token]]:
    """(facts, tokens that say nothing here) of one phrase. subject: the part that a bare state speaks of.
    seen: the phrase stands after "has" or "with", where a fruit or two leaders are findings by themselves."""
    facts: list[Fact] = []
    idle: list[Token] = []
    span = phrase.span
    for token in phrase.species:
        facts.append(species_fact(token))
    if phrase.flush and phrase.ordinal:
        facts.append(Fact("flush", phrase.ordinal, span=span))
    part = phrase.part or subject
    place = bool(phrase.side or phrase.level or phrase.one) and not phrase.findings
    for token in phrase.states:
        meaning = state_meaning(lexicon, token.value, None if _of_tree(phrase, token) else part)
        if meaning is None and subject is not None and phrase.part is not None:
            meaning = state_meaning(lexicon, token.value, subject)  # "the wire is biting into the leader"
        if part is None and meaning and place:
            meaning = meaning_of_some(lexicon, meaning)  # "low left weak": that is not the whole tree
        if says_gone(lexicon, token) and phrase.findings:
            continue
        if meaning is None:
            idle.append(token)
            continue
        if meaning.startswith(CIRCUMSTANCE):
            phrase.means += [meaning.removeprefix(CIRCUMSTANCE)] * (
                meaning.removeprefix(CIRCUMSTANCE) not in phrase.means
            )
            continue
        if phrase.findings and not phrase.parts and not phrase.species and meaning.startswith(_OF_THE_TREE):
            continue  # "back buds popping", "mites have come back": said of what was found, not of the tree
        if meaning.startswith("stage:") and any(later.first == token.end for later in phrase.states):
            continue  # "growing upright"
        spot = phrase.spot(count=True) if phrase.part or not subject else replace(phrase.spot(), part=subject)
        fact = fact_of_meaning(
            meaning,
            replace(spot, part=None if (spot.part or "").startswith(HIDDEN) else spot.part),
            lexicon,
            (token.first, token.end),
            phrase.parts,
        )
        if fact is not None and lexicon.states.get(token.value, {}).get("not_yet"):
            facts.append(replace(fact, denied=True))  # "nearly hardened off"
        elif fact is not None:
            two = bool(phrase.numbers) and phrase.numbers[0] == 2  # "two shoots from one spot" are no whorl
            facts.append(replace(fact, value=lexicon.pair.get(str(fact.value), fact.value)) if two else fact)
    for token in phrase.findings:
        facts.append(
            Fact(
                "finding",
                token.value,
                without_named(token.value, phrase.spot(), lexicon),
                span=(token.first, token.end),
                denied=any(says_gone(lexicon, state) for state in phrase.states),  # "aphids all gone"
            )
        )
    for token in phrase.weather:
        facts.append(Fact("weather", token.value, span=(token.first, token.end)))
    for token in phrase.events:
        facts.append(Fact("event", token.value, span=(token.first, token.end)))
    if not any(f.kind == "finding" for f in facts):
        counted = lexicon.counted.get(phrase.part or "")
        if counted and phrase.numbers and phrase.numbers[0] >= 2:
            facts.append(Fact("finding", counted, replace(phrase.spot(), part=None), span=span))
        elif seen and phrase.part is not None and phrase.part in lexicon.seen:
            facts.append(Fact("finding", lexicon.seen[phrase.part], span=span))
    return facts, idle


def says_gone(lexicon: Lexicon, state: Token) -> bool:
    """Whether a state says that what was found is there no longer."""
    return bool(lexicon.states.get(state.value, {}).get("denies"))


def species_fact(token: Token) -> Fact:
    if str(token.value).startswith("group:"):
        return Fact("trait", token.value, span=(token.first, token.end))
    return Fact("species", token.value, span=(token.first, token.end))
