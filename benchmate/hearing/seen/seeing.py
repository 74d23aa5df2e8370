"""What is seen: a chain of phrases, auxiliaries and links, walked from left to right."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import TRUNKS, Clause, Setting, chain
from ..done.doing import DONE, LATER, NOT, NOW, Mood
from ..done.worked_on import what_is_given
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Fact, Spot, Work
from .day_seen import seen_date
from .going_on import carried_on, of_the_part_before
from .noting import back_to, harmed, noted, only_there, placing, pulled, seen_there, worked
from .phrases import ASIDE, CREATURE, HIDDEN, Phrase, leaves, linked_phrase, read_phrase
from .placing import at_place, merged, of_some, only_named_by, only_place, placed, weighed_against
from .saying import phrase_facts, says_gone, species_fact
from .sizes import holder_of, loose, measured, size_of_finding, sized, sized_alone, stands_there


def observe(setting: Setting, clause: Clause, node: Node) -> None:
    see(setting, clause, node)
    if clause.phrase is not None and CREATURE in clause.phrase.doers and not clause.harmed:
        done = setting.lexicon.harmed[CREATURE]  # "the kids have broken a branch", but "the cat's asleep underneath"
        clause.facts = [fact for fact in clause.facts if fact.kind == "species" or fact.value == done]
    if any(fact.denied and fact.kind == "stage" for fact in clause.facts):  # "the first flush hasn't hardened"
        clause.facts = [replace(fact, denied=False) if fact.kind == "flush" else fact for fact in clause.facts]
    if not clause.acts and (clause.facts or clause.measures or clause.candidates):
        clause.acts = ["observe"]


def see(setting: Setting, clause: Clause, node: Node) -> None:
    """Walk the chain of phrases, auxiliaries and links from left to right."""
    subject: Phrase | None = carried_on(setting, clause, node)
    aux: list[str] = []
    had = nowhere = led = False
    link: Token | None = None
    place = Spot()  # said before what is found there: "the wire on the left branch is biting"
    steps = chain(node, whole="vp")
    clause.at_base = any(
        at[0] == "link" and at[1].kind == "AT" and np[0] == "np" and read_phrase(np[1]).part in TRUNKS
        for at, np in pairwise(steps)
    )
    for kind, item in steps:
        if kind == "aux":
            clause.tells = clause.tells or ("be" in item and subject is not None and bool(subject.shown_part))
            had = had or "have" in item
            aux, link = item, None if link is None or link.kind != "SINCE" else link
        elif kind == "vp":
            clause.since, link = (aux, item), None
        elif kind == "link":
            nowhere = "not" in aux and item.kind == "AT" and subject is not None
            if nowhere:  # "scale hasn't shown up on the twigs"
                clause.facts = [_denied(fact) for fact in clause.facts]
            link, aux = item, []
            if item.kind == "DATE":
                seen_date(setting, clause, item, had)
        elif kind == "np":
            phrase = linked_phrase(link, item)
            named = all(fact.kind == "species" for fact in clause.facts) and (
                subject is None or subject.species or (subject.part or "").startswith(HIDDEN)
            )
            if named and not aux and not clause.work and noted(setting, clause, phrase, link):
                clause.facts += [species_fact(token) for token in phrase.species]
            elif link is not None and link.kind == "HARM":
                if not harmed(setting, clause, phrase, link):
                    _said(setting, clause, phrase, subject, ["be", "have"])
            elif link is not None and link.value == "down" and pulled(setting, clause, phrase):
                pass
            elif (at := placing(setting, phrase, subject)) is not None and link is None:
                linked(setting, clause, phrase, at, subject)
                if "not" in aux:  # "scale hasn't shown up on the twigs"
                    clause.facts = [_denied(fact) for fact in clause.facts]
            elif link is None:
                before = len(clause.facts)
                at_side = subject is not None and subject.says_place_only and bool(subject.side or subject.level)
                if subject is not None and at_side and "be" in aux and _only_number(phrase):
                    subject.numbers = phrase.numbers  # "the right one is 7", beside a size
                _said(setting, clause, phrase, subject, aux)
                if "not" in aux and len(clause.facts) == before and phrase.part and clause.facts and not clause.work:
                    clause.idle += leaves(item)  # "the elm hasn't any taper": a denial must not be lost
                if aux and len(clause.facts) == before and only_place(phrase):  # "the open wound is at the front"
                    clause.facts = [
                        at_place(setting, f, phrase.spot(count=False), outright=False) for f in clause.facts
                    ]
                if place != Spot():
                    clause.facts[before:] = [
                        at_place(setting, f, place, outright=f.spot.part is None) for f in clause.facts[before:]
                    ]
                if any(fact.kind == "finding" for fact in clause.facts[before:]):  # "the wire on the apex is loose"
                    clause.facts = [fact for fact in clause.facts if not only_there(setting, fact, subject)]
                subject = phrase if subject is None or phrase.parts or phrase.findings else subject
            else:
                before, fronted, led = len(clause.facts), led, link.kind == "AT" and clause.phrase is None
                linked(setting, clause, phrase, link, subject)
                if nowhere:  # "the wire isn't on the left branch"
                    clause.facts[before:] = [_denied(fact) for fact in clause.facts[before:]]
                if link.kind == "SINCE" and subject is None and phrase.shown_part:
                    subject = phrase  # "since the leaves are just coming out"
                if link.kind in ("AT", "OF") and before == 0 and clause.phrase is not phrase:
                    whole = fronted and link.kind == "OF" and bool(phrase.species)
                    front = _fronted(clause.phrase, whole)
                    clause.facts = [at_place(setting, f, front, outright=whole) for f in clause.facts]
                if link.kind in ("AT", "OF") and (phrase.says_place_only or phrase.owned_place) and not before:
                    placed(clause.phrase, phrase)
                    place = _fronted(clause.phrase) if only_place(phrase) else Spot()
                    place = phrase.spot(count=False) if place == Spot() else place
                    if link.kind == "OF" and clause.phrase is not None and only_place(clause.phrase):
                        place = merged(clause.phrase.spot(count=False), phrase)  # "at the back of the trunk"
            first = clause.phrase
            some = first is not None and (only_place(first) or (bool(first.numbers) and first.says_place_only))
            if link is not None and link.kind == "OF" and some and first is not None and phrase.shown_part:
                first.parts = [phrase.shown_part]  # "front of the trunk"
            if link is not None and link.kind == "AT" and first is not None and first.parts and phrase.shown_part:
                first.at = phrase.spot(count=False)
            spoken = "seen" in setting.lexicon.kind_of.get(phrase.part or "", {})
            shown = first is not None and not first.parts and spoken
            clause.phrase = phrase if shown else first or phrase  # "the beech has last year's leaves on": "them"
            if phrase.called:
                clause.tree = phrase.called
            aux, link = [], None


def _fronted(first: Phrase | None, whole: bool = False) -> Spot:
    """ "High up on the right there's a dead branch": the place that is said first. whole: its part as well ("on the
    shoots of the elm there is scale")."""
    return first.spot(count=False) if first is not None and (whole or only_place(first)) else Spot()


def _only_number(phrase: Phrase) -> bool:
    """Whether a phrase is one bare number and nothing else."""
    said = phrase.parts or phrase.states or phrase.findings or phrase.species or phrase.one or phrase.pronoun
    return len(phrase.numbers) == 1 and not said and phrase.span[1] - phrase.span[0] == 1


def _said(setting: Setting, clause: Clause, phrase: Phrase, subject: Phrase | None, aux: Sequence[str]) -> None:
    part = subject.part if subject else None
    measures = measured(setting, clause, phrase, subject)
    seen = "have" in aux or ("not" in aux and subject is None and not phrase.definite)  # "no fruit"
    facts, idle = phrase_facts(phrase, setting.lexicon, part, seen)
    facts, idle = of_the_part_before(setting, phrase, subject, facts, idle) if part is None else (facts, idle)
    clause.denied = clause.denied or ("not" in aux and all(fact.kind == "species" for fact in facts))
    if subject is not None and subject.findings and not phrase.species and not phrase.parts:
        facts = [f for f in facts if f.kind not in ("stage", "health")]  # "water shoots are growing": of those
    if subject is not None and subject.findings and any(says_gone(setting.lexicon, s) for s in phrase.states):
        clause.facts = [replace(f, denied="not" not in aux) if f.kind == "finding" else f for f in clause.facts]
        facts, idle = [], []  # "the aphids have gone"
    only_named = all(fact.kind == "species" for fact in clause.facts)
    doubted = clause.denied and subject is not None and subject is clause.phrase and only_named
    nothing = subject is not None and subject.pronoun == "none"  # "nothing is wilting"
    there = "not" in aux and not facts and phrase.pronoun == "it" and subject is not None and bool(subject.findings)
    if there:  # "the mites are not there any more"
        clause.facts = [_denied(f) for f in clause.facts]
    if "not" in aux or doubted or nothing:  # "I don't think the left branch is broken"
        facts = [_denied(f) for f in facts]
    if subject is not None and (not phrase.parts or only_named_by(setting, phrase, facts)):
        facts = [at_place(setting, f, subject.spot(count=not subject.counts_trees), outright=False) for f in facts]
    some = subject is not None and not subject.parts and subject.says_place_only and (subject.side or subject.level)
    if some and not phrase.parts:  # "the front looks bare"
        facts = [fact for fact in (of_some(setting, fact) for fact in facts) if fact.kind != ASIDE]
        facts = (
            [at_place(setting, fact, subject.spot(count=not subject.counts_trees), outright=False) for fact in facts]
            if subject
            else facts
        )
    if measures and facts and any(f.kind == "finding" for f in facts):
        facts = [replace(f, measures=measures) if f.kind == "finding" else f for f in facts]
    elif measures and subject is not None and subject is not phrase and sized(clause, measures):
        pass  # "the open wound at the base is 4 cm wide"
    elif measures and not size_of_finding(setting, clause, measures, subject or phrase):
        loose(setting, clause, measures, holder_of(setting, measures, phrase, subject, aux))
    if {"need", "not"} <= set(aux) and any(fact.kind == "event" for fact in facts):  # "doesn't need a repot yet"
        clause.work = [Work(str(f.value), done=NOT, span=phrase.span) for f in facts if f.kind == "event"]
        clause.acts, clause.mood, clause.kind = ["decide"], Mood(NOT), "decide"
        facts = [fact for fact in facts if fact.kind != "event"]
    elif "need" in aux and any(fact.kind == "event" for fact in facts):  # "it needs a repot"
        clause.work = [Work(str(f.value), _needing(setting, subject, str(f.value))) for f in facts if f.kind == "event"]
        clause.acts, clause.topic = ["ask"], "may"
        facts = [fact for fact in facts if fact.kind != "event"]
    named = setting.lexicon.patterns.get(f"{(phrase.part or '').removeprefix(HIDDEN)}|||")
    if named is not None and not facts and "will" in aux:  # "going to guy down the low one": the verb of the same word
        clause.work = [Work(named, replace(phrase.spot(), part=None), done=LATER, span=phrase.span)]
        clause.acts, clause.mood, clause.kind = ["decide"], Mood(LATER), "decide"
    elif "need" in aux and not facts and (given := what_is_given(setting, phrase)):  # "it needs a bigger pot"
        if "not" in aux:
            clause.work, clause.acts, clause.mood, clause.kind = (
                [replace(given, done=NOT)],
                ["decide"],
                Mood(NOT),
                "decide",
            )
        else:
            clause.work, clause.acts, clause.topic = [given], ["ask"], "may"
    elif named is not None and not facts and "need" in aux:  # "the back needs wire": the noun of the same word
        clause.work = [Work(named, _needing(setting, subject, named))]
        clause.acts, clause.topic = ["ask"], "may"
    going = {"i", "be"} <= set(aux) and not {"not", "will"} & set(aux)
    if going and facts and all(fact.kind == "event" for fact in facts):
        clause.work = [Work(str(fact.value), phrase.spot(), done=NOW, span=phrase.span) for fact in facts]
        clause.acts, clause.mood, facts = ["decide"], Mood(NOW), []  # "I am halving the leaves"
    if "do" in aux and "not" not in aux and phrase.pronoun == "none" and not facts:  # "do nothing this year"
        before = setting.before[-1] if setting.before and "and" in clause.joined else None
        told = before is not None and bool(before.work)  # "had a good look and did nothing"
        clause.work = [] if told else [Work("leave", done=NOW, span=phrase.span)]
        clause.acts, clause.mood, clause.kind = ["decide"], Mood(NOW), "decide"
        return
    if "do" in aux and "not" not in aux and facts and all(fact.kind == "event" for fact in facts):
        done = LATER if "will" in aux else DONE  # "did a graft", "going to do its first wiring"
        clause.work = [Work(str(fact.value), phrase.spot(), done=done, span=phrase.span) for fact in facts]
        clause.acts, clause.mood, facts = ["decide"], Mood(done), []
    clause.aside = clause.aside or (bool(phrase.states) and not facts)
    if aux and phrase.parts and not (phrase.shown_part or facts or clause.work or measures):
        clause.idle.append(Token("PART", phrase.part, *phrase.span, 0.0))  # "the elm is in the shade": nothing done
    clause.facts += facts
    clause.idle += idle
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
    if phrase.other or phrase.pronoun:
        clause.refers.append(phrase.other or str(phrase.pronoun))


def _denied(fact: Fact) -> Fact:
    """What is not there is not counted either: "not one back bud"."""
    if fact.kind == "species":
        return fact
    return replace(fact, denied=True, spot=replace(fact.spot, count=None) if fact.spot.count == 1 else fact.spot)


def _needing(setting: Setting, subject: Phrase | None, work: str) -> Spot:
    """Where what is needed would be done: at the thing that needs it."""
    spot = subject.spot(count=not subject.counts_trees) if subject is not None else Spot()
    return replace(spot, part=None) if spot.part in setting.lexicon.works.get(work, {}).get("part_named", ()) else spot


def linked(setting: Setting, clause: Clause, phrase: Phrase, link: Token, subject: Phrase | None = None) -> None:
    facts, idle = phrase_facts(phrase, setting.lexicon, subject.part if subject else None, seen=link.kind == "WITH")
    if link.kind == "FOR":  # "ordering soil for three repots": what it is meant for was not seen
        facts = [fact for fact in facts if fact.kind != "event" or fact.when or clause.when]
    if subject is not None and phrase.states and not phrase.parts and not phrase.findings:
        facts = [
            at_place(setting, fact, subject.spot(count=not subject.counts_trees), outright=False) for fact in facts
        ]
    if subject is not None and subject.pronoun == "none":
        facts = [_denied(fact) for fact in facts]  # "nothing on the wire marks"
    first = clause.phrase
    if (
        link.kind == "OF" and first is not None and first.numbers and not first.parts
    ):  # "two of the low branches rubbing"
        count = int(first.numbers[0])
        facts = [replace(f, spot=replace(f.spot, count=count)) if f.kind == "finding" else f for f in facts]
    where = phrase.spot(count=False)
    if link.kind == "BACKTO" and not facts:
        back_to(setting, clause, phrase)
        return
    if link.kind == "AT" and subject is not None and (phrase.species or phrase.shown_part):
        seen_there(setting, clause, subject)
    measures = measured(setting, clause, phrase, subject)
    if link.kind == "WITH" and measures and subject is not None and worked(setting, clause, subject, measures):
        return
    if link.kind in ("OF", "AT") and phrase.numbers and clause.facts and clause.facts[-1].kind == "finding":
        clause.facts[-1] = replace(clause.facts[-1], spot=replace(clause.facts[-1].spot, count=int(phrase.numbers[0])))
    if link.kind == "AT" and clause.work and not clause.facts:  # "did a graft on the right"
        clause.work[-1] = replace(clause.work[-1], spot=merged(clause.work[-1].spot, phrase))
    if link.kind == "AT" and (where.side or where.level) and phrase.says_place_only:
        stands_there(clause, phrase)
        clause.facts = [of_some(setting, fact) for fact in clause.facts]
        clause.facts = [fact for fact in clause.facts if fact.kind != ASIDE]
    if not weighed_against(setting, phrase, link, subject) and (
        link.kind in ("AT", "FROM", "OF", "BY", "OVER", "FOR") or (phrase.says_place_only and link.kind != "SINCE")
    ):
        clause.facts = [at_place(setting, f, where, outright=True) for f in clause.facts]
    if measures:
        clause.facts = [
            replace(f, measures={**f.measures, **measures}) if f.kind == "finding" else f for f in clause.facts
        ]
        if not any(f.kind == "finding" for f in clause.facts):
            holder = phrase if phrase.shown_part else subject
            if holder is not None and sized_alone(setting, measures, holder):  # "a branch of 20 mm"
                loose(setting, clause, measures, holder)
            else:
                clause.measures.update(measures)
    if not clause.facts and clause.phrase is None and phrase.says_place_only:
        clause.phrase = phrase
    if link.kind == "SINCE" and clause.when and any(fact.kind == "event" for fact in facts):
        facts = [replace(fact, when=clause.when) if fact.kind == "event" else fact for fact in facts]
        clause.when = None  # "three weeks since the repot": the day of the repot
    if link.kind == "SINCE" and not facts and phrase.parts and not phrase.shown_part:  # "after the hard prune"
        clause.idle.append(Token("PART", phrase.part, *phrase.span, 0.0))
    clause.facts += facts
    clause.idle += idle
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
