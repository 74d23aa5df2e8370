"""What a statement only seems to tell: what is foretold, only named, asked beside a question, or taken back at once."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..amounts.date_spans import first_time
from ..clauses import Clause
from ..done.doing import DONE, LATER, NOT, NOW, Mood
from ..lattice.opening import STOPS
from ..lattice.search import Found
from ..lattice.spotting import Token
from ..reading import Missed
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_TOLD = frozenset({"health", "stage", "phase", "finding", "flush"})
_BEFORE = 2  # words between "expect" and the clause that it bears on
_WHOSE = 3  # words before what is foretold that may tell whose tree it is
_SAID = frozenset({"STATE", "FINDING", "FLUSH", "PART"})


def drop_what_is_not_so(
    clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon, on: str
) -> frozenset[int]:
    """Take out of the clauses what is not so. on: today, ISO. Returns the numbers of the words that only foretell."""
    _now_after_all(clauses, words, lexicon)
    _on_a_day_to_come(clauses, on)
    _taken_back(clauses, found)
    _undone_then(clauses, found, words, lexicon)
    _named_only(clauses, found, words, lexicon)
    _while_asked(clauses, words, lexicon)
    return _foretold(clauses, found, words, lexicon)


def _foretold(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> frozenset[int]:
    """Take what a clause says will be, so that its words count as not understood; weather may be forecast. Returns the
    numbers of these words, which ask nothing either."""
    helpers, foretold = lexicon.sense["foretelling"], set[int]()
    for clause in clauses:
        first, end = clause.span
        tokens = [token for token in found.tokens if first <= token.first < end]
        helper = next((t for t in tokens if t.kind == "AUX" and words[t.first].text in helpers), None)
        opens = helper.end if helper else _expected_from(clause, tokens, words, lexicon)
        if opens is None or clause.topic or clause.work:
            continue
        first = min(first, opens)
        said = [token for token in tokens if token.kind in _SAID and token.first >= opens]
        told = any(fact.kind in _TOLD for fact in clause.facts)
        bare = all(fact.kind == "species" for fact in clause.facts) and not clause.measures  # "it will flower in May"
        if not said or not (told or bare):
            continue
        clause.facts = [fact for fact in clause.facts if fact.kind not in _TOLD]
        clause.when, clause.onward = None, False
        clause.acts = ["observe"] if clause.facts else []
        foretold.update(range(first, end))
        clause.idle += [token for token in tokens if token.kind != "SPECIES" and token not in clause.idle]
    return frozenset(foretold)


def _expected_from(clause: Clause, tokens: Sequence[Token], words: Sequence[Word], lexicon: Lexicon) -> int | None:
    """Where "I expect", "hopefully" begins that makes a clause with a time or a "to" a word on what is to come."""
    first, end = clause.span
    for at in range(max(0, first - _BEFORE), end):
        if words[at].text in lexicon.sense["expecting"] and not {w.text for w in words[at:first]} & STOPS:
            ahead = any(token.kind == "DATE" for token in tokens) or any(w.text == "to" for w in words[at:end])
            return at if ahead else None
    return None


def _named_only(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Defoliating is out of the question", "pruning hard was a mistake": work that is named in -ing to say something
    of it is not being done; what is said, if it does not rule the work out, counts as not understood."""
    for clause in clauses:
        first, end = clause.span
        verb = next((token for token in found.tokens if token.first == first), None)
        if verb is None or verb.kind != "VING" or clause.kind != "decide" or not clause.work:
            continue
        stop = next((n for n in range(verb.end, len(words)) if words[n].text in STOPS | {",", "and", "so"}), len(words))
        be = next((n for n in range(verb.end, stop) if words[n].text in lexicon.sense["states_be"]), None)
        if be is None or found.marks[be] == "used":
            continue
        said = " ".join(word.text for word in words[be + 1 : stop])
        if any(f"{said} ".startswith(f"{phrase} ") for phrase in lexicon.sense["ruled_out"]):
            clause.work, clause.mood = [replace(work, done=NOT) for work in clause.work], Mood(NOT)
        elif any(f"{said} ".startswith(f"{phrase} ") for phrase in lexicon.sense["carried_through"]):
            clause.work, clause.mood = [replace(work, done=DONE) for work in clause.work], Mood(DONE)
        elif "missed" in found.marks[be + 1 : stop]:
            clause.work, clause.acts, clause.mood = [], [], None
            clause.idle += [token for token in found.tokens if first <= token.first < end]


def _while_asked(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "Can I wire it while it is dormant?": how it is then is no news of how it is."""
    for before, clause in pairwise(clauses):
        at = clause.span[0] - 1
        meanwhile = at >= 0 and words[at].text in lexicon.sense["meanwhile"]
        if meanwhile and before.topic in ("may", "why", "compare") and clause.kind == "observe" and not clause.work:
            clause.acts = []


def _taken_back(clauses: Sequence[Clause], found: Found) -> None:
    """ "I could cut it back, but I won't": what was about to be done is not."""
    for token in found.tokens:
        if token.kind != "SEP" or token.value != "undone":
            continue
        clause = next((one for one in reversed(clauses) if one.span[1] <= token.first), None)
        if clause is not None and all(work.done in (NOW, LATER) for work in clause.work) and not clause.topic:
            clause.work = [replace(work, done=NOT) for work in clause.work]
            clause.mood = Mood(NOT) if clause.work else clause.mood


def _undone_then(clauses: Sequence[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "I forgot to feed it in May", "I should have wired it in spring": the day of what was left undone is past."""
    for clause in clauses:
        first, end = clause.span
        told = any(words[at].text in lexicon.sense["past_denials"] for at in range(first, min(end, len(words))))
        if not told or clause.kind != "decide" or not clause.when or any(work.done != NOT for work in clause.work):
            continue
        dates = (token.value for token in found.tokens if token.kind == "DATE" and first <= token.first < end)
        clause.when = next((date.past for date in dates if date.past), clause.when)


def _on_a_day_to_come(clauses: Sequence[Clause], on: str) -> None:
    """ "Next week repot the elm", "every week feed it": an order behind its day is for that day."""
    for before, clause in pairwise(clauses):
        bare = before.kind == "observe" and not (before.facts or before.work or before.measures or before.candidates)
        order = clause.kind == "decide" and clause.mood is not None and not (clause.mood.going or clause.when)
        if not bare or not order or set(clause.joined) - {"pause", ","} or any(w.done != NOW for w in clause.work):
            continue
        if before.every and not clause.every:
            clause.every, clause.when = before.every, first_time(before.every, on)
            before.taken = True
        elif not before.when or before.when <= on[: len(before.when)]:
            continue
        clause.work, clause.mood = [replace(work, done=LATER) for work in clause.work], Mood(LATER)


def _now_after_all(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "I cut them off now", "I give it water and I put it in the shade": of a verb whose form does not tell past from
    present, what stands beside it does."""
    last: Clause | None = None
    for clause in clauses:
        first, end = clause.span
        open_past = clause.mood is not None and clause.mood.open and clause.mood.done == DONE and not clause.when
        now = any(words[at].text in lexicon.sense["right_now"] for at in range(first + 1, min(end + 1, len(words))))
        beside = last is not None and last.by_grower and last.mood is not None and last.mood.done == NOW
        if open_past and clause.kind == "decide" and clause.work and (now or (beside and clause.by_grower)):
            clause.work = [replace(work, done=NOW) for work in clause.work]
            clause.mood = replace(clause.mood, done=NOW) if clause.mood is not None else None
        if clause.kind == "decide":
            last = clause


def says_of_trees(lattice: Sequence[Sequence[Token]]) -> bool:
    """Whether some word may stand for what is seen on a tree: "the bus will be late" is no word of one."""
    return any(token.kind in _SAID and not token.guesses for row in lattice for token in row)


def foretold_words(
    text: str, words: Sequence[Word], foretold: frozenset[int], lexicon: Lexicon, *, unheard: bool
) -> tuple[Missed, ...]:
    """What is foretold, as said: a run of words each; the whole where nothing of it was heard and it says of something
    that it will be."""
    texts = [word.text for word in words]
    helpers = {*lexicon.sense["foretelling"], *lexicon.sense["foretelling_perhaps"]}
    before_to = lexicon.sense["foretelling_to"]  # "going soft" is so by now
    at = next(
        (
            n
            for n, one in enumerate(texts)
            if one in helpers and (one not in before_to or texts[n + 1 : n + 2] == ["to"])
        ),
        0,
    )
    if not foretold and unheard and at and "?" not in texts:
        who = {*lexicon.sense["people"], *lexicon.sense["speakers"], *lexicon.sense["asks_anew"]}
        foretold = frozenset() if who & set(texts[:at]) else frozenset(range(len(words)))
    out: list[list[int]] = []
    for n in sorted(foretold):
        if out and out[-1][-1] == n - 1:
            out[-1].append(n)
        else:
            out.append([n])
    others = {"?", *lexicon.sense["parting"]["people"]}  # "my neighbour's elm will flush"
    runs = [run for run in out if texts[run[0]] not in helpers]
    runs = [run for run in runs if not others & set(texts[max(0, run[0] - _WHOSE) : run[-1] + 1])]
    spans = ((words[run[0]].start, words[run[-1]].end) for run in runs)
    return tuple(Missed(text[start:end], (start, end)) for start, end in spans)
