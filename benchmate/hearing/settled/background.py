"""What was done before and is told as a reason, what keeps from work and what is done by no grower is no work of today:
"not feeding it since it was repotted", "didn't wire it, too wet", "moss covering the soil"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import AT_ONCE, DONE, NOT
from ..lattice.opening import JOINERS, STOPS
from ..lattice.search import Found
from ..reading import Spot
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_LOOSE = frozenset({"days", "volume_l", "share"})


def reasons_told(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Not going to defoliate since it was repotted": behind what is refused or left, "since" tells of old work."""
    for at, clause in enumerate(clauses):
        first, end = clause.span
        since = next((t for t in found.tokens if t.kind == "SINCE" and first <= t.first < end), None)
        old = clause.kind == "decide" and clause.mood is not None and clause.mood.done == DONE and not clause.topic
        if (
            since is None
            or not old
            or not clause.passive
            or words[since.first].text not in lexicon.sense["reasons_since"]
        ):
            continue
        refused = any(fact.kind == "event" and fact.denied for fact in clause.facts)  # "not feeding since it was dug"
        if refused or (at and clause.joined == ("pause",) and _refused(clauses[at - 1])):
            told = [fact for _, fact in clause.passive]
            if not refused:  # "I won't wire the left branch since it was repotted": the place is that of the wiring
                spot = clause.passive[0][0].spot
                before = clauses[at - 1]
                before.work = [replace(one, spot=spot) if one.spot == Spot() else one for one in before.work]
            clause.facts = [replace(f, when=f.when or clause.when) if f in told else f for f in clause.facts]
            clause.acts, clause.work, clause.passive, clause.when, clause.mood = ["observe"], [], [], None, None
            clause.kind, clause.because_at = "observe", since.first


def kept_from(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Didn't get round to it, too wet": behind what was not done, "too" with nothing else tells why, and not how the
    tree is."""
    for before, clause in pairwise(clauses):
        first = clause.span[0]
        bare = words[first].text in lexicon.sense["too_much"] and clause.joined == (",",) and not clause.asked
        health = any(fact.kind not in ("finding", "weather") for fact in clause.facts)
        if clause.kind != "observe" or not (bare and clause.facts) or health or clause.topic:
            continue
        lost = not (before.acts or before.work or before.facts)
        leads = max(0, before.span[0] - 1)  # "not today, too wet"
        denied = any(words[n].text in lexicon.sense["refusing"] for n in range(leads, before.span[1]))
        if _refused(before) or (lost and denied):
            clause.acts, clause.facts, clause.phrase, clause.taken = [], [], None, True
            clause.because_at = first - 1


def _refused(clause: Clause) -> bool:
    refused = bool(clause.work) and all(one.done == NOT or one.work in AT_ONCE for one in clause.work)
    return refused or (bool(clause.facts) and any(fact.kind == "event" and fact.denied for fact in clause.facts))


def done_by_no_one(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Liverwort covering the surface": what a thing does that was not understood is no work of the grower's; its
    words count as not understood."""
    for clause in clauses:
        first, end = clause.span
        verb = next((token for token in found.tokens if token.first == first < token.end), None)
        if verb is None or verb.kind != "VING" or clause.kind != "decide" or clause.topic or not first:
            continue
        before = words[first - 1].text
        adverb = before.endswith("ly") or before in lexicon.sense["busy"]
        if clause.by_grower or adverb or before in JOINERS | STOPS or not _subject_lost(first, found):
            continue
        clause.acts, clause.work, clause.mood = [], [], None
        clause.idle += [t for t in found.tokens if first <= t.first < end and t not in clause.idle]


def _subject_lost(first: int, found: Found) -> bool:
    """Whether right before a word stands one that was passed over, or stuff that stands alone."""
    stuff = any(t.kind == "PART" and str(t.value).startswith("~") and t.end == first for t in found.tokens)
    return found.marks[first - 1] == "missed" or stuff


def stays_out(clauses: Sequence[Clause], found: Found, lexicon: Lexicon) -> None:
    """ "Leaving it outside tonight" is no tree left alone: where it stands is no work; the words count as missed."""
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        out = any(token.kind == "PARTICLE" and token.value in lexicon.sense["out_there"] for token in tokens)
        if out and clause.kind == "decide" and not clause.topic and all(work.work == "leave" for work in clause.work):
            clause.acts, clause.work, clause.mood, clause.when = [], [], None, None
            clause.idle += [token for token in tokens if token not in clause.idle]


def loose_amounts(clauses: Sequence[Clause], found: Found, words: Sequence[Word]) -> None:
    """ "I'm away for two weeks", "a mix for 6 litres", "dropped half its leaves": an amount of what was not understood
    is none of the tree's."""
    lost = "missed" in found.marks
    ends = {token.end for one in clauses for token in one.idle}  # where words that say nothing end
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        amount = next((token for token in tokens if token.kind == "MEASURE"), None)
        said = clause.facts or clause.work or clause.candidates or clause.tree or clause.topic
        bare = clause.kind == "observe" and not said and bool(clause.measures) and set(clause.measures) <= _LOOSE
        shared = bare and "share" in clause.measures and clause.joined == ("pause",) and first in ends
        if not shared and (not bare or amount is None or not amount.first or words[amount.first - 1].text != "for"):
            continue
        if shared or lost or any(one.idle_whole for one in clauses if one is not clause):
            clause.acts, clause.measures, clause.series = [], {}, []
            clause.idle += [token for token in tokens if token not in clause.idle]
