"""What asks at the end of a sentence makes a question of bare work before it: "chop the trunk at 120 mm, will it
live", "repot it in this heat, am I mad", "wire it over winter, good or bad"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import LATER, NOW
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Fact, Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

TAIL = "tail"
_WORKS = frozenset({"decide", "gone"})


def ask_by_tail(clause: Clause, on: str) -> None:
    """Ask whether one may do the work of a clause that such words stand behind. What was told as done stays told."""
    if clause.topic or not clause.acts:
        clause.asked = clause.asked or bool(clause.topic)
        return
    events = works_named(clause)
    if clause.kind == "observe" and events:  # "full defoliation, would it survive"
        clause.facts = [fact for fact in clause.facts if fact not in events]
        clause.work = [Work(str(fact.value), span=fact.span) for fact in events]
        clause.acts = ["ask"]
    elif stands_bare(clause, on) or (clause.work and all(work.done == LATER for work in clause.work)):
        clause.acts = ["observe", "ask"] if any(fact.kind != "species" for fact in clause.facts) else ["ask"]
    else:
        return
    clause.asked, clause.topic = True, "may"
    clause.work = [replace(work, done=None) for work in clause.work]


def works_named(clause: Clause) -> list[Fact]:
    """The works that a clause names and tells no day of ("full defoliation")."""
    return [fact for fact in clause.facts if fact.kind == "event" and fact.when is None and not fact.denied]


def stands_bare(clause: Clause, on: str) -> bool:
    """Whether a clause names work, now or ahead, of which nobody says that it is done or that he means to do it."""
    mood = clause.mood
    if clause.kind not in _WORKS or not clause.work or clause.topic or clause.by_grower:
        return False
    if clause.when is not None and clause.when < on[: len(clause.when)]:
        return False
    if clause.verbless:
        return True
    ahead = all(work.done in (NOW, LATER) for work in clause.work)
    return mood is not None and mood.done in (NOW, LATER) and ahead and not (mood.someone or mood.event)


def tails_in_vain(clauses: Sequence[Clause], found: Found) -> list[Token]:
    """The words that would ask behind a clause, where nothing that they could ask about stands before them: they are to
    be heard in another way, so that they are not lost."""
    vain = []
    for token in found.tokens:
        if token.kind != "SEP" or token.value != TAIL:
            continue
        before = [clause for clause in clauses if clause.span[1] <= token.first]
        if not before or not before[-1].asked:
            vain.append(token)
    return vain


def asked_by_more(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon, on: str) -> None:
    """ "Root prune by half, will it flower next year": what asks in other words than those of the lists asks as well,
    and nothing in it is seen or done."""
    asks = lexicon.sense["asks_behind"]
    for at, clause in enumerate(clauses[:-1]):
        first = clause.span[1]
        while first < len(words) and words[first].text == ",":
            first += 1
        named = clause.kind == "observe" and not clause.topic and works_named(clause)
        if not (named or stands_bare(clause, on)) or len(words) - first < 3 or clauses[at + 1].span[0] < first:
            continue
        subject = words[first + 2 if words[first + 1].text == "not" else first + 1].text  # "won't it hurt"
        if words[first].text not in asks["first"] or subject not in asks["then"]:
            continue
        end = next((n for n in range(first, len(words)) if words[n].text in STOPS | {","}), len(words))
        ask_by_tail(clause, on)
        for other in clauses[at + 1 :]:
            if other.span[0] < end and not (other.topic and (other.work or other.facts)):
                other.acts, other.topic, other.work = [], None, []
                other.facts = [fact for fact in other.facts if fact.kind == "species"]
