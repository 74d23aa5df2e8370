"""Work in the imperative that is put off by what stands with it is still to come: "tilt it at the next repot", "wire it
after leaf fall", "cut it back, not today though"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import AT_ONCE, LATER, NOT, NOW, Mood
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_NEXT = "next"
_WAITED = frozenset({"stage", "event", "weather", "finding"})


def put_off(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> Found:
    """Plan the work that is put off. What comes out has the words that put it off as used."""
    marks = list(found.marks)
    texts = [word.text for word in words]
    for at, clause in enumerate(clauses):
        if clause.kind == "turn" and _names_work_alone(clause):
            clause.work = [Work(str(fact.value), done=LATER, span=fact.span) for fact in clause.facts]
            clause.kind, clause.acts, clause.facts = "decide", ["decide"], []
        if _held_off(clause, texts, lexicon):
            events = [fact for fact in clause.facts if fact.kind == "event"]
            clause.work = [Work(str(fact.value), fact.spot, done=NOT, span=fact.span) for fact in events]
            clause.facts = [fact for fact in clause.facts if fact not in events]
            clause.kind, clause.acts, clause.mood = "decide", ["decide"], Mood(NOT)
        if clause.kind == "turn" and (parts := _turned_to_part(clause, found)):
            clause.acts, clause.idle = [], [*clause.idle, *parts]
        if not _bare(clause):
            continue
        behind = _put_off_behind(texts, clause.span[1], lexicon)
        after = clauses[at + 1] if at + 1 < len(clauses) else None
        if behind is not None:
            marks[behind[0] : behind[1]] = ["used"] * (behind[1] - behind[0])
        elif after is not None and _with_later_work(clause, after):
            _plan(after)
        elif _heads_next(clauses, at, texts):
            marks[clauses[at - 1].span[0] : clauses[at - 1].span[1]] = ["used", "used"]
        elif not _at_the_next(clause, found, texts):
            continue
        clause.facts = [fact for fact in clause.facts if fact.kind not in _WAITED or behind is not None]
        _plan(clause)
    return replace(found, marks=tuple(marks))


def _held_off(clause: Clause, texts: Sequence[str], lexicon: Lexicon) -> bool:
    """ "Held off the wiring", "decided against a repot": work that is named as a thing, and not done by a decision."""
    if clause.kind != "observe" or not any(fact.kind == "event" for fact in clause.facts):
        return False
    if any(fact.kind != "species" and not (fact.kind == "event" and fact.denied) for fact in clause.facts):
        return False
    said = [text for text in texts[clause.span[0] : clause.span[1]] if text not in lexicon.sense["people"]]
    return any(said[: len(one.split())] == one.split() for one in lexicon.sense["put_off"]["held_off"])


def _bare(clause: Clause) -> bool:
    """Whether work is told in the imperative, or with nothing but a form in -ing."""
    mood = clause.mood
    now = mood is not None and mood.done == NOW and not (mood.someone or mood.event)
    return clause.kind == "decide" and now and clause.topic is None and bool(clause.work) and not clause.by_grower


def _plan(clause: Clause) -> None:
    clause.work = [work if work.work in AT_ONCE else replace(work, done=LATER) for work in clause.work]
    if clause.mood is not None:
        clause.mood = replace(clause.mood, done=LATER)
    seen = any(fact.kind != "species" for fact in clause.facts)
    clause.acts = [act for act in clause.acts if act != "observe" or seen]


def _names_work_alone(clause: Clause) -> bool:
    """ "Repot it next": no tree is turned to."""
    return bool(clause.facts) and not clause.tree and all(fact.kind == "event" for fact in clause.facts)


def _turned_to_part(clause: Clause, found: Found) -> list[Token]:
    """ "We'll deal with the roots later": a part alone is no tree that could be turned to."""
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end and token.kind not in ("TURN", "DET")]
    return tokens if tokens and all(token.kind == "PART" for token in tokens) and not clause.facts else []


def _put_off_behind(texts: Sequence[str], end: int, lexicon: Lexicon) -> tuple[int, int] | None:
    """Where words that put it off stand behind the work: "next", "not today though"."""
    sense = lexicon.sense["put_off"]
    at = end
    while at < len(texts) and texts[at] in sense["leading"]:
        at += 1
    for phrase in (*sense["not_now"], *(sense["next"] if at == end else ())):
        stop = at + len(phrase.split())
        if list(texts[at:stop]) == phrase.split():
            rest = [text for text in texts[stop:] if text not in sense["trailing"]]
            if not rest or rest[0] in STOPS:
                return at, stop
    return None


def _at_the_next(clause: Clause, found: Found, texts: Sequence[str]) -> bool:
    """ "At the next repot", "after leaf fall": a time that is named by what happens then. But "cut it after leaf fall"
    may tell of what was done."""
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    for link, token in pairwise(tokens):
        if token.kind not in ("EVENT", "STATE", "WEATHER"):
            continue
        if token.kind == "EVENT" and texts[token.first - 1] == _NEXT:
            return True
        waits = link.kind == "SINCE" and texts[link.first] in ("after", "following")
        if waits and clause.mood is not None and not clause.mood.open and not clause.when:
            return True
    return False


def _heads_next(clauses: Sequence[Clause], at: int, texts: Sequence[str]) -> bool:
    """ "Next job: wire the left branch": the words before it ask nothing."""
    before = clauses[at - 1] if at else None
    if before is None or before.topic != "advice" or texts[before.span[0]] != _NEXT or before.work or before.facts:
        return False
    if texts[before.span[1] : before.span[1] + 1] != [":"]:
        return False
    before.acts, before.topic = [], None
    return True


def _with_later_work(clause: Clause, after: Clause) -> bool:
    """ "Cut the big root when I repot it": what is done with work that is itself still to come."""
    told = after.kind == "decide" and after.mood is not None and after.mood.done == NOW and after.topic is None
    return told and "when" in after.joined and after.by_grower and bool(after.work)
