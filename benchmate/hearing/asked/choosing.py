"""A choice said of bare work, in no words of a question: "repot now or in spring", "water on the foliage or just the
soil", "tip pinching or cutting with scissors" ask, and tell of nothing done."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..reading import Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .asked_tail import stands_bare, works_named

_COMPARE = "compare"


def choices_of_work(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon, on: str) -> None:
    """Ask which where bare work stands with two times or two ways of doing it, of which one is to be chosen."""
    texts = [word.text for word in words]
    for before, clause in pairwise(clauses):
        named = works_named(before)
        if "or" in clause.joined and named and stands_bare(clause, on) and not (before.topic or before.work):
            before.facts = [fact for fact in before.facts if fact not in named]
            before.work = [Work(str(fact.value), fact.spot, span=fact.span) for fact in named]
            _ask(before)
            _ask(clause)
    for at, clause in enumerate(clauses):
        events = works_named(clause)
        if not (stands_bare(clause, on) or (events and clause.kind == "observe" and not clause.topic)):
            continue
        end = clause.span[1]
        last = next((n for n in range(end, len(texts)) if texts[n] in STOPS), len(texts))
        start = clauses[at - 1].span[1] if at else 0  # "full sun or | shade"
        parts = [n for n in range(start, last) if texts[n] == "or"]
        timed = any(_between_times(n, texts, found, lexicon) for n in parts)
        chosen = timed or any(_between_ways(n, texts, lexicon) for n in parts)
        if not chosen and not (parts and at + 1 < len(clauses) and _asks_which(clauses[at + 1])):
            continue
        if any(other.by_grower and other.work and not other.topic for other in clauses):
            continue
        if events and not clause.work:
            clause.facts = [fact for fact in clause.facts if fact not in events]
            clause.work = [Work(str(fact.value), fact.spot, span=fact.span) for fact in events]
        if timed:  # "after needle drop or now": what is waited for is not seen
            waits = lexicon.sense["choosing"]["waits"]
            clause.facts = [fact for fact in clause.facts if not (fact.span[0] and texts[fact.span[0] - 1] in waits)]
        _ask(clause)
        _other_place(clause, clauses[at + 1 :], words, lexicon)
        for other in clauses[at + 1 :]:
            if other.span[0] < last and other.kind in ("observe", "turn") and "or" in other.joined:
                other.acts = [act for act in other.acts if act not in ("observe", "turn")]


def _other_place(clause: Clause, behind: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Shade or full sun": the other place for the tree, said without a verb, is the other work of the choice."""
    works, between = lexicon.sense["choosing"]["place_works"], lexicon.sense["choosing"]["between"]
    if not {str(work.work) for work in clause.work} & set(works.values()):
        return
    for other in behind:
        said = [word for word in words[slice(*other.span)] if word.text not in between]
        work = works.get(" ".join(word.text for word in said))
        if work and other.idle_whole and "or" in other.joined:
            clause.work = [*clause.work, Work(work, span=(said[0].start, said[-1].end))]
            other.taken = True


def _ask(clause: Clause) -> None:
    told = any(fact.kind not in ("species", "event") for fact in clause.facts)
    clause.acts, clause.topic = (["observe", "ask"] if told else ["ask"]), _COMPARE
    clause.work = [replace(work, done=None) for work in clause.work]


def _asks_which(clause: Clause) -> bool:
    """ "Half a leaf or the whole leaf off, which is kinder": the question behind it names no work of its own."""
    return clause.topic == _COMPARE and not clause.work and not clause.facts


def _between_times(at: int, texts: Sequence[str], found: Found, lexicon: Lexicon) -> bool:
    """ "Now or in spring", "after needle drop or now": one of the two is at hand, the other a time to come."""
    sense = lexicon.sense["choosing"]
    begins = {n for token in found.tokens if token.kind == "DATE" for n in range(token.first, token.end)}
    behind = list(texts[at + 1 : at + 4])
    if behind and {texts[at - 1], behind[0]} <= set(sense["waits"]):  # "before or after repotting"
        return True
    # "in march or april" leaves the day open and chooses nothing
    seasons = texts[at - 1] in sense["seasons"] and bool(set(behind) & set(sense["seasons"]))
    if at - 1 in begins and behind and (seasons or behind[0] in sense["later"]):
        return True  # "in spring or autumn", "this year or next"
    now_before = texts[at - 1] in sense["now"] or " ".join(texts[max(0, at - 2) : at]) in sense["now"]
    now_behind = bool(behind) and (behind[0] in sense["now"] or " ".join(behind[:2]) in sense["now"])
    if now_before:
        later = {at + 1, at + 2, at + 3} & begins
        return bool(later) or (bool(behind) and behind[0] in sense["later"])
    return now_behind and (at - 1 in begins or bool(set(texts[max(0, at - 5) : at]) & set(sense["later"])))


def _between_ways(at: int, texts: Sequence[str], lexicon: Lexicon) -> bool:
    """ "Or just the soil", "or flat", "or the one before": words that set one way against another."""
    sense = lexicon.sense["choosing"]
    while at + 1 < len(texts) and texts[at + 1] in sense["between"]:
        at += 1
    behind = list(texts[at + 1 : at + 3])
    if not behind or behind[0] in sense["no_choice"]:
        return False
    ends = at + 2 >= len(texts) or texts[at + 2] in STOPS | {","}
    return " ".join(behind) in sense["other"] or behind[0] in sense["only"] or (ends and behind[0] in sense["ways"])
