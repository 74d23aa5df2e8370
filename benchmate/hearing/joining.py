"""Clauses of one statement joined: what a later clause takes from an earlier one, and the reading as a whole."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .asked.comparing import compared, named_works
from .asked.either_of import either_place
from .asked.topics import topic_of
from .clauses import Clause
from .done.dated import dated_clauses, planned
from .done.doing import AT_ONCE, DONE, LATER, NOW
from .reading import Fact, Reading, Spot
from .settled.amending import (
    after_days,
    asked_back,
    begun,
    both,
    but_not,
    either,
    looked_again,
    named_twice,
    no_but,
    put_right,
    reminded,
    righted,
    said_over,
    same_again,
    spared,
)
from .settled.belonging import bare_place, belongs, fronted, place_first, same_unit
from .settled.left_on import leaving
from .settled.places_first import places_first
from .settled.supposing import (
    before_what_is_asked,
    beforehand,
    left_for_a_reason,
    left_open,
    meanwhile,
    on_condition,
    only_if,
    reminded_when,
    supposed,
    supposed_alone,
    supposed_first,
    supposed_too,
)
from .vocabulary.lexicon import Lexicon

_OPEN_TO_OR = frozenset({"may", "when", "what_if", "compare", "recall", "why", "advice"})
_BACKGROUND = frozenset({"if", "since", "because", "when"})


def join(said: str, clauses: Sequence[Clause], lexicon: Lexicon, on: str) -> Reading:
    """The reading of all clauses, without what was missed or guessed. on: today, ISO."""
    _done_to_it(clauses, on)
    places_first(clauses)
    before_what_is_asked(clauses)
    done: list[Clause] = []
    for clause in clauses:
        before = done[-1] if done else None
        if clause.taken and not (clause.acts or clause.work or clause.facts):
            continue
        if "instead" in clause.joined and clause.by_grower and clause.work:  # "instead of wiring I guyed it"
            clause.facts = [fact for fact in clause.facts if fact.kind != "event"]
        elif "instead" in clause.joined and (
            before is not None or len(clauses) > 1
        ):  # "repot it now instead of waiting for spring"
            clause.taken = True
            continue
        only_if(before, clause)
        if before is not None:
            either(before, clause)
            _inherit(before, clause)
            fronted(before, clause, lexicon)
            place_first(before, clause)
            looked_again(next((one for one in reversed(done) if not one.idle_whole), before), clause)
            same_again(done, clause)
            same_unit(next((one for one in reversed(done) if one.candidates), before), clause)
            if (
                supposed(before, clause)
                or supposed_too(before, clause)
                or left_open(before, clause)
                or meanwhile(before, clause)
                or beforehand(before, clause)
                or left_for_a_reason(before, clause)
                or leaving(before, clause, lexicon)
                or named_twice(before, clause)
                or said_over(before, clause, lexicon)
                or reminded_when(before, clause)
                or on_condition(before, clause)
                or no_but(before, clause)
                or spared(before, clause)
                or put_right(before, clause)
                or righted(before, clause)
                or but_not(before, clause)
                or either_place(done, clause)
                or both(done, clause)
                or reminded(before, clause)
                or asked_back(before, clause, lexicon)
                or belongs(_past_the_name(done), clause, lexicon)
            ):
                clause.taken = True
                before.means += clause.means  # what bears on safety stands, whatever the clause is taken for
                continue
        if before is not None and clause.topic == "list" and before.kind == "decide" and not before.by_grower:
            _names_the_list(before, clause)
        listed = before is not None and before.topic == "list" and clause.kind == "observe"
        if listed and {"so", "and"} & set(clause.joined):
            clause.acts = []  # "list the trees where the wire is biting"
        done.append(clause)
    for clause in done:
        after_days(clause, on)
        if clause.refused and not (clause.work or clause.facts):
            clause.acts = []  # nothing that is meant instead came
        if clause.passing and any(other.acts for other in done if other is not clause):
            clause.acts = []
        bare_place(clause, alone=len(done) == 1)
    named_works(done, lexicon)
    done = supposed_first(done)
    supposed_alone(done)
    begun(done, lexicon)
    dated = dated_clauses(done)
    acts: list[str] = []
    for clause in done:
        acts += [act for act in clause.acts if act not in acts]
    whole = Reading(
        said,
        acts=tuple(_settled_acts(acts, done)),
        topic=topic_of(done),
        facts=tuple(_unique([f for c in done for f in c.facts])),
        work=tuple(compared([w for c in done for w in c.work], done)),
        measures={k: v for c in reversed(done) for k, v in c.measures.items()},
        figure=next((c.figure for c in done if c.figure), None),
        tree=_tree(acts, done),
        pick=next((c.pick for c in done if c.pick is not None), None),
        when=None if acts == ["leave"] or not dated else dated[0].when,
        candidates=tuple(f for c in done for f in c.candidates),
        term=next((c.term for c in done if c.term), None),
        note=next((c.note for c in done if c.note), None),
        refers=tuple(r for c in done for r in c.refers),
        means=tuple(dict.fromkeys(m for c in done for m in c.means)),
        series=tuple(s for c in done for s in c.series),
        onward=any(c.onward for c in dated),
        day=None if acts == ["leave"] or not dated else dated[0].day,
        every=next((c.every for c in done if c.every and c.work), 0),
        planned=planned(done),
        until=next((c.until for c in done if c.every and c.work), None),
        ahead=next((c.ahead for c in done if c.ahead), None),
        supposes=tuple(w for c in done for w in c.supposes),
    )
    return whole


def _done_to_it(clauses: Sequence[Clause], on: str) -> None:
    """What the passive tells as done ("the inner leaves have been thinned by a third") is work of the grower, unless it
    is only told for a question or beside how the tree fares, to tell why or since when, or of years ago."""
    beside = any(clause.topic or any(f.kind in ("health", "phase") for f in clause.facts) for clause in clauses)
    for clause in clauses:
        for work, event in clause.passive:
            close = work.spot != Spot() or bool(work.measures)
            past = event.when is not None and int(event.when[:4]) < int(on[:4]) - 1
            aside = past or (beside and not close) or _BACKGROUND & set(clause.joined)
            if event.denied or event not in clause.facts or aside:
                continue
            clause.facts.remove(event)
            clause.work.append(work)
            clause.when = clause.when or event.when
            told = any(fact.kind != "species" for fact in clause.facts)
            clause.acts = ["observe", "decide"] if told else ["decide"]


def _past_the_name(done: Sequence[Clause]) -> Clause:
    """ "scale, cotoneaster, back branch": where the tree is only named in between, what stands before that."""
    last = done[-1]
    named = last.kind == "observe" and last.facts and all(fact.kind == "species" for fact in last.facts)
    return done[-2] if named and len(done) > 1 and done[-2].facts and not last.measures else last


def _tree(acts: Sequence[str], clauses: Sequence[Clause]) -> str | None:
    """The tree named first; where the talk turns to a tree ("finished with Ratchet, on to Minnow"), that one."""
    named = [clause for clause in clauses if clause.tree]
    turned = [clause for clause in named if clause.kind == "turn"] or ([] if acts else named[-1:])
    return next((clause.tree for clause in turned + named), None)


def _settled_acts(acts: list[str], clauses: Sequence[Clause]) -> list[str]:
    """A species called out beside something else is no observation."""
    sizes_count = not {"new", "correct"} & set(acts) and not any(c.topic == "figure" for c in clauses)
    said_of_it = "new" in acts and "correct" not in acts  # "new tree, call it Lodge, it's 38 cm tall"
    telling = [
        c
        for c in clauses
        if "observe" in c.acts
        and (
            ((sizes_count or (said_of_it and c.refers)) and (c.measures or c.candidates))
            or any(f.kind != "species" for f in c.facts)
        )
    ]
    if not telling and len(acts) > 1:
        acts = [act for act in acts if act != "observe"]
    if {"leave", "ask"} <= set(acts):
        acts = [act for act in acts if act != "leave"]  # "that's all I know, can I wire it": the talk goes on
    if len(acts) > 1 and "strike" in acts:
        meant = any(c.kind == "correct" and (c.work or c.facts) for c in clauses)  # "that was wrong, I meant the elm"
        acts = [act for act in acts if act != ("strike" if meant else "correct")]  # "ah no, forget that"
    if any(c.topic == "compare" for c in clauses) and all(w.done in (None, NOW) for c in clauses for w in c.work):
        acts = [act for act in acts if act != "decide"]
    return acts


def _unique(facts: list[Fact]) -> list[Fact]:
    seen: set[tuple[object, ...]] = set()
    out: list[Fact] = []
    for fact in facts:
        key = (fact.kind, fact.value, fact.spot, fact.when, fact.denied)
        if fact.kind == "finding":  # "two leaders are competing at the top": once, with its place
            out = [f for f in out if not _told_again(f, fact)]
        said = fact.kind == "finding" and fact.spot == Spot() and not fact.measures
        if said and any(f.kind == fact.kind and f.value == fact.value and f.denied == fact.denied for f in out):
            continue  # "a hole on the left, a proper gap": the same again in other words
        bare = replace(fact, spot=Spot(), measures={}, span=(0, 0))
        out = [f for f in out if fact.kind != "finding" or fact.spot == Spot() or replace(f, span=(0, 0)) != bare]
        if key not in seen:
            seen.add(key)
            out.append(fact)
    return out


def _told_again(fact: Fact, later: Fact) -> bool:
    """The same finding, counted alike, whose place the later one only adds to."""
    same = (fact.kind, fact.value, fact.denied, fact.when) == (later.kind, later.value, later.denied, later.when)
    first, added = fact.spot, later.spot
    if not same or first.count is None or first == added:
        return False
    return replace(added, part=None, side=None, level=None, ordinal=None) == first


def _names_the_list(before: Clause, clause: Clause) -> None:
    """ "Repot list for next spring": the work right before the word for a list only says which list."""
    told = before.mood is not None and before.mood.done in (NOW, LATER) and before.work
    if told and before.span[1] == clause.span[0] and not before.facts:
        before.acts, before.work = ["ask"], [replace(work, done=None) for work in before.work]


def _inherit(before: Clause, clause: Clause) -> None:
    """ "going to wire it and bend it", "can I wire it and bend it", "repotted it and put it in the shade"."""
    joined = set(clause.joined) & {"and", ",", "or", "pause", "so", "when"}
    if clause.kind != "decide" or not joined or clause.mood is None or not clause.work:
        return
    now = before.kind == "decide" and before.topic is None and before.mood is not None and before.mood.done == NOW
    if now and before.work and clause.asked and clause.topic == "may" and "or" in clause.joined:
        for one in (before, clause):  # "seal it or leave it?"
            one.acts, one.topic, one.work = ["ask"], "compare", [replace(w, done=None) for w in one.work]
        return
    asks = before.kind in ("may", "when", "recall", "why") or (before.kind == "decide" and before.topic is not None)
    listed = {"and", ","} & joined and not clause.by_grower  # "when could I lift it out, comb the roots and ..."
    if ((before.kind in _OPEN_TO_OR or before.topic) and "or" in clause.joined and not clause.by_grower) or (
        asks and listed and clause.mood.done == NOW
    ):
        either = before.kind == "may" and "or" in clause.joined and clause.work[0].work != _last_work(before)
        clause.acts, clause.topic = ["ask"], "compare" if either else before.topic  # "do I cut it off now or wait?"
        clause.work = [replace(w, done=None) for w in clause.work]
    elif before.mood is not None and before.mood.open and before.mood.done == NOW and "and" in joined:
        if clause.mood.done == DONE and not clause.mood.event and before.when is None and before.kind == "decide":
            before.work = [replace(w, done=DONE) if w.done == NOW else w for w in before.work]  # "cut it and sealed it"
    elif before.mood is not None and clause.mood.done == NOW and before.kind in ("decide", "remind"):
        if before.mood.done == LATER and "and" in clause.joined:
            clause.work = [w if w.work in AT_ONCE else replace(w, done=LATER) for w in clause.work]
            clause.mood = replace(clause.mood, done=LATER)
        elif before.mood.done == DONE and (clause.mood.open or _goes_on(before, clause)) and clause.when is None:
            clause.work = [replace(w, done=DONE) for w in clause.work]
            clause.mood = replace(clause.mood, done=DONE)


def _goes_on(before: Clause, clause: Clause) -> bool:
    """ "Finished wiring it and bending it": the same helper is meant for both forms in -ing."""
    going = before.mood is not None and before.mood.going and clause.mood is not None and clause.mood.going
    return going and not clause.by_grower


def _last_work(clause: Clause) -> str | None:
    return clause.work[-1].work if clause.work else None
