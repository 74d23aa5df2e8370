"""The day of what is seen: of an event named before it, of weather to come, of what was measured or done."""

from __future__ import annotations

from benchmate.value import replace

from ..clauses import Clause, Setting, is_just_past, take_date
from ..done.doing import DONE, NOW
from ..lattice.spotting import Token


def seen_date(setting: Setting, clause: Clause, token: Token, had: bool = False) -> None:
    """A date said of what is seen belongs to the event before it, if there is one. had: the clause tells the past; else
    weather of a day is forecast."""
    clause.dated = token if not clause.facts else None
    before = setting.before[-1] if setting.before else None
    if before is not None and not clause.facts and "pause" in clause.joined and before.facts:
        last = before.facts[-1]
        if last.kind == "event" and last.when is None:  # "weak since the repot in March this fir"
            before.facts[-1] = replace(last, when=token.value.past)
            return
    told = before is not None and before.mood is not None and before.when is None and not clause.facts
    told = told and before is not None and before.topic is None
    told = told and before is not None and before.mood is not None and (before.mood.done == DONE or before.mood.open)
    told = told or (before is not None and before.kind == "correct" and is_just_past(setting, token))
    event = bool(clause.facts) and clause.facts[-1].kind == "event"
    done = clause.mood is not None and clause.mood.done == DONE  # "did the repot in March"
    forecast = bool(clause.facts) and not had and all(fact.kind == "weather" for fact in clause.facts)
    past = (bool(clause.facts) and not forecast) or told or done or (had and bool(clause.measures))
    said = [fact for fact in clause.facts if fact.kind != "species"]
    ahead = bool(said) and all(str(fact.value) in setting.lexicon.sense["looked_forward"] for fact in said)
    past = past and not (ahead and not had)  # "getting it ready for the show in September"
    take_date(setting, clause, token, past=past, drop_now=not event and not told)
    if told and before is not None and clause.when and clause.when < setting.on[: len(clause.when)]:
        before.work = [replace(w, done=DONE) if w.done == NOW else w for w in before.work]  # "put a guy on, 20 June"
    if clause.facts and clause.facts[-1].kind == "event" and clause.facts[-1].when is None:
        clause.facts[-1] = replace(clause.facts[-1], when=clause.when)
        clause.when = None
