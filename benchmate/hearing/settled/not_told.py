"""What a clause only seems to tell: a day that belongs to lost words, what is asked in words of no question known."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import DONE, LATER, NOT, NOW, Mood
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Fact, Spot, Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_TOO_REACH = 3  # words before "to" within which "too" stands
# kinds of words that name nothing by themselves
_SAID_OF_ANY = frozenset({"DET", "AUX", "STATE", "MANNER", "DATE"})


def drop_lost_days(clauses: Sequence[Clause], found: Found) -> None:
    """Take the day from each clause that is only a day, where words between the same two breaks were passed over: "I
    spent the weekend at my sister's" dates nothing."""
    breaks = _breaks(found)
    for clause in clauses:
        if clause.when is None or clause.kind not in ("observe", "decide") or _says_more(clause):
            continue
        first, end = clause.span
        start = max((token.end for token in breaks if token.end <= first), default=0)
        stop = min((token.first for token in breaks if token.first >= end), default=len(found.marks))
        more = any(
            first <= token.first < end and token.kind != "DATE" for token in found.tokens
        )  # "I did that on Tuesday"
        if more or "missed" in found.marks[start:stop]:
            clause.when, clause.onward = None, False


def drop_unknown_subjects(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """Take what is said of a thing that was not understood, and of nothing else: "my knees are weak", "the kettle is
    dry" tell nothing of the tree. But "this fella is weak" points at it."""
    breaks, pointed = _breaks(found), frozenset(lexicon.sense["at_hand"])
    for clause in clauses:
        first, end = clause.span
        start = max((token.end for token in breaks if token.end <= first), default=0)
        tokens = [token for token in found.tokens if start <= token.first < end]
        state = next((token for token in tokens if token.kind == "STATE"), None)
        if clause.kind != "observe" or clause.work or state is None or {t.kind for t in tokens} - _SAID_OF_ANY:
            continue
        at = state.first - 1
        while at > start and words[at].text in lexicon.sense["states_be"]:
            at -= 1
        if (
            at == state.first - 1
            or found.marks[at] != "missed"
            or pointed.intersection(w.text for w in words[start:at])
        ):
            continue
        clause.facts, clause.acts, clause.measures, clause.candidates = [], [], {}, []
        clause.phrase, clause.refers, clause.series = None, [], []
        clause.idle += [token for token in tokens if token not in clause.idle]


def held_back(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Too hot to repot it now", "it's not strong enough to wire": what it is too much for is not done."""
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        to = next((token for token in tokens if token.kind == "TO"), None)
        thing = next((token for token in tokens if to is not None and token.first >= to.end), None)
        if clause.kind != "observe" or clause.work or to is None or thing is None:
            continue
        work = str(thing.value) if thing.kind == "EVENT" else lexicon.patterns.get(f"{thing.value}|||")
        reach = range(max(0, to.first - _TOO_REACH), to.first)
        said = {words[at].text for at in reach}
        unfit = not said.isdisjoint(lexicon.sense["fit_for"]) and any(
            words[at].text == "not" for at in range(first, to.first)
        )
        if not work or not (unfit or said.intersection(lexicon.sense["too_much"])):
            continue
        facts = [fact for fact in clause.facts if fact.kind != "event" and fact.value != thing.value]
        facts = [replace(fact, spot=Spot()) if fact.spot.part == thing.value else fact for fact in facts]
        clause.facts, clause.work = facts, [Work(work, done=NOT, span=(thing.first, thing.end))]
        clause.acts = ["observe", "decide"] if facts else ["decide"]
        clause.mood = Mood(NOT)


def not_up_to(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "It's not strong enough | to defoliate it": the same, where the verb makes a clause of its own."""
    for before, clause in pairwise(clauses):
        at = clause.span[0] - (words[clause.span[0]].text != "to")
        leads = at > 0 and words[at].text == "to" and words[at - 1].text in lexicon.sense["fit_for"]
        denied = any(words[n].text == "not" for n in range(before.span[0], max(at, 0)))
        if leads and denied and clause.kind == "decide" and all(work.done == NOW for work in clause.work):
            clause.work, clause.mood = [replace(work, done=NOT) for work in clause.work], Mood(NOT)


def drop_bare_corrections(clauses: Sequence[Clause]) -> None:
    """ "Scorched leaves, that was the bonfire" sets nothing right: behind what was seen nothing else is named."""
    for before, clause in pairwise(clauses):
        named = clause.work or clause.facts or clause.when or clause.measures or clause.refers or clause.pick
        if clause.kind == "correct" and not named and any(fact.kind == "finding" for fact in before.facts):
            clause.acts = []
        denied = any(fact.denied for fact in before.facts) and before.kind == "observe"
        if clause.kind == "correct" and denied and clause.facts and not clause.work:
            clause.acts = ["observe"]  # "not weak, actually it is strong"


def of_others(clause: Clause, tokens: Sequence[Token], before: Sequence[Clause]) -> None:
    """ "A friend repotted his maple and it died": what somebody else did, and what came of it, is told of no tree here;
    its words count as not understood."""
    goes_on = bool(before) and before[-1].others and "and" in clause.joined and not clause.by_grower
    said = any(token.kind == "AUX" and token.value in ("others", "thought") for token in tokens)
    if clause.kind not in ("observe", "decide", "gone") or not (said or goes_on):
        return
    kinds = [fact for fact in clause.facts if fact.kind == "species"]
    thought = any(token.kind == "AUX" and token.value == "thought" for token in tokens)
    clause.others, clause.acts, clause.topic, clause.mood = True, [], None, None
    clause.facts, clause.work, clause.measures, clause.when, clause.candidates = [], [], {}, None, []
    clause.passive, clause.refers, clause.phrase, clause.series, clause.tree = [], [], None, [], None
    if thought and kinds:  # "I thought the elm was dead": that tree is meant all the same
        clause.facts, clause.acts = kinds, ["observe"]
        tokens = [token for token in tokens if token.kind != "SPECIES"]
    clause.idle += [token for token in tokens if token not in clause.idle]


def going_somewhere(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "The left one goes" takes it off; "goes through", "goes over the rim" tells where it leads and decides nothing:
    the words count as not understood. What may stand behind the verb that takes off: a break, a day, a purpose."""
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        verb = next((token for token in tokens if token.kind == "VNOW"), None)
        if verb is None or clause.kind != "decide" or verb.end >= len(words):
            continue
        leads = lexicon.sense["leads"].get(str(verb.value), {})
        if not clause.work or any(work.work not in leads.get("works", ()) for work in clause.work):
            continue
        at = next((n for n in range(verb.end, len(words)) if found.marks[n] != "filler"), None)
        if at is None:
            continue
        behind, after = words[at].text, [token for token in found.tokens if token.first == at]
        spoken = any(token.kind in ("SEP", "DATE") and token.end > token.first for token in after)
        purpose = any(token.kind == "TO" for token in after) and any(
            t.kind == "V" for t in tokens if t.first > verb.end
        )
        if spoken or purpose or behind in leads["behind"]:
            continue
        clause.acts, clause.work, clause.mood = [], [], None
        clause.facts = [fact for fact in clause.facts if fact.kind == "species"]
        clause.idle += [token for token in tokens if token.kind not in ("SPECIES", "DET")]


def take_questions(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """What a clause that begins as a question does seems to tell is only asked: of the record, where it asks whether
    something is so ("is the pine weak", "any aphids on the elm"); else it counts as not understood ("who wired it")."""
    for at, clause in enumerate(clauses):
        if clause.kind not in ("observe", "decide", "again") or clause.topic or not (clause.facts or clause.work):
            continue
        if at and _which_was(clauses[at - 1], clause):
            continue
        start = max((token.end for token in _breaks(found) if token.end <= clause.span[0]), default=0)
        heads = [n for n in range(start, clause.span[1]) if words[n].text not in lexicon.sense["openers"]]
        if not heads:
            continue
        oneself = clause.kind == "observe" and _am_i(heads[0], words, lexicon)
        if oneself or _asks_whether(heads[0], found, words, lexicon):
            denied = words[heads[0] + 1 : heads[0] + 2] != [] and words[heads[0] + 1].text == "not"
            if denied and clause.when:  # "didn't I feed it in May?"
                dates = (
                    t.value for t in found.tokens if t.kind == "DATE" and clause.span[0] <= t.first < clause.span[1]
                )
                clause.when = next((date.past for date in dates if date.past), clause.when)
            _ask_the_record(clause, denied)
        elif _asks_openly(heads[0], words, lexicon):
            first, end = clause.span
            clause.acts, clause.work, clause.topic = [], [], None
            clause.facts = [fact for fact in clause.facts if fact.kind == "species"]
            clause.idle += [t for t in found.tokens if first <= t.first < end and t.kind not in ("SPECIES", "DET")]


def _ask_the_record(clause: Clause, denied: bool) -> None:
    """The clause as a question of what the record holds. What was done or happened is asked as work."""
    if denied:  # "isn't the wire biting?" asks the same
        clause.facts = [replace(fact, denied=False) for fact in clause.facts]
    events = [fact for fact in clause.facts if fact.kind == "event"]
    clause.work = [replace(work, done=None) for work in clause.work]
    clause.work += [Work(str(fact.value), fact.spot, span=fact.span) for fact in events]
    clause.when = clause.when or next((fact.when for fact in events if fact.when), None)
    clause.facts = [fact for fact in clause.facts if fact not in events]
    ahead = clause.kind == "decide" and clause.mood is not None and clause.mood.done in (NOW, LATER)
    if not clause.work and not events and clause.facts and all(fact.kind == "species" for fact in clause.facts):
        clause.acts, clause.topic = ["ask"], "advice"  # "is the pine ok outside": of no state that is on record
        return
    clause.acts, clause.topic = ["ask"], "may" if ahead and not events else "recall"  # "do the candles want cutting"


def _asks_whether(at: int, found: Found, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a clause begins with a verb before its subject ("is the pine", "has it"), or with "any"."""
    asks, first = lexicon.sense["asks"], words[at].text
    if any(token.kind == "AGAIN" and token.first == at for token in found.tokens):
        return False  # "do the same on the right"
    if first in asks["any"]:
        kinds = ("FINDING", "PART")
        return any(token.kind in kinds and token.first <= at + 2 and token.end > at for token in found.tokens)
    at += words[at + 1 : at + 2] != [] and words[at + 1].text == "not"  # "isn't the wire biting?"
    if at + 1 >= len(words):
        return False
    if _event_at(at + 2, found) and not any(token.value == "?" for token in found.tokens):
        return False  # "did the repot in March"
    subject = words[at + 1].text
    named = any(token.kind in ("NAME", "SPECIES") and token.first == at + 1 for token in found.tokens)
    return first in asks["first"] and (named or subject in asks["first"][first])


def _am_i(at: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """ "Am I in refinement yet": asks of the tree what is told of oneself."""
    first = lexicon.sense["asks"]["seen"].get(words[at].text, ())
    return at + 1 < len(words) and words[at + 1].text in first


def _event_at(at: int, found: Found) -> bool:
    """Whether a word for work stands at `at`."""
    return any(token.kind == "EVENT" and token.first == at for token in found.tokens)


def _asks_openly(at: int, words: Sequence[Word], lexicon: Lexicon) -> bool:
    """Whether a clause begins with a question word: "who wired it", "when do the buds swell", "how are the mites"."""
    asks, first = lexicon.sense["asks"], words[at].text
    if first in asks["joining"]:  # "when I came home it was dry" tells
        return at + 1 < len(words) and words[at + 1].text in asks["verbs"]
    return first in asks["words"]


def _which_was(before: Clause, clause: Clause) -> bool:
    """ "Can I feed a tree I repotted in March": what was done is told to ask by, and is no question itself."""
    asks = before.topic in ("may", "when", "why", "advice") and before.kind == before.topic and bool(before.work)
    told = clause.kind == "decide" and clause.mood is not None and clause.mood.done == DONE and clause.by_grower
    if not (asks and told) or clause.joined != ("pause",):
        return False
    clause.facts += [Fact("event", work.work or "", work.spot, {}, clause.when) for work in clause.work if work.work]
    clause.acts, clause.work, clause.when, clause.mood = [], [], None, None
    return True


def _breaks(found: Found) -> list[Token]:
    """The words that part clauses; not the pauses that nobody spoke."""
    return [token for token in found.tokens if token.kind == "SEP" and token.end > token.first]


def _says_more(clause: Clause) -> bool:
    """Whether a clause says anything beside its day."""
    placed = clause.phrase is not None and clause.phrase.spot() != Spot()
    return placed or bool(clause.facts or clause.work or clause.measures or clause.candidates or clause.tree)
