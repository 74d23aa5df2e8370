"""What is done: one verb with its object and what hangs on it."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause, Setting, chain, is_just_past, take_date, tense
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Fact, Spot, Work
from ..seen.phrases import Phrase, leaves, read_phrase
from ..seen.placing import of_some
from ..seen.saying import phrase_facts
from ..seen.seeing import see
from .deeds import Deed, deed_of, name_of, settled_work
from .doing import DONE, LATER, NOT, NOW, Mood
from .done_before import no_longer_there, places_of, worked_before
from .harm import blown_off, broke_it, by_creature, harm_of, nobodys
from .manner import manners_of, spread_over
from .mishaps import went_wrong
from .worked_on import SUBJECT, Linked, found_there, work_measures, work_spot

_NOT_OFF = frozenset({"temperature_c", "days"})  # measures that nothing taken off has


def decide(setting: Setting, clause: Clause, node: Node) -> None:
    subject: Phrase | None = None
    places: list[Linked] = []
    aux: list[str] = []
    for child in node.children:
        if child.name == "auxs":
            aux = [token.value for token in child.children]
        elif child.name == "vp":
            passive = {"be", "being"} & set(aux) and "i" not in aux
            known = list(clause.facts)
            do(setting, clause, child, aux, subject, places if passive else ())
            if passive and subject is not None:
                no_longer_there(setting, clause, subject, known)
        else:
            see(setting, clause, child)
            subject, clause.phrase = clause.phrase, None
            places = places_of(child)
            aux = next((item for kind, item in reversed(chain(child)) if kind == "aux"), [])
            if {"be", "have"} & set(aux) and "i" not in aux and any(f.kind == "finding" for f in clause.facts):
                clause.acts = ["observe", "decide"]  # "the box is root bound, gonna repot it", in one breath
        if subject is not None and "i" in aux and clause.work and clause.measures and subject.says_place_only:
            last = clause.work[-1]  # "80 ppm I fed the figs"
            clause.work[-1] = replace(last, measures={**clause.measures, **last.measures})
            subject, clause.measures = None, {}
        if subject is not None and "i" in aux and subject.span[1] - subject.span[0] == 1 and subject.ordinal:
            subject = None  # "first I cut it back"
        if (
            ("i" in aux or {"do", "not"} <= set(aux))
            and child.name != "vp"
            and subject is not None
            and any(fact.kind != "species" for fact in clause.facts)
        ):
            subject, clause.acts = None, ["observe", "decide"]  # "its weak i'll leave it": two things in one breath
    clause.by_grower = "i" in aux
    if subject is not None and "i" in aux and clause.work and clause.mood is not None and clause.mood.done == DONE:
        worked_before(setting, clause, subject, node)
    first = node.children[0] if node.children else None
    leads = isinstance(first, Node) and first.name == "auxs" and first.children[0].value == "i"
    clause.led = leads and "will" not in aux  # but "if I've time, I'll feed it"
    if "need" in aux and clause.work:
        _needed(setting, clause)
    if clause.dated is not None and clause.mood is not None and clause.mood.done == DONE:
        month = clause.when if clause.when and len(clause.when) == 7 else None
        take_date(setting, clause, clause.dated, past=True)  # "in March I grafted it"
        if month and clause.when and len(clause.when) == 4:  # "last year I cut it back in June"
            clause.when += month[4:]
        if clause.mood.open and "i" in aux and (clause.when or setting.on) < setting.on[: len(clause.when or "")]:
            clause.work = [replace(work, done=DONE) if work.done == LATER else work for work in clause.work]
    told = any(fact.kind in ("health", "stage", "phase") for fact in clause.facts)
    if not clause.acts and clause.work and told and clause.work[-1].work != "leave":
        clause.acts = ["observe", "decide"]  # "not feeding it too weak"
    if clause.facts and not clause.work and "observe" in clause.acts:
        clause.acts = ["observe"]  # "twin branches that I had overlooked"
    clause.acts = clause.acts or (["decide"] if clause.work else ["observe"] if clause.facts else [])


def gone(setting: Setting, clause: Clause, node: Node) -> None:
    """ "a quarter of the roots off": told as if "took" had been said."""
    told = [read_phrase(item) for kind, item in chain(node) if kind == "np"]
    if len(told) > 1 and (finding := blown_off(setting, told[0], told[1])):
        days = [token for token in leaves(node) if token.kind == "DATE"]
        went_wrong(setting, clause, finding, told[1], [(None, place) for place in told[2:]], days)
        return
    if any(kind == "link" and getattr(item, "kind", "") == "HARM" for kind, item in chain(node)):
        see(setting, clause, node)  # "the storm tore the second branch off": nobody's work
        clause.kind, clause.acts = "observe", ["observe"]
        return
    things = [item for kind, item in chain(node) if kind != "aux"]  # "has finished flowering cut off the left one"
    start = next(leaves(node)).first
    said = [Token("PARTICLE", "off", t.first, t.end, 0.0) if getattr(t, "kind", "") == "OFF" else t for t in things]
    do(setting, clause, Node("vp", (Token("VED", "take", start, start, 0.0), *said)), [])
    if clause.vague and all(work.spot == Spot() and not set(work.measures) - _NOT_OFF for work in clause.work):
        clause.work = []  # "the juniper looks a bit off": nothing that could be gone was named
    clause.kind, clause.verbless = "decide", True
    if any("need" in item for kind, item in chain(node) if kind == "aux") and clause.work:
        _needed(setting, clause)  # "it needs its wire off"
    by = next((t.value for t in leaves(node) if t.kind == "DATE" and t.value.deadline), None)
    if by is not None and by.future and clause.work:  # "wire off by Friday"
        clause.when = by.future
    if clause.work and any(t.kind == "OFF" and t.value == "coming" for t in leaves(node)):  # "the wire's coming off"
        clause.work, clause.mood = [replace(work, done=NOW) for work in clause.work], Mood(NOW)
        clause.when = next((t.value.future for t in leaves(node) if t.kind == "DATE"), None) or clause.when
    ahead = bool(clause.when) and str(clause.when) > setting.on[: len(str(clause.when))]
    willed = any("will" in item for kind, item in chain(node) if kind == "aux")  # "I'll have the wire off"
    if by is not None or ahead or willed:
        clause.work, clause.mood = [replace(work, done=LATER) for work in clause.work], Mood(LATER)
    if clause.mood is not None:
        clause.mood = replace(clause.mood, open=True)
    clause.acts = clause.acts or (["decide"] if clause.work else ["observe"] if clause.facts else [])


def happened(setting: Setting, clause: Clause) -> None:
    """ "since I repotted it in March": an event of the tree, beside what the clause says."""
    if clause.since is None:
        return
    aux, vp = clause.since
    inner = Clause("decide")
    do(setting, inner, vp, aux)
    when = inner.when or clause.when  # "four summers since I dug it"
    clause.when = clause.when if inner.when else None
    for work in inner.work:
        denied = work.done == NOT
        clause.facts.append(Fact("event", work.work or "", Spot(), {}, when, denied, work.span))
        if denied and (like := setting.lexicon.data["untended"].get(work.work or "")):
            clause.facts.append(Fact("finding", like, span=work.span))  # "since I forgot to water it"
    clause.facts += inner.facts
    clause.idle += inner.idle
    clause.means += inner.means
    clause.acts = clause.acts or (["observe"] if clause.facts else [])


def _needed(setting: Setting, clause: Clause) -> None:
    """ "it wants repotting" decides nothing yet: it asks whether the time is right. "It doesn't" decides."""
    if any(work.done == NOT for work in clause.work):
        return
    clause.work = [replace(work, done=None) for work in clause.work]
    reminds = all(setting.lexicon.works.get(work.work or "", {}).get("remind") for work in clause.work)
    if reminds and clause.when is not None and clause.when > setting.on:  # "the wire wants checking in a fortnight"
        clause.acts = ["remind"]
        return
    clause.acts, clause.topic = ["ask"], "may"


def do(
    setting: Setting,
    clause: Clause,
    vp: Node,
    aux: Sequence[str],
    subject: Phrase | None = None,
    places: Sequence[Linked] = (),
) -> None:
    """One verb with its object and what hangs on it. places: where the subject is, each with its link."""
    deed = deed_of(setting, vp, aux, subject, places)
    clause.mood, clause.vague = deed.mood, not deed.parts
    clause.verb = tuple(f"{deed.verb.value}|{way}" for way in [*deed.particles, ""])
    name = name_of(setting, clause, deed)
    if finding := harm_of(setting, clause, deed):
        if deed.thing is None and not deed.particles:
            name = None  # "I'm lost"
        elif broke_it(setting, deed, finding, name) and deed.thing is not None:
            went_wrong(setting, clause, finding, deed.thing, deed.phrases, deed.posts)
            return
    if name is not None and (nobodys(deed, aux) or by_creature(setting, clause, deed)):
        name = None
    if name is None and deed.mood.done == NOT and deed.verb.value in setting.lexicon.data.get("untouched", ()):
        name, deed.mood = "leave", Mood(NOW)  # "I'm not touching it"
    if name is None:
        clause.phrase = deed.thing
        clause.idle += leaves(vp)
        clause.means += [means for _, phrase in deed.phrases for means in phrase.means]
        return
    name = settled_work(setting, clause, deed, name)
    if _where_it_ends(setting, deed, name):
        clause.mood, clause.taken = None, True
        return
    clause.leaving = bool(deed.kept) and deed.verb.value == "leave" and deed.thing is not None
    _take_down(setting, clause, vp, deed, name)


def _where_it_ends(setting: Setting, deed: Deed, name: str) -> bool:
    """ "Took the top off, cut back to a side branch": the second verb tells where the first cut ended."""
    before = setting.before[-1].work if setting.before and setting.before[-1].kind == "decide" else []
    own = deed.thing is not None and not (deed.thing.pronoun and not deed.thing.parts)
    if (
        name != "shorten"
        or own
        or not before
        or deed.mood.done not in (NOW, before[-1].done)
        or deed.shares
        or deed.kept
    ):
        return False
    ends = [phrase for link, phrase in deed.phrases if link is not None and link.kind in ("TO", "BACKTO")]
    wooden = [
        p for p in ends if p.part in ("branch", "side-branch", "shoot", "leader") and not p.numbers and not p.bare
    ]
    return before[-1].work in ("remove", "shorten") and "back" in deed.particles and bool(wooden)


def _take_down(setting: Setting, clause: Clause, vp: Node, deed: Deed, name: str) -> None:
    """The work of a deed, with what is said beside it, into the clause."""
    cell, mood, phrases = setting.lexicon.works.get(name, {}), deed.mood, deed.phrases
    work = Work(name, work_spot(setting, name, deed.thing, phrases), done=mood.done)
    if "inside" in deed.particles and not any(
        k.startswith(f"{deed.verb.value}|inside|") for k in setting.lexicon.patterns
    ):
        work = replace(work, spot=replace(work.spot, level=work.spot.level or "inner"))  # "thin the twigs inside"
    measures = work_measures(setting, clause, name, phrases, deed.posts) | deed.kept
    halving = setting.lexicon.data.get("halving", {})
    if deed.shares:
        measures["share"] = deed.shares[0]
    elif deed.verb.value in halving and name in halving["works"]:  # "halved the candles"
        measures["share"] = halving[deed.verb.value]
    for post in deed.posts:
        if post.kind == "DATE":
            past = mood.done == DONE or mood.event or (mood.open and is_just_past(setting, post))
            if clause.topic == "may" and "ask" in deed.aux and "have" not in deed.aux:  # "can it be wired in March?"
                past = False
            take_date(setting, clause, post, past=past, drop_now=mood.done not in (DONE,))
    done = tense(setting, clause, name, mood)
    known = len(clause.facts)
    for link, phrase in phrases:
        if link is not SUBJECT:  # what is said of the subject stands in the clause already
            _beside(setting, clause, phrase, link, done, name)
    clause.facts[known:] = [found_there(fact, work.spot) for fact in clause.facts[known:]]
    for _, phrase in phrases:
        name_of = setting.lexicon.amount.get(phrase.part or "", "count")
        clause.series += [(name_of, number) for number in phrase.numbers]
    why = next((item for kind, item in chain(vp, whole="purpose") if kind == "purpose"), None)
    if why is not None and clause.because_at is None:
        clause.because_at = next(leaves(why)).first
    tokens = list(leaves(vp))
    manner, measures = spread_over(deed, cell, tuple(manners_of(setting, deed, name)), measures)
    work = replace(work, measures=measures, manner=manner, done=done, span=(tokens[0].first, tokens[-1].end))
    if mood.event:
        span = (deed.verb.first, deed.verb.end)
        event = Fact("event", name, Spot(), {}, clause.when, mood.denied, span)
        clause.facts.append(event)
        clause.passive.append((work, event))
        clause.when, clause.acts = None, ["observe"]
        return
    clause.work.append(work)
    for _, phrase in phrases:  # "repotted it, a quarter of the roots off"
        if phrase.share is not None and (other := cell.get("beside", {}).get(phrase.part)):
            clause.work[-1] = replace(work, measures={k: v for k, v in measures.items() if k != "share"})
            clause.work.append(Work(other, measures={"share": phrase.share}, done=done, span=work.span))
            break
    if cell.get("remind") and done == LATER and clause.when:
        clause.work[-1] = replace(work, done=None)
        clause.acts = ["remind"]


def _beside(setting: Setting, clause: Clause, phrase: Phrase, link: Token | None, done: str, work: str) -> None:
    """What the phrases of a verb say beside the work: species, findings, means, references."""
    facts, idle = phrase_facts(phrase, setting.lexicon)
    if link is not None and link.value == "until":  # "leave it until the buds swell": not seen yet
        facts = [fact for fact in facts if fact.kind == "species"]
    cut = setting.lexicon.works.get(work, {}).get("group") == "cutting"
    if phrase.one:
        facts = [of_some(setting, fact) for fact in facts]  # "left the weak ones alone": of the branches
    told = setting.before[-1] if setting.before else None
    if work == "leave" and phrase.one and told is not None and any(one.done in (NOW, DONE) for one in told.work):
        facts = [fact for fact in facts if fact.kind != "finding"]  # "..., left the weak ones": what was spared by it
    for fact in facts:
        if fact.kind == "stage" and cut and phrase.parts and done in (NOW, DONE):
            continue  # "picking the spent flowers off"
        if fact.kind == "finding":
            gone = done == DONE and cut and (phrase.parts or phrase.one)  # what was cut off is there no more
            counted = fact.value in setting.lexicon.counted.values() and not phrase.findings and not phrase.states
            if gone or counted:
                continue
        if fact.kind == "event" and fact.value == work:  # "2 litres of feed"
            continue
        if (fact.kind == "event" and link is None) or (fact.kind == "weather" and link and link.value == "out"):
            continue
        clause.facts.append(fact)
    clause.idle += [token for token in idle if link is None or link.kind != "FOR"]
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
    if phrase.pronoun and phrase.pronoun != "none" and link is None:
        clause.refers.append(phrase.pronoun)
    if phrase.other or (phrase.one and not phrase.side and not phrase.level and not phrase.ordinal):
        clause.refers.append(phrase.other or "one")
