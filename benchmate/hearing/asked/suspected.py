"""What a grower only suspects is asked, and not seen: "scorched or thirsty?", "..., dead?", "is it the sun or the
frost"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..clauses import Clause
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..reading import Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_SEEN = frozenset({"finding", "health", "weather", "stage"})
_BARE = frozenset({"FINDING", "STATE", "MANNER", "WEATHER"})
_OR = ("or",)


def suspected(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Ask what is only suspected. Beside what is told it counts as not understood, so that it is never taken for seen;
    alone it is what the question is about ("mites?")."""
    chains = [chain for chain in _chains(clauses, found) if _asks(chain, found, words, lexicon)]
    _when_of_two(chains)
    open_to = [clause for chain in chains for clause in chain]
    open_to += [after for before, after in pairwise(clauses) if _asked_behind(before, after, found)]
    _asked_of_it(clauses, words, lexicon)
    asked = [clause for clause in clauses if clause in open_to and _only_seen(clause)]
    if not asked:
        return
    rest = [one for one in clauses if one not in asked and not (one in open_to and one.idle_whole)]
    alone = all(_names_a_tree(one) for one in rest) and not _missed_before(asked[0], found, words)
    topic = any(one.topic for one in rest)
    for at, clause in enumerate(asked):
        if clause.topic and alone:
            continue  # the record is asked already
        clause.acts = [] if at or topic else ["ask"]
        clause.topic = None if at or topic else "advice"
        if alone:
            continue
        clause.facts = [fact for fact in clause.facts if fact.kind not in _SEEN]
        clause.candidates, clause.phrase = [], None
        first, end = clause.span
        lost = [token for token in found.tokens if first <= token.first < end and token.kind not in ("SPECIES", "DET")]
        clause.idle += [token for token in lost if token not in clause.idle]


def _chains(clauses: Sequence[Clause], found: Found) -> list[list[Clause]]:
    """Clauses that "or" joins, and one behind which what "or" leads to was not understood ("red spider or thrips?")."""
    ends = {token.first for token in found.tokens if token.kind == "SEP" and token.value == "or"}
    out: list[list[Clause]] = [[clauses[-1]]] if clauses and clauses[-1].span[1] in ends else []
    for before, clause in pairwise(clauses):
        if clause.joined != _OR:
            continue
        if out and out[-1][-1] is before:
            out[-1].append(clause)
        else:
            out.append([before, clause])
    return out


def _when_of_two(chains: Sequence[Sequence[Clause]]) -> None:
    """ "Is it spring or autumn wiring": which of two times work is done at."""
    for chain in chains:
        for clause in chain:
            works = [Work(str(one.value), one.spot, span=one.span) for one in clause.facts if one.kind == "event"]
            timed = clause.when or any(fact.when for fact in clause.facts)
            if clause.kind != "observe" or not works or len(works) != len(clause.facts) or not timed:
                continue
            clause.acts, clause.topic, clause.work, clause.facts = ["ask"], "when", works, []
            for one in chain:
                one.when = None


def _asks(chain: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether an either-or asks: by its mark, or as it begins with a verb before its subject ("is it the sun or")."""
    if any(clause.work for clause in chain):
        return False
    marks = (token.first for token in found.tokens if token.kind == "SEP" and token.value == "?")
    end = chain[-1].span[1]
    if chain[-1].asked or any(at >= end and not STOPS & {w.text for w in words[end:at]} for at in marks):
        return True
    start = chain[0].span[0]
    while start and words[start - 1].text not in STOPS | {","}:
        start -= 1
    asks = lexicon.sense["asks"]["first"]
    texts = [word.text for word in words[start : chain[-1].span[0]] if word.text not in lexicon.sense["openers"]]
    return len(texts) > 1 and texts[1] in asks.get(texts[0], ())


def _asked_behind(before: Clause, clause: Clause, found: Found) -> bool:
    """ "..., dead?": nothing but the suspicion, behind a break in the same sentence."""
    first, end = clause.span
    tokens = [token for token in found.tokens if first <= token.first < end]
    comma = bool(clause.joined) and set(clause.joined) <= {",", "-", "..."}
    return clause.asked and comma and not before.topic and {token.kind for token in tokens} <= _BARE


def _only_seen(clause: Clause) -> bool:
    """Whether a clause tells how something is, and neither asks nor tells of work."""
    seen = any(fact.kind in _SEEN for fact in clause.facts)
    return clause.kind == "observe" and seen and clause.topic in (None, "recall", "advice") and not clause.work


def _names_a_tree(clause: Clause) -> bool:
    """Whether a clause only names what the question is about: "the elm, mites?"."""
    kinds = all(fact.kind == "species" for fact in clause.facts)
    more = clause.work or clause.measures or clause.candidates or clause.topic
    return kinds and bool(clause.facts or clause.tree) and not more


def _missed_before(clause: Clause, found: Found, words: Sequence[Word]) -> bool:
    """Whether words of another breath were passed over."""
    start = clause.span[0]
    while start and words[start - 1].text not in STOPS | {","}:
        start -= 1
    return "missed" in found.marks[:start]


def _asked_of_it(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "One gram a litre, is that too strong": a judgement asked on what stands before says nothing of the tree, and
    "is that too soon after the defoliation" tells of no defoliation."""
    for at, clause in enumerate(clauses):
        others = clauses[:at]
        events = bool(clause.facts) and all(fact.kind == "event" for fact in clause.facts)
        if "asked" in clause.joined and clause.kind == "observe" and events and not clause.topic:
            clause.acts, clause.topic = ([], None) if others else (["ask"], "advice")
            continue
        health = bool(clause.facts) and all(fact.kind == "health" for fact in clause.facts)
        texts = [word.text for word in words[slice(*clause.span)]]
        judged = len(texts) > 2 and texts[1] in lexicon.sense["at_hand"] and texts[2] in lexicon.sense["too_much"]
        if clause.topic == "recall" and health and judged and any(one.measures or one.work for one in others):
            clause.acts, clause.topic, clause.facts = [], None, []
