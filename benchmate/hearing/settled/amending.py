"""What a later clause changes in the one before: it corrects, refuses elsewhere, dates or places what was said."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import LATER, NOT, NOW
from ..reading import Fact, Spot, Work
from ..seen.placing import merged
from ..vocabulary.lexicon import Lexicon


def no_but(before: Clause, clause: Clause) -> bool:
    """ "not three leaves, two": the second number is meant in place of the first."""
    first, second = before.phrase, clause.phrase
    if before.kind != "observe" or clause.kind != "observe" or first is None or second is None:
        return False
    if not before.denied or before.facts or clause.facts:
        return False
    negated = [name for name in before.measures if name in ("leaves", "buds", "pairs")] or ["leaves"]
    place = second.spot(count=False)
    if place != Spot() and not second.numbers and second.says_place_only:
        before.kind, before.acts, before.work = "correct", ["correct"], [Work(None, place)]
        return True
    number = next(iter([*second.numbers, *clause.measures.values()]), None)
    if number is None:
        return False
    before.kind, before.acts = "correct", ["correct"]
    before.work, before.measures = [Work(None, Spot(), {negated[0]: number})], {}
    return True


def put_right(before: Clause, clause: Clause) -> bool:
    """ "wait no, three leaves", "I said beech, I meant hornbeam": what follows a correction is what is meant."""
    if clause.kind == "correct" and before.denied and all(fact.kind == "species" for fact in before.facts):
        before.facts = []  # "not the zelkova, I meant the elm"
    if before.kind != "correct":
        return False
    if clause.denied and clause.facts and before.facts and all(f.kind == "species" for f in clause.facts):
        return True  # "I meant the zelkova, not the elm"
    if clause.kind == "correct":
        kinds = {fact.kind for fact in clause.facts}
        before.facts = [fact for fact in before.facts if fact.kind not in kinds] + clause.facts
        before.work = clause.work or before.work
        before.when = before.when if clause.refused and before.when else clause.when or before.when
        return True
    named = clause.kind == "observe" and clause.facts and all(fact.kind == "species" for fact in clause.facts)
    if before.refused and named and not before.facts and not before.work and not clause.measures:
        before.facts = clause.facts  # "no, not the larch, the spruce"
        return True
    if clause.kind != "observe" or clause.facts or clause.candidates:
        return False
    if before.work and clause.measures and not clause.denied:  # "no, the back one, three leaves"
        last = before.work[-1]
        before.work[-1] = replace(last, measures={**last.measures, **clause.measures})
        return True
    place = clause.phrase.spot(count=False) if clause.phrase and clause.phrase.says_place_only else Spot()
    if place != Spot() and not before.work and not clause.denied and not clause.measures:  # "no wait, the right"
        before.work = [Work(None, place)]
        return True
    if not clause.measures or (clause.denied and before.work):
        return clause.denied and bool(before.work)  # "12 mm, not 21"
    before.work = [Work(None, Spot(), dict(clause.measures))]
    return True


def righted(before: Clause, clause: Clause) -> bool:
    """ "took the left leader off, no, the right one": put right in the same breath, so it is said once."""
    if clause.kind != "correct" or before.kind == "correct" or clause.refused:
        return False
    species = [fact for fact in clause.facts if fact.kind == "species"]
    known = [n for n, fact in enumerate(before.facts) if fact.kind == "species"]
    found = [n for n, fact in enumerate(before.facts) if fact.kind == "finding"]
    new = clause.work[-1] if clause.work else None
    if new is not None and before.work:
        last = before.work[-1]
        laid = replace(last, spot=_over(last.spot, new.spot), measures={**last.measures, **new.measures})
        before.work[-1] = laid if new.work is None else replace(new, done=last.done)
    elif new is not None and new.work is None and found:
        fact = before.facts[found[-1]]
        before.facts[found[-1]] = replace(
            fact, spot=_over(fact.spot, new.spot), measures={**fact.measures, **new.measures}
        )
    elif species and known:
        before.facts = [fact for n, fact in enumerate(before.facts) if n not in known] + species
    elif not (clause.when and before.when):
        return False
    before.when = clause.when or before.when
    return True


def _over(spot: Spot, said: Spot) -> Spot:
    """The first place with what the second says in its stead."""
    part, ordinal = said.part or spot.part, said.ordinal or spot.ordinal
    return Spot(part, said.side or spot.side, said.level or spot.level, ordinal, said.count or spot.count)


def but_not(before: Clause, clause: Clause) -> bool:
    """ "shorten the long shoots, but not the inner ones": the same work, refused elsewhere."""
    phrase = clause.phrase
    if before.kind != "decide" or not before.work or clause.kind != "observe" or not clause.denied or clause.facts:
        return False
    if phrase is None or not phrase.says_place_only or phrase.numbers or clause.measures:
        return False
    if not (phrase.side or phrase.level or phrase.ordinal or phrase.shown_part):
        return False
    work = before.work[-1]
    spot = replace(phrase.spot(count=False), part=phrase.shown_part or work.spot.part)
    before.work.append(replace(work, spot=spot, measures={}, done=NOT))
    return True


def spared(before: Clause, clause: Clause) -> bool:
    """ "took the leaves off, except on the low branches": what is left out of the work is left alone."""
    phrase = clause.phrase
    if "except" not in clause.joined or before.kind != "decide" or not before.work or clause.work or clause.topic:
        return False
    if phrase is None or not (phrase.side or phrase.level or phrase.ordinal or phrase.shown_part):
        return False
    if any(fact.kind not in ("finding", "species") for fact in clause.facts):
        return False
    spot = phrase.spot()
    before.work.append(Work("leave", replace(spot, part=phrase.shown_part), done=NOW))
    return True


def both(done: Sequence[Clause], clause: Clause) -> bool:
    """ "one going straight up and one hanging, both on the left": said of the last two things."""
    phrase = clause.phrase
    if clause.kind != "observe" or clause.facts or clause.work or phrase is None or phrase.pronoun != "both":
        return False
    places = [(c, n) for c in done for n, f in enumerate(c.facts) if f.kind == "finding"][-2:]
    if len(places) < 2 or not phrase.says_place_only:
        return False
    part = next((c.facts[n].spot.part for c, n in places if c.facts[n].spot.part), None)
    for c, n in places:
        spot = c.facts[n].spot
        c.facts[n] = replace(
            c.facts[n], spot=replace(merged(spot, phrase), part=spot.part or phrase.shown_part or part)
        )
    return True


def reminded(before: Clause, clause: Clause) -> bool:
    """ "set a reminder for the end of August, unwire the front branch": the work comes after the day."""
    if before.kind != "remind" or before.work or clause.kind != "decide" or not clause.work or clause.mood is None:
        return False
    if clause.mood.done not in (NOW, LATER):
        return False
    before.work = [replace(work, done=None) for work in clause.work]
    before.when = before.when or clause.when
    before.facts += clause.facts
    return True


def asked_back(before: Clause, clause: Clause, lexicon: Lexicon) -> bool:
    """ "wire off in three weeks, remind me": the reminder is for what stands before it."""
    if clause.kind != "remind" or clause.work or clause.facts or before.kind != "decide" or not before.work:
        return False
    if any(work.done not in (NOW, LATER) for work in before.work) or not (before.when or clause.when):
        return False
    looks = all(lexicon.works.get(work.work or "", {}).get("remind") for work in before.work)
    if clause.when and not before.when and not looks and before.mood is not None and before.mood.done == NOW:
        return False  # "treat it, remind me in eight days"
    before.kind, before.acts = "remind", ["remind"]
    before.work = [replace(work, done=None) for work in before.work]
    before.when = before.when or clause.when
    return True


def after_days(clause: Clause, on: str) -> None:
    """ "check guy, 10 days", "say six weeks": a bare span beside what is to be come back to is when."""
    if not clause.work or clause.when or "days" not in clause.work[-1].measures:
        return
    work = clause.work[-1]
    ahead = clause.kind == "remind" or (work.work == "check" and work.done == NOW)
    if not ahead:
        return
    days = round(work.measures["days"])
    if dt.date.fromisoformat(on).toordinal() + days > dt.date.max.toordinal():
        return  # no calendar goes so far: it stays a span, and nothing is put down for it
    clause.kind, clause.acts = "remind", ["remind"]
    clause.when = dt.date.fromordinal(dt.date.fromisoformat(on).toordinal() + days).isoformat()
    left = {name: value for name, value in work.measures.items() if name != "days"}
    clause.work[-1] = replace(work, measures=left, done=None)


def begun(clauses: Sequence[Clause], lexicon: Lexicon) -> None:
    """ "New tree, pine, collected, trunk, call it Rocky": of a tree that is begun a bare participle tells where it came
    from, which is no work of today, and a bare word its phase."""
    if not any(clause.kind == "new" for clause in clauses):
        return
    phases = {v["alone"].partition(":")[2] for v in lexicon.states.values() if v.get("alone", "").startswith("phase:")}
    origins = lexicon.sense["origins"]
    for clause in clauses:
        bare = clause.kind == "decide" and clause.work and not (clause.when or clause.by_grower or clause.refers)
        if bare and all(w.work in origins and w.spot == Spot() and not w.measures for w in clause.work):
            clause.work, clause.acts, clause.mood, clause.taken = [], [], None, True
        if clause.kind == "observe" and clause.phrase is not None and not (clause.facts or clause.measures):
            phase = clause.phrase.part
            if phase and phase in phases and clause.phrase.spot() == Spot(part=clause.phrase.part):
                clause.facts, clause.acts = [Fact("phase", phase, span=clause.phrase.span)], ["observe"]


def named_twice(before: Clause, clause: Clause) -> bool:
    """ "ring the bark and wrap moss round it": one work in two steps, told once."""
    if clause.kind != "decide" or clause.topic or not before.work or len(clause.work) != 1 or clause.facts:
        return False
    last, new = before.work[-1], clause.work[0]
    if last.work != new.work or new.spot != Spot() or new.done not in (last.done, NOW) or clause.when:
        return False
    before.work[-1] = replace(last, measures={**new.measures, **last.measures})
    before.means += clause.means
    return True


def same_again(done: Sequence[Clause], clause: Clause) -> None:
    """ "cut the left one to two leaves, same on the right": the work before it once more, at the place named now."""
    before = next((one for one in reversed(done) if any(work.work for work in one.work)), None)
    place = next((work.spot for work in clause.work), Spot())
    if clause.kind != "again" or before is None or place == Spot() or "other" in clause.refers:
        return
    last = before.work[-1]
    spot = replace(place, part=place.part or last.spot.part)
    clause.work = [replace(last, spot=spot)]
    clause.acts, clause.refers = list(before.acts), [word for word in clause.refers if word != "same"]


def said_over(before: Clause, clause: Clause, lexicon: Lexicon) -> bool:
    """ "I'm defoliating it, off they come": the cut that was named, in other words."""
    if clause.kind != "decide" or not clause.work or "and" in clause.joined or before.kind != "decide":
        return False
    cuts = [work for work in before.work if lexicon.works.get(work.work or "", {}).get("group") == "cutting"]
    only = clause.work[0]
    bare = len(clause.work) == 1 and only.spot == Spot() and not only.measures and not clause.refers and clause.vague
    return bool(cuts) and bare and only.work == "remove" and not clause.when


def looked_again(before: Clause, clause: Clause) -> bool:
    """ "checked it, again in two weeks": a date ahead after what was done is when to come back."""
    if (
        clause.kind != "observe"
        or clause.facts
        or clause.measures
        or not clause.when
        or before.kind != "decide"
        or not before.work
    ):
        return False
    if before.work[-1].work != "check":
        return False
    clause.acts, clause.kind = ["remind"], "remind"
    clause.work = [replace(before.work[-1], done=None)]
    return False


def either(before: Clause, clause: Clause) -> None:
    """ "pinch it or leave it": two that are offered are asked about, not decided on."""
    both = before.kind == "decide" and clause.kind == "decide" and "or" in clause.joined
    if not both or before.mood is None or clause.mood is None or not clause.work:
        return
    if {before.mood.done, clause.mood.done} - {NOW, LATER} or before.topic or clause.topic:
        return
    for one in (before, clause):
        one.acts, one.topic = ["ask"], "compare"
        one.work = [replace(work, done=None) for work in one.work]
