"""Notes without a verb, and things that tell something by being where they are: "wired first branch"."""

from __future__ import annotations

from benchmate.value import replace

from ..clauses import Clause, Setting
from ..done.doing import DONE, NOT, NOW, Mood
from ..lattice.spotting import Token
from ..reading import Fact, Spot, Work
from .phrases import CREATURE, HIDDEN, Phrase
from .saying import phrase_facts, species_fact, without_named
from .sizes import amount, measured


def noted(setting: Setting, clause: Clause, phrase: Phrase, link: Token | None) -> bool:
    """Notes without a verb: "wired first branch" is done, "back out into full sun" is being done."""
    if link is None and phrase.parts and phrase.states and phrase.states[0].first == phrase.span[0]:
        cell = setting.lexicon.states.get(phrase.states[0].value, {})
        if work := cell.get("event"):
            clause.work, clause.acts, clause.mood = [Work(work, phrase.spot(), done=DONE)], ["decide"], Mood(DONE)
            clause.kind = "decide"
            return True
    put = setting.lexicon.patterns.get(f"put||{phrase.part}|")
    on = setting.lexicon.patterns.get(f"put|on|{clause.phrase.part}|") if clause.phrase and not clause.facts else None
    grown = clause.phrase is not None and clause.phrase.part in setting.lexicon.sense["grown"]
    if link is not None and link.kind == "AT" and on and not grown and (clause.phrase.part or "").startswith(HIDDEN):  # type: ignore[union-attr]
        spot = phrase.spot(count=False)
        named = setting.lexicon.works.get(on, {}).get("part_named", ())
        spot = replace(spot, part=None) if spot.part in named else spot
        done = NOT if clause.denied else DONE  # "cut paste on the wound", "no cut paste on it"
        clause.work, clause.acts, clause.mood = [Work(on, spot, done=done)], ["decide"], Mood(done)
        clause.kind, clause.verbless = "decide", not clause.denied
        return True
    if link is not None and link.value == "into" and put and (phrase.part or "").startswith(HIDDEN):
        done = NOW
        before = setting.before[-1] if setting.before and "and" in clause.joined else None
        if before is not None and before.mood is not None and before.kind == "decide" and not before.work:
            done, before.idle = before.mood.done, []  # "moved the juniper and the pine into shelter"
            named = before.phrase.species if before.phrase is not None else []
            clause.facts += [species_fact(token) for token in named]
        clause.work, clause.acts, clause.mood = [Work(put, done=done)], ["decide"], Mood(done)
        clause.kind = "decide"
        return True
    return False


def harmed(setting: Setting, clause: Clause, phrase: Phrase, verb: Token) -> bool:
    """ "a late frost got the tips", "the wind snapped the back branch": what weather leaves behind."""
    weather = [fact for fact in clause.facts if fact.kind == "weather"]
    finding = verb.value or next((setting.lexicon.harmed.get(str(fact.value)) for fact in weather), None)
    creature = clause.phrase is not None and CREATURE in clause.phrase.doers
    told = weather or phrase.parts or (creature and phrase.level)  # "the maple has scorched leaves" needs no weather
    if not finding or not told:
        return False
    if phrase.states and phrase.states[-1].value in setting.lexicon.sense["after_verb"]:
        phrase.states.pop()  # "a squirrel snapped the top out"
    facts, idle = phrase_facts(phrase, setting.lexicon)
    if phrase.part in setting.lexicon.harmless.get(finding, ()):
        clause.idle += [verb, *idle]
        clause.facts += facts
        return True
    clause.facts = [fact for fact in clause.facts if fact not in weather] + facts
    clause.facts.append(
        Fact("finding", finding, without_named(finding, phrase.spot(), setting.lexicon), span=phrase.span)
    )
    clause.idle += idle
    clause.phrase, clause.harmed = phrase, True
    return True


def placing(setting: Setting, phrase: Phrase, subject: Phrase | None) -> Token | None:
    """ "scale has settled on the twigs": what a state such as "on" links, where it says nothing of the thing."""
    cell = setting.lexicon.states.get(phrase.states[0].value, {}) if len(phrase.states) == 1 and phrase.parts else {}
    if subject is None or not cell.get("place") or cell.get("of", {}).get(subject.part):
        return None
    if phrase.states[0].end == phrase.span[1] and phrase.part in cell.get("of", {}):
        return None  # "it has its wire on"
    state = phrase.states.pop()
    return Token("AT", "at", state.first, state.end, state.cost)


def pulled(setting: Setting, clause: Clause, phrase: Phrase) -> bool:
    """ "guyed down the first branch": with "down" a state that work leaves behind tells of the work."""
    first = clause.phrase
    if first is None or not first.only_state or not phrase.shown_part:
        return False
    work = setting.lexicon.states.get(first.states[0].value, {}).get("event")
    if not work:
        return False
    clause.facts = [fact for fact in clause.facts if fact.kind == "species"]
    clause.work, clause.acts = [Work(work, phrase.spot(), done=DONE, span=(first.span[0], phrase.span[1]))], ["decide"]
    clause.mood, clause.kind = Mood(DONE), "decide"
    return True


def worked(setting: Setting, clause: Clause, subject: Phrase, measures: dict[str, float]) -> bool:
    """ "low branch wired with 2.5 mm": what it was done with tells that it was done."""
    events = [setting.lexicon.states.get(token.value, {}).get("event") for token in subject.states]
    if not any(events) or any(fact.kind != "finding" for fact in clause.facts) or clause.acts:
        return False
    work = next(event for event in events if event)
    clause.facts, clause.acts, clause.mood, clause.kind = [], ["decide"], Mood(DONE), "decide"
    clause.work = [Work(work, subject.spot(), dict(measures), DONE, span=subject.span)]
    return True


def seen_there(setting: Setting, clause: Clause, subject: Phrase) -> None:
    """ "fruit on the elm", "the guy is still on the low branch": a thing that is a finding by being there."""
    found = setting.lexicon.seen.get(subject.part or "")
    if found and not clause.work and not any(fact.kind == "finding" for fact in clause.facts):
        clause.facts.append(Fact("finding", found, denied=clause.denied, span=subject.span))


def only_there(setting: Setting, fact: Fact, subject: Phrase | None) -> bool:
    found = setting.lexicon.seen.get(subject.part or "") if subject is not None else None
    return subject is not None and found == fact.value and fact.span == subject.span


def back_to(setting: Setting, clause: Clause, phrase: Phrase) -> None:
    """ "left shoot back to four leaves": shortening, without a verb. But "frost, down to minus 2" tells how cold."""
    if "temperature_c" in phrase.measures:
        clause.measures.update(measured(setting, clause, phrase, None))
        return
    last = setting.before[-1].work[-1] if setting.before and setting.before[-1].work else None
    before = last.work if last else None
    cuts = setting.lexicon.works.get(before or "", {}).get("group") == "cutting"
    if before and not (cuts or clause.phrase or phrase.numbers or phrase.measures or phrase.bare or phrase.ordinal):
        clause.taken = True  # "guyed the branch, down to the pot rim": where to
        return
    spot = clause.phrase.spot() if clause.phrase else Spot()
    clause.facts = [f for f in clause.facts if f.kind == "species"]
    again = last is not None and last.work == "shorten" and bool(last.done)
    done = last.done or NOW if last is not None and again else NOW
    if last is not None and again and last.spot == Spot() and not last.measures and not clause.facts:
        setting.before[-1].work[-1] = replace(last, spot=spot, measures=amount(setting, phrase))
        clause.taken = True  # "trimmed the box, shoots back to two pairs": how it was trimmed
        return
    clause.work = [Work("shorten", spot, amount(setting, phrase), done)]
    clause.acts, clause.mood, clause.kind = ["decide"], Mood(done), "decide"
