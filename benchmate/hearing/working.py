"""What is done: one verb with its object and what hangs on it."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .automaton import Node
from .clauses import Clause, Setting, chain, take_date
from .doing import AT_ONCE, DONE, LATER, NOT, NOW, Mood, mood_of, work_of
from .phrases import HIDDEN, Phrase, leaves, phrase_facts, read_phrase, settle_bare, state_meaning
from .reading import Fact, Spot, Work
from .seeing import amount, see
from .spotting import Token

_OF = Token("OF", "of", 0, 0, 0.0)
Linked = tuple[Token | None, Phrase]
# Links that are also particles: "back to two leaves", "looked over the roots".
_PARTICLES = {"BACKTO": "back", "OVER": "over", "WITH": "with"}
# Links whose noun does not say where the work is done.
_NO_PLACE = frozenset({"TO", "BACKTO", "BY", "WITH", "SINCE", "DATE", "FOR"})


def decide(setting: Setting, clause: Clause, node: Node) -> None:
    subject: Phrase | None = None
    aux: list[str] = []
    for child in node.children:
        if child.name == "auxs":
            aux = [token.value for token in child.children]
        elif child.name == "vp":
            do(setting, clause, child, aux, subject)
        else:
            see(setting, clause, child)
            subject, clause.phrase = clause.phrase, None
            aux = next((item for kind, item in reversed(chain(child)) if kind == "aux"), [])
        if "i" in aux and subject is not None and any(fact.kind != "species" for fact in clause.facts):
            subject, clause.acts = None, ["observe", "decide"]  # "its weak i'll leave it": two things in one breath
    if "need" in aux and clause.work:
        _needed(clause)
    clause.acts = clause.acts or (["decide"] if clause.work else ["observe"] if clause.facts else [])


def gone(setting: Setting, clause: Clause, node: Node) -> None:
    """ "a quarter of the roots off": told as if "took" had been said."""
    things = [item for _, item in chain(node)]
    start = next(leaves(node)).first
    said = [Token("PARTICLE", "off", t.first, t.end, 0.0) if getattr(t, "kind", "") == "OFF" else t for t in things]
    do(setting, clause, Node("vp", (Token("VED", "take", start, start, 0.0), *said)), [])
    clause.kind, clause.verbless = "decide", True
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
    clause.facts += inner.facts
    clause.idle += inner.idle
    clause.means += inner.means
    clause.acts = clause.acts or (["observe"] if clause.facts else [])


def _needed(clause: Clause) -> None:
    """ "it wants repotting" decides nothing yet: it asks whether the time is right."""
    clause.acts, clause.topic = ["ask"], "may"
    clause.work = [replace(work, done=None) for work in clause.work]


def do(setting: Setting, clause: Clause, vp: Node, aux: Sequence[str], subject: Phrase | None = None) -> None:
    """One verb with its object and what hangs on it."""
    verb, things, posts = _verb_phrase(vp)
    mood = mood_of(aux, verb.kind, verb.value, setting.lexicon, subject is not None)
    clause.mood = mood
    phrases = [(link, read_phrase(np)) for link, np in things]
    thing = next((p for link, p in phrases if link is None), None)
    if (thing is None or (mood.event and thing.says_place_only and not thing.parts)) and subject is not None:
        thing = subject
    if thing is not None and thing.pronoun == "none":  # "pinching nothing yet"
        mood = clause.mood = replace(mood, done=NOT)
    shares = [p.share for _, p in phrases if p.share is not None]
    particles = [t.value for t in posts if t.kind == "PARTICLE"] + [
        _PARTICLES[t.kind] for t in posts if t.kind in _PARTICLES
    ]
    if any(link and link.kind == "TO" and p.part in setting.lexicon.amount for link, p in phrases):
        particles.append("back")  # "cut it to three leaves"
    particles += [
        setting.lexicon.manner[t.value] for t in posts if t.kind == "MANNER" and t.value in setting.lexicon.manner
    ]
    particles += [t.value for t in posts if t.kind == "FROM" and t.value == "out"]  # "take one out of the whorl"
    parts = _telling_parts(phrases) + (list(subject.parts) if subject else [])
    if thing is not None:  # "take the flower buds off", "give it a high-nitrogen feed"
        parts += [part for token in thing.findings for part in reversed(setting.lexicon.names.get(token.value, ()))]
        parts += thing.means
    if (thing is not None and thing.pronoun and not thing.parts) or (shares and not any(p.parts for _, p in phrases)):
        parts += _meant_by_it(setting)
    if subject is not None and subject is not thing:
        phrases.append((_OF, subject))  # "would a 6 mm branch take a bend": sizes and place of the subject
    clause.vague = not parts
    name = work_of(setting.lexicon, verb.value, particles, parts, bool(shares))
    name = name or next((str(t.value) for _, p in phrases for t in p.events), None)  # "started an air layer"
    if name is None and verb.value == "do-it":
        name = _spoken_of(setting)
    if name is None:
        clause.idle += leaves(vp)
        clause.means += [means for _, phrase in phrases for means in phrase.means]
        return
    cell = setting.lexicon.works.get(name, {})
    work = Work(name, _work_spot(setting, name, thing, phrases), done=mood.done)
    measures = _work_measures(setting, clause, name, phrases, posts)
    if shares:
        measures["share"] = shares[0]
    manner = [cell["manners"][verb.value]] if verb.value in cell.get("manners", {}) else []
    manner += [t.value for t in posts if t.kind == "MANNER"] + (["all"] if thing and thing.every else [])
    for post in posts:
        if post.kind == "DATE":
            take_date(setting, clause, post, past=mood.done == DONE or mood.event, drop_now=mood.done not in (DONE,))
    done = _tense(setting, clause, name, mood)
    for link, phrase in phrases:
        if link is not _OF:  # what is said of the subject stands in the clause already
            _beside(setting, clause, phrase, link, done, name)
    for _, phrase in phrases:
        name_of = setting.lexicon.amount.get(phrase.part or "", "count")
        clause.series += [(name_of, number) for number in phrase.numbers]
    why = next((item for kind, item in chain(vp, whole="purpose") if kind == "purpose"), None)
    if why is not None and clause.because_at is None:
        clause.because_at = next(leaves(why)).first
    tokens = list(leaves(vp))
    work = replace(work, measures=measures, manner=tuple(manner), done=done, span=(tokens[0].first, tokens[-1].end))
    if mood.event:
        clause.facts.append(Fact("event", name, Spot(), {}, clause.when, mood.denied, (verb.first, verb.end)))
        clause.when, clause.acts = None, ["observe"]
        return
    clause.work.append(work)
    if cell.get("remind") and done == LATER and clause.when:
        clause.work[-1] = replace(work, done=None)
        clause.acts = ["remind"]


def _meant_by_it(setting: Setting) -> list[str]:
    """The part that "it" means after a finding of the clause before ("wire's biting, take it off")."""
    facts = setting.before[-1].facts if setting.before else []
    return [setting.lexicon.pronoun[str(f.value)] for f in facts if f.value in setting.lexicon.pronoun and not f.denied]


def _spoken_of(setting: Setting) -> str | None:
    """ "full defoliation, did it yesterday": the work that was only named before; it is told here instead."""
    before = setting.before[-1] if setting.before else None
    events = [f for f in before.facts if f.kind == "event" and f.when is None] if before else []
    if before is None or not events:
        return None
    before.facts = [f for f in before.facts if f not in events]
    return str(events[-1].value)


def _tense(setting: Setting, clause: Clause, name: str, mood: Mood) -> str:
    done = mood.done
    ahead = clause.when is not None and clause.when > setting.on[: len(clause.when)]
    if name in AT_ONCE and done in (LATER, NOW):
        return NOW
    if done == NOW and clause.when and ahead and not setting.on.startswith(clause.when):
        return LATER
    if done == NOW and mood.open and clause.when and clause.when < setting.on[: len(clause.when)]:
        return DONE
    return done


def _work_spot(setting: Setting, name: str, thing: Phrase | None, phrases: Sequence[Linked]) -> Spot:
    """Where the work is done: the thing's own place, then what "on the ...", "off the ..." add. A part comes only from
    words that place ("at the base"); a side or a level from any ("by a third at the top")."""
    named = setting.lexicon.works.get(name, {}).get("part_named", ())
    spot = Spot()
    if thing is not None:
        spot = thing.spot()
        if spot.part in named:
            spot = replace(spot, part=None)
        spot = _finding_part(setting, spot, thing, named)
    for link, phrase in phrases:
        if link is None or phrase is thing:
            continue
        part = phrase.shown_part if phrase.shown_part not in named and not _no_place(link, phrase) else None
        if link.kind == "OF" and link is not _OF and thing is not None and thing.part is not None:
            part = None
        spot = Spot(
            spot.part or part,
            spot.side or phrase.side,
            spot.level or phrase.level,
            spot.ordinal or phrase.ordinal,
            spot.count,
        )
    return spot


def _no_place(link: Token, phrase: Phrase) -> bool:
    """Whether a linked phrase says how or how much rather than where: "over 10 cm" does, "over the roots" does not."""
    return link.kind in _NO_PLACE or (link.kind == "OVER" and bool(phrase.measures or phrase.bare))


def _finding_part(setting: Setting, spot: Spot, thing: Phrase, named: Sequence[str]) -> Spot:
    """ "the dead one": the branch that the finding names is the part that is worked on."""
    if spot.part is not None or thing.parts:
        return spot
    for token in thing.states:
        meaning = state_meaning(setting.lexicon, token.value, "branch") or ""
        if meaning.startswith("finding:") and thing.one:
            return replace(spot, part=None)
    for token in thing.findings:
        parts = setting.lexicon.names.get(token.value, ())
        if parts and parts[0] not in named:
            return replace(spot, part=parts[0])
    return spot


def _work_measures(
    setting: Setting, clause: Clause, name: str, phrases: Sequence[tuple[Token | None, Phrase]], posts: Sequence[Token]
) -> dict[str, float]:
    measures: dict[str, float] = {}
    bends = name in ("bend", "guy", "wire")
    for link, phrase in phrases:
        kind = link.kind if link else None
        if (
            kind in ("TO", "BACKTO")
            and (phrase.numbers or phrase.ordinal)
            and (phrase.part in setting.lexicon.amount or kind == "BACKTO" or not phrase.parts)
        ):
            measures.update(amount(setting, phrase))
            phrase.parts = []
        else:
            as_length = "length_mm" if kind in ("OVER", "TO", "BACKTO") else None
            settle_bare(phrase, setting.lexicon, as_length, "angle_deg" if bends else "temperature_c")
            measures.update(phrase.measures)
        clause.series += phrase.series
    return measures


def _beside(setting: Setting, clause: Clause, phrase: Phrase, link: Token | None, done: str, work: str) -> None:
    """What the phrases of a verb say beside the work: species, findings, means, references."""
    facts, idle = phrase_facts(phrase, setting.lexicon)
    for fact in facts:
        if fact.kind == "finding":
            gone = done == DONE and phrase.parts and setting.lexicon.names.get(str(fact.value))
            counted = fact.value in setting.lexicon.counted.values() and not phrase.findings and not phrase.states
            if gone or counted:
                continue
        if fact.kind == "event" and link is None:
            continue
        clause.facts.append(fact)
    clause.idle += [token for token in idle if link is None or link.kind != "FOR"]
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
    if phrase.pronoun and phrase.pronoun != "none" and link is None:
        clause.refers.append(phrase.pronoun)
    if phrase.other or (phrase.one and not phrase.side and not phrase.level and not phrase.ordinal):
        clause.refers.append(phrase.other or "one")


def _telling_parts(phrases: Sequence[tuple[Token | None, Phrase]]) -> list[str]:
    """The parts that help to tell the work: of the object, of "a third of the roots", and helpers ("the ~shade")."""
    outright = [p for link, phrase in phrases if link is None or link.kind == "OF" for p in reversed(phrase.parts)]
    if not outright:  # "took a quarter off the roots"
        outright = [p for link, phrase in phrases if link is not None and link.value == "off" for p in phrase.parts]
    if not outright:  # "go with the left leader"
        outright = [p for link, phrase in phrases if link is not None and link.kind == "WITH" for p in phrase.parts]
    return outright + [p for link, phrase in phrases if link is not None for p in phrase.parts if p.startswith(HIDDEN)]


def _verb_phrase(vp: Node) -> tuple[Token, list[tuple[Token | None, Node]], list[Token]]:
    """(verb, noun phrases each with the link before it, all links and particles)."""
    verb: Token | None = None
    things: list[tuple[Token | None, Node]] = []
    posts: list[Token] = []
    link: Token | None = None
    for kind, item in chain(vp, whole="purpose"):
        if kind == "purpose":
            continue
        if kind == "np":
            things.append((link, item))
            link = None
        elif item.kind in ("V", "VED", "VING"):
            verb = verb or item
        else:
            posts.append(item)
            link = item if item.kind != "PARTICLE" else None
            if item.kind == "PARTICLE" and things:
                link = Token("FROM", "off", item.first, item.end, 0.0)
    assert verb is not None
    return verb, things, posts
