"""What is seen: a chain of phrases, auxiliaries and links, walked from left to right."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .automaton import Node
from .clauses import TRUNKS, Clause, Setting, chain, is_just_past, take_date
from .doing import BENT, DONE, LATER, NOW, Mood
from .noting import harmed, noted, only_there, placing, pulled, seen_there, worked
from .phrases import (
    ASIDE,
    HIDDEN,
    Phrase,
    leaves,
    meaning_of_some,
    phrase_facts,
    read_phrase,
    settle_bare,
    species_fact,
)
from .placing import merged
from .reading import Fact, Spot, Work
from .spotting import Token


def observe(setting: Setting, clause: Clause, node: Node) -> None:
    see(setting, clause, node)
    if not clause.acts and (clause.facts or clause.measures or clause.candidates):
        clause.acts = ["observe"]


def see(setting: Setting, clause: Clause, node: Node) -> None:
    """Walk the chain of phrases, auxiliaries and links from left to right."""
    subject: Phrase | None = _carried_on(setting, clause, node)
    aux: list[str] = []
    link: Token | None = None
    place = Spot()  # said before what is found there: "the wire on the left branch is biting"
    for kind, item in chain(node, whole="vp"):
        if kind == "aux":
            aux, link = item, None if link is None or link.kind != "SINCE" else link
        elif kind == "vp":
            clause.since, link = (aux, item), None
        elif kind == "link":
            link, aux = item, []
            if item.kind == "DATE":
                seen_date(setting, clause, item)
        elif kind == "np":
            phrase = read_phrase(item)
            named = all(fact.kind == "species" for fact in clause.facts) and (
                subject is None or subject.species or (subject.part or "").startswith(HIDDEN)
            )
            if named and not aux and not clause.work and noted(setting, clause, phrase, link):
                clause.facts += [species_fact(token) for token in phrase.species]
            elif link is not None and link.kind == "HARM":
                if not harmed(setting, clause, phrase, link):
                    _said(setting, clause, phrase, subject, ["be"])
            elif link is not None and link.value == "down" and pulled(setting, clause, phrase):
                pass
            elif (at := placing(setting, phrase, subject)) is not None and link is None:
                linked(setting, clause, phrase, at, subject)
            elif link is None:
                before = len(clause.facts)
                _said(setting, clause, phrase, subject, aux)
                if "not" in aux and len(clause.facts) == before and phrase.part and clause.facts and not clause.work:
                    clause.idle += leaves(item)  # "the elm hasn't any taper": a denial must not be lost
                if aux and len(clause.facts) == before and _only_place(phrase):  # "the open wound is at the front"
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
                before = len(clause.facts)
                linked(setting, clause, phrase, link, subject)
                if link.kind in ("AT", "OF") and phrase.says_place_only and not before:
                    place = phrase.spot(count=False)
                    _placed(clause.phrase, phrase)
            first = clause.phrase
            if (
                link is not None
                and link.kind == "OF"
                and first is not None
                and _only_place(first)
                and phrase.shown_part
            ):
                first.parts = [phrase.shown_part]  # "front of the trunk"
            if link is not None and link.kind == "AT" and first is not None and first.parts and phrase.shown_part:
                first.at = phrase.spot(count=False)
            clause.phrase = first or phrase
            if phrase.called:
                clause.tree = phrase.called
            aux, link = [], None


def _placed(first: Phrase | None, where: Phrase) -> None:
    """ "the second branch on the right": where it is belongs to what it is."""
    if first is None or not replace(first, states=[]).says_place_only or where.shown_part:
        return
    first.side, first.level = first.side or where.side, first.level or where.level
    first.ordinal = first.ordinal or where.ordinal


def _only_place(phrase: Phrase) -> bool:
    return (
        phrase.says_place_only
        and not (phrase.parts or phrase.one or phrase.pronoun)
        and bool(phrase.side or phrase.level)
    )


def _carried_on(setting: Setting, clause: Clause, node: Node) -> Phrase | None:
    """ "the right one is 8 mm and has dieback": a clause that begins with "has" goes on about the same thing."""
    first = next(iter(chain(node)), ("", None))
    before = setting.before[-1] if setting.before else None
    if clause.kind != "observe" or first[0] != "aux" or not {"and", "which"} & set(clause.joined) or before is None:
        return None
    found = any(kind == "np" and read_phrase(item).findings for kind, item in chain(node))
    if "i" in (first[1] or ()) or (found and "have" not in (first[1] or ())):
        return None  # "the candles are out and I find no needle cast": said of the tree
    return before.phrase if before.kind == "observe" else None


def seen_date(setting: Setting, clause: Clause, token: Token) -> None:
    """A date said of what is seen belongs to the event before it, if there is one."""
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
    take_date(setting, clause, token, past=bool(clause.facts) or told, drop_now=not event and not told)
    if told and before is not None and clause.when and clause.when < setting.on[: len(clause.when)]:
        before.work = [replace(w, done=DONE) if w.done == NOW else w for w in before.work]  # "put a guy on, 20 June"
    if clause.facts and clause.facts[-1].kind == "event" and clause.facts[-1].when is None:
        clause.facts[-1] = replace(clause.facts[-1], when=clause.when)
        clause.when = None


def _said(setting: Setting, clause: Clause, phrase: Phrase, subject: Phrase | None, aux: Sequence[str]) -> None:
    part = subject.part if subject else None
    measures = measured(setting, clause, phrase, subject)
    facts, idle = phrase_facts(phrase, setting.lexicon, part, seen="have" in aux)
    if idle and not facts and part is None and phrase.only_state and (subject is None or subject.pronoun):
        meant = _part_before(setting)  # "checked the wire and it's not biting"
        facts, idle = phrase_facts(phrase, setting.lexicon, meant) if meant else (facts, idle)
        facts = [replace(fact, spot=Spot()) for fact in facts]
    clause.denied = clause.denied or ("not" in aux and all(fact.kind == "species" for fact in facts))
    if subject is not None and subject.findings and not phrase.species and not phrase.parts:
        facts = [fact for fact in facts if fact.kind != "stage"]  # "water shoots are growing": of those, not the tree
    doubted = clause.denied and subject is not None and subject is clause.phrase and not clause.facts
    if "not" in aux or doubted:  # "I don't think the left branch is broken"
        facts = [replace(f, denied=True) if f.kind != "species" else f for f in facts]
    if subject is not None and not phrase.parts:
        facts = [at_place(setting, f, subject.spot(), outright=False) for f in facts]
    some = subject is not None and not subject.parts and subject.says_place_only and (subject.side or subject.level)
    if some and not phrase.parts:  # "the front looks bare"
        facts = [fact for fact in (of_some(setting, fact) for fact in facts) if fact.kind != ASIDE]
        facts = [at_place(setting, fact, subject.spot(), outright=False) for fact in facts] if subject else facts
    if measures and facts and any(f.kind == "finding" for f in facts):
        facts = [replace(f, measures=measures) if f.kind == "finding" else f for f in facts]
    elif measures and not _size_of_finding(setting, clause, measures, subject or phrase):
        _loose(setting, clause, measures, subject or phrase)
    if "need" in aux and any(fact.kind == "event" for fact in facts):  # "it needs a repot"
        clause.work = [Work(str(f.value), _needing(setting, subject, str(f.value))) for f in facts if f.kind == "event"]
        clause.acts, clause.topic = ["ask"], "may"
        facts = [fact for fact in facts if fact.kind != "event"]
    named = setting.lexicon.patterns.get(f"{(phrase.part or '').removeprefix(HIDDEN)}|||")
    if named is not None and not facts and "will" in aux:  # "going to guy down the low one": the verb of the same word
        clause.work = [Work(named, replace(phrase.spot(), part=None), done=LATER, span=phrase.span)]
        clause.acts, clause.mood, clause.kind = ["decide"], Mood(LATER), "decide"
    elif named is not None and not facts and "need" in aux:  # "the back needs wire": the noun of the same word
        clause.work = [Work(named, _needing(setting, subject, named))]
        clause.acts, clause.topic = ["ask"], "may"
    if {"i", "be"} <= set(aux) and "not" not in aux and facts and all(fact.kind == "event" for fact in facts):
        clause.work = [Work(str(fact.value), phrase.spot(), done=NOW, span=phrase.span) for fact in facts]
        clause.acts, clause.mood, facts = ["decide"], Mood(NOW), []  # "I am halving the leaves"
    if "do" in aux and "not" not in aux and phrase.pronoun == "none" and not facts:  # "do nothing this year"
        before = setting.before[-1] if setting.before and "and" in clause.joined else None
        told = before is not None and bool(before.work)  # "had a good look and did nothing"
        clause.work = [] if told else [Work("leave", done=NOW, span=phrase.span)]
        clause.acts, clause.mood, clause.kind = ["decide"], Mood(NOW), "decide"
        return
    if "do" in aux and "not" not in aux and facts and all(fact.kind == "event" for fact in facts):  # "did a graft"
        clause.work = [Work(str(fact.value), phrase.spot(), done=DONE, span=phrase.span) for fact in facts]
        clause.acts, clause.mood, facts = ["decide"], Mood(DONE), []
    clause.aside = clause.aside or (bool(phrase.states) and not facts)
    clause.facts += facts
    clause.idle += idle
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
    if phrase.other or phrase.pronoun:
        clause.refers.append(phrase.other or str(phrase.pronoun))


def _part_before(setting: Setting) -> str | None:
    """The part that the clause before spoke of or worked on, if only as the name of its work."""
    for clause in reversed(setting.before):
        if clause.phrase is not None and clause.phrase.parts:
            return clause.phrase.part
        for work in reversed(clause.work):
            named = setting.lexicon.works.get(work.work or "", {}).get("part_named", ())
            return work.spot.part or next(iter(named), None)
        for fact in reversed(clause.facts):
            if fact.value in setting.lexicon.pronoun:
                return setting.lexicon.pronoun[str(fact.value)]
    return None


def _needing(setting: Setting, subject: Phrase | None, work: str) -> Spot:
    """Where what is needed would be done: at the thing that needs it."""
    spot = subject.spot() if subject is not None else Spot()
    return replace(spot, part=None) if spot.part in setting.lexicon.works.get(work, {}).get("part_named", ()) else spot


def measured(setting: Setting, clause: Clause, phrase: Phrase, subject: Phrase | None = None) -> dict[str, float]:
    if subject is None and not phrase.pronoun and setting.before and setting.before[-1].kind == "observe":
        subject = setting.before[-1].phrase  # "a branch, 15 mm": the size of what was just named
    borrowed = subject is not None and not phrase.parts
    if borrowed and subject is not None:
        parts = subject.parts or ["branch"] * bool(subject.one or subject.side or subject.level or subject.findings)
        phrase.parts = [*parts]
    righted = bool(setting.before) and setting.before[-1].kind == "correct"
    bent = bool(setting.before) and any(work.work in BENT for work in setting.before[-1].work)
    bent = bent or any(token.value in BENT for token in phrase.events)
    degree_as = "angle_deg" if bent else "temperature_c"  # "bending the leader now, 30 degrees"
    settle_bare(phrase, setting.lexicon, "diameter_mm" if righted else None, degree_as)
    if borrowed:
        phrase.parts = []
    amount = setting.lexicon.amount.get(phrase.part or "")
    measured = dict(phrase.measures)
    if amount and phrase.numbers:
        measured[amount] = phrase.numbers[0]
        phrase.series.append((amount, phrase.numbers[0]))
        phrase.numbers, phrase.parts = [], []
    clause.series += phrase.series
    if phrase.share is not None:
        measured["share"] = phrase.share
    return measured


def _loose(setting: Setting, clause: Clause, measured: dict[str, float], holder: Phrase) -> None:
    """A size with no finding: of one branch it is a thing to compare, of trunk or tree a measure of the tree."""
    placed = holder.side or holder.level or holder.ordinal or (holder.part and holder.part not in TRUNKS and holder.one)
    if placed:
        clause.candidates.append(Fact("candidate", holder.part or "one", holder.spot(count=False), measured))
    clause.measures.update({} if placed else measured)


def _size_of_finding(setting: Setting, clause: Clause, measures: dict[str, float], holder: Phrase) -> bool:
    """ "candles two inches long": a part whose length tells how far the tree is."""
    kind, _, value = setting.lexicon.measured.get(holder.part or "", "").partition(":")
    size = measures.get("length_mm", measures.get("diameter_mm"))
    if not kind or size is None or len(measures) > 1:
        return False
    clause.facts.append(Fact(kind, value, holder.spot() if kind == "finding" else Spot(), {"length_mm": size}))
    return True


def linked(setting: Setting, clause: Clause, phrase: Phrase, link: Token, subject: Phrase | None = None) -> None:
    facts, idle = phrase_facts(phrase, setting.lexicon, subject.part if subject else None, seen=link.kind == "WITH")
    if subject is not None and phrase.states and not phrase.parts and not phrase.findings:
        facts = [at_place(setting, fact, subject.spot(), outright=False) for fact in facts]
    where = phrase.spot(count=False)
    if link.kind == "BACKTO" and not facts:
        _back_to(setting, clause, phrase)
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
        clause.facts = [of_some(setting, fact) for fact in clause.facts]
        clause.facts = [fact for fact in clause.facts if fact.kind != ASIDE]
    if link.kind in ("AT", "FROM", "OF", "BY", "OVER", "FOR") or phrase.says_place_only:
        clause.facts = [at_place(setting, f, where, outright=True) for f in clause.facts]
    if measures:
        clause.facts = [
            replace(f, measures={**f.measures, **measures}) if f.kind == "finding" else f for f in clause.facts
        ]
        if not any(f.kind == "finding" for f in clause.facts):
            clause.measures.update(measures)
    if not clause.facts and clause.phrase is None and phrase.says_place_only:
        clause.phrase = phrase
    facts = facts if link.kind != "SINCE" else [replace(f, when=clause.when) if f.kind == "event" else f for f in facts]
    clause.facts += facts
    clause.idle += idle
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name


def _back_to(setting: Setting, clause: Clause, phrase: Phrase) -> None:
    """ "left shoot back to four leaves": shortening, without a verb."""
    spot = clause.phrase.spot() if clause.phrase else Spot()
    clause.facts = [f for f in clause.facts if f.kind == "species"]
    clause.work = [Work("shorten", spot, amount(setting, phrase), NOW)]
    clause.acts, clause.mood, clause.kind = ["decide"], Mood(NOW), "decide"


def at_place(setting: Setting, fact: Fact, where: Spot, outright: bool) -> Fact:
    """The finding with a place laid over it. outright: a part said with "on the ..." replaces a part named before."""
    if fact.kind != "finding":
        return fact
    named = setting.lexicon.names.get(str(fact.value), ())
    part = fact.spot.part
    if (
        where.part
        and not where.part.startswith(HIDDEN)
        and (outright or part is None)
        and (outright or where.part not in named)
    ):
        part = where.part if part is None or outright else part
    return replace(
        fact,
        spot=Spot(
            part,
            fact.spot.side or where.side,
            fact.spot.level or where.level,
            fact.spot.ordinal or where.ordinal,
            fact.spot.count or (None if outright else where.count),
        ),
    )


def of_some(setting: Setting, fact: Fact) -> Fact:
    """ "weak at the back": said with a place, it is not the health of the whole tree."""
    if fact.kind not in ("health", "stage"):
        return fact
    kind, _, value = meaning_of_some(setting.lexicon, f"{fact.kind}:{fact.value}").partition(":")
    return replace(fact, kind=kind, value=value)


def amount(setting: Setting, phrase: Phrase) -> dict[str, float]:
    settle_bare(phrase, setting.lexicon, "length_mm")
    if phrase.ordinal and not phrase.numbers and phrase.part in setting.lexicon.amount:
        phrase.numbers, phrase.ordinal = [phrase.ordinal], None  # "back to the first pair"
    if phrase.numbers:
        return {setting.lexicon.amount.get(phrase.part or "", "leaves"): phrase.numbers[0], **phrase.measures}
    return dict(phrase.measures)
