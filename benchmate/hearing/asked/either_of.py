"""Two places of which one is meant: "should I cut the left or the right branch?" asks which, not whether the left."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile

from benchmate.value import replace

from ..clauses import TRUNKS, Clause
from ..done.doing import BENT, DONE, LATER, NOW
from ..lattice.search import Found
from ..reading import Spot, Work
from ..seen.phrases import Phrase
from ..seen.placing import also, with_part
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_ASKED = frozenset({"may", "compare"})
_WOOD = (*TRUNKS, "apex", "leader", "branch", "side-branch", "shoot", "twig")  # of these each is cut or bent alike


def which_of_two(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "which should I take off, the left or the right": the places between which is chosen belong to the question."""
    for at, asking in enumerate(clauses):
        bare = [work for work in asking.work if not (work.spot.side or work.spot.level or work.spot.ordinal)]
        if asking.topic != "compare" or len(asking.work) > 1 or asking.work != bare:
            continue
        behind = list(takewhile(_is_place, clauses[at + 1 : at + 3]))
        other = next((n for n, one in enumerate(behind) if "or" in one.joined), None)
        if other is None or behind[other].phrase is None:
            continue
        both = [asking, behind[0]] if other == 0 else behind[:2]
        phrases = [one.phrase for one in both if one.phrase is not None and _placed(one.phrase)]
        if len(phrases) < 2:
            continue
        if not bare and _takes_off(asking, found, words, lexicon):
            bare = [Work("remove")]
        for work in bare:
            first = with_part(also(work.spot, phrases[0]), phrases[1])
            asking.work = [replace(work, spot=first), replace(work, spot=also(first, phrases[1]))]
        for one in behind[: other + 1]:
            asking.facts += one.facts
            one.taken, one.acts, one.phrase, one.facts = True, [], None, []


def only_shaped_so(clauses: Sequence[Clause]) -> None:
    """ "right 12 mm and bent, which should I keep": how one of two that are weighed grows is no bending. No finding
    tells it, so the word counts as not understood."""
    if not any(clause.topic == "compare" for clause in clauses):
        return
    for before, clause in pairwise(clauses):
        alone = clause.kind == "decide" and len(clause.work) == 1 and not clause.by_grower and not clause.refers
        shaped = alone and clause.work[0].work in BENT and clause.work[0].done == DONE
        bare = shaped and clause.work[0].spot == Spot() and not clause.work[0].measures
        weighed = before.candidates or (before.phrase is not None and _placed(before.phrase))
        if bare and "and" in clause.joined and before.kind == "observe" and weighed:
            clause.work, clause.acts, clause.kind, clause.mood = [], [], "observe", None


def _takes_off(asking: Clause, found: Found, words: Sequence[Word], lexicon: Lexicon) -> bool:
    first, end = asking.span
    asks = next((t for t in found.tokens if t.kind == "QCOMPARE" and first <= t.first < end), None)
    said = " ".join(word.text for word in words[asks.first : asks.end]) if asks is not None else ""
    return any(said.endswith(f" {one}") for one in lexicon.sense["losing"])


def _placed(phrase: Phrase) -> bool:
    return bool(phrase.side or phrase.level or phrase.ordinal)


def either_place(done: Sequence[Clause], clause: Clause) -> bool:
    """ "keep the left or the right": which of two places is asked about. done: the clauses before, joined."""
    phrase, before = clause.phrase, done[-1]
    if "or" not in clause.joined or phrase is None or not _only_place(clause, phrase):
        return False
    if not before.work or not (before.topic in _ASKED or _meant(before)):
        return False
    last = before.work[-1]
    spot = also(last.spot, phrase)
    first = last.spot
    if phrase.shown_part not in (None, first.part, *_WOOD) or (spot.part and spot.part not in _WOOD):
        return False  # "should I cut the shoots or the leaves": another work
    if spot == first or not (first.side or first.level or first.ordinal or first.part):
        return False
    if first.part is None or first.side or first.level or first.ordinal:
        before.work[-1] = replace(last, spot=with_part(first, phrase))
    else:
        spot = replace(spot, part=phrase.shown_part or first.part)
    before.work.append(replace(last, spot=spot))
    before.acts, before.topic = [*(act for act in before.acts if act == "observe"), "ask"], "compare"
    before.work = [replace(work, done=None) for work in before.work]
    before.facts += clause.facts
    if before.when is None:
        before.when, before.day, before.onward = clause.when, clause.day, clause.onward
    return True


def one_or_other(before: Clause, clause: Clause) -> bool:
    """ "removed the left or the right": what is not sure is no place to be added to the first."""
    phrase = clause.phrase
    told = [work.spot for work in before.work] or [fact.spot for fact in before.facts if fact.kind == "finding"]
    if "or" not in clause.joined or phrase is None or not told or not phrase.says_place_only:
        return False
    last, parts = told[-1], (told[-1].part, phrase.shown_part)
    pairs = (parts, (last.side, phrase.side), (last.level, phrase.level), (last.ordinal, phrase.ordinal))
    return any(one and other and one != other for one, other in pairs)


def _meant(before: Clause) -> bool:
    done = before.mood.done if before.kind == "decide" and before.mood is not None else None
    return done in (NOW, LATER)


def _only_place(clause: Clause, phrase: Phrase) -> bool:
    """Whether a clause names a place, with the tree that it is on, and nothing that is so of it."""
    told = any(fact.kind != "species" for fact in clause.facts) or clause.work or clause.measures or clause.candidates
    if clause.kind != "observe" or clause.denied or told or phrase.states or phrase.findings or phrase.numbers:
        return False
    return bool(phrase.side or phrase.level or phrase.ordinal or phrase.shown_part)


def _is_place(clause: Clause) -> bool:
    return clause.phrase is not None and _only_place(clause, clause.phrase)
