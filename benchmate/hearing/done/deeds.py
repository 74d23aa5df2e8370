"""A verb phrase taken apart, and the work that it names: "took the wire off" is one, "took a third off" another."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import dataclass, field, replace

from ..clauses import Clause, Setting
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..seen.phrases import HIDDEN, Phrase, linked_phrase, settle_bare
from ..seen.saying import phrase_facts
from ..seen.sizes import amount
from ..vocabulary.lexicon import Lexicon
from .doing import DONE, LATER, NOT, NOW, Mood, mood_of, work_of
from .particles import PARTICLES, back_of, is_particle, lost_particle, verb_phrase
from .worked_on import SUBJECT, Linked, meant_by_it, meant_by_one, spoken_of, telling_parts, what_is_given

_MEANS_BY = frozenset({"WITH", "FROM", "OF"})  # "drench it with insecticide", "took it from the wild"
ACCIDENT = "accident"  # a manner: nobody meant it
TREE = "tree"  # the part that tells work of a whole tree ("when can the olive come out")
LONG_AGO = "long-ago"  # a manner: done on a day that nobody knows


@dataclass
class Deed:
    """One verb with what stands around it.

    phrases: its objects, each with the link before it. posts: all links and particles. thing: what it is done to.
    particles: words that make another verb of it ("off", "back"). parts: the parts that tell which work it is, the
    most telling first. wider: what else these parts stand for. kept: the amount that is left ("left three buds").
    aux: the small words before the verb; "stop" among them where the work is given up ("stopped feeding").
    by_weather: it is told as the weather's doing.
    """

    verb: Token
    phrases: list[Linked]
    posts: list[Token]
    thing: Phrase | None
    subject: Phrase | None
    mood: Mood
    shares: list[float]
    particles: list[str] = field(default_factory=list)
    parts: list[str] = field(default_factory=list)
    wider: list[dict[str, str]] = field(default_factory=list)
    kept: dict[str, float] = field(default_factory=dict)
    aux: tuple[str, ...] = ()
    by_weather: bool = False

    @property
    def bare(self) -> bool:
        """Whether neither a subject nor who did it is told."""
        return self.subject is None and "i" not in self.aux

    @property
    def stopped(self) -> bool:
        return "stop" in self.aux

    def parts_tell(self, lexicon: Lexicon) -> bool:
        """Whether one of its parts is named by a pattern of the verb ("the wire came off")."""
        keys = (f"{self.verb.value}|{way}|{part}|" for way in [*self.particles, ""] for part in self.parts)
        return any(key in lexicon.patterns for key in keys)


def deed_of(setting: Setting, vp: Node, aux: Sequence[str], subject: Phrase | None, places: Sequence[Linked]) -> Deed:
    """The verb phrase taken apart. subject: what it is said of; places: where that is, each with its link."""
    subject, places = of_what(subject, places)
    verb, things, posts = verb_phrase(vp)
    phrases: list[Linked] = [(link, linked_phrase(link, np)) for link, np in things]
    thing = next((p for link, p in phrases if link is None), None)
    mood = mood_of(aux, verb.kind, verb.value, setting.lexicon, subject is not None, thing is not None)
    if mood.done == DONE and not mood.event and any(t.kind == "MANNER" and t.value == LONG_AGO for t in posts):
        mood = replace(mood, event=True)  # "dug off a hillside at some point": nobody knows the day
    of_tree = thing is not None and bool(thing.species) and not thing.parts and "be" in aux  # "be taken off the elm"
    off_place = mood.event and thing is not None and thing.says_place_only and not thing.parts
    off_place = off_place and not (subject is not None and subject.weather)  # "the wind has taken the top off"
    if (thing is None or off_place or (of_tree and subject is not None and subject.parts)) and subject is not None:
        thing = subject
    if thing is not None and thing.pronoun == "none":  # "pinching nothing yet"
        mood = replace(mood, done=NOT)
    for _, p in phrases:  # "took the top third off"
        if p.ordinal and p.ordinal > 2 and p.level and not (p.parts or p.one or p.findings) and p.share is None:
            p.share, p.ordinal = 1 / p.ordinal, None
    shares = [p.share for _, p in phrases if p.share is not None]
    if not shares and subject is not None and subject is thing and subject.share is not None:
        shares = [subject.share]
    deed = Deed(verb, phrases, posts, thing, subject, mood, shares, aux=tuple(aux))
    _take_particles(setting, deed)
    _take_parts(setting, deed, places)
    return deed


def of_what(subject: Phrase | None, places: Sequence[Linked]) -> tuple[Phrase | None, Sequence[Linked]]:
    """ "A quarter of the roots were cut off": what is worked on, with its share; "every bit of wire": the wire."""
    told = subject is not None and all(part.startswith(HIDDEN) for part in subject.parts)
    if subject is None or not told or not (subject.share or subject.parts) or not places:
        return subject, places
    link, thing = places[0]
    if link is None or link.kind != "OF":
        return subject, places
    thing.share = subject.share
    return thing, places[1:]


def _take_particles(setting: Setting, deed: Deed) -> None:
    """The words that make another verb of the verb, wherever they stand."""
    posts, thing = deed.posts, deed.thing
    particles = [t.value for t in posts if t.kind == "PARTICLE"]
    particles += [PARTICLES[t.kind] for t in posts if t.kind in PARTICLES]
    if any(link and link.kind == "TO" and p.part in setting.lexicon.amount for link, p in deed.phrases):
        particles.append("back")  # "cut it to three leaves"
    back_of(setting, deed.verb, thing, posts, particles)
    bare_end = thing is not None and deed.verb.kind == "VING" and thing.only_state and deed.mood.done == NOW
    if thing is not None and bare_end and setting.lexicon.states.get(thing.states[0].value, {}).get("ends"):
        thing.states = []  # "repotting finished"
        deed.mood = replace(deed.mood, done=DONE)
    if thing is not None and thing.states and is_particle(setting, thing, thing.states[-1]):
        particles.append(thing.states.pop().value)  # "potted the olive on"
    manner = setting.lexicon.manner
    particles += [manner[t.value] for t in posts if t.kind == "MANNER" and t.value in manner]
    if any(t.value == "into" for t in posts):
        particles = [particle for particle in particles if particle != "out"]  # "moved it out into the sun"
    particles += [way for t in posts if t.kind == "FROM" and t.value == "out" for way in ("out-of", "out")]
    deed.particles = particles


def _take_parts(setting: Setting, deed: Deed, places: Sequence[Linked]) -> None:
    """The parts that tell which work it is: said, meant by a pronoun, told by a measure, and what they stand for."""
    lexicon, thing, subject = setting.lexicon, deed.thing, deed.subject
    parts = telling_parts(deed.phrases) + (list(subject.parts) if subject else [])
    if thing is not None:  # "take the flower buds off", "give it a high-nitrogen feed"
        parts += [part for token in thing.findings for part in reversed(lexicon.names.get(token.value, ()))]
        parts = [*parts, *thing.means] if thing.parts else [*thing.means, *parts]  # "the tape off the left branch"
    works = lexicon.works
    parts += [
        works[t.value]["as_part"] for _, p in deed.phrases for t in p.events if "as_part" in works.get(t.value, {})
    ]
    parts += [means for link, p in deed.phrases if link is not None and link.kind in _MEANS_BY for means in p.means]
    bare_share = bool(deed.shares) and not any(p.parts for _, p in deed.phrases)
    if (thing is not None and thing.pronoun and not thing.parts) or bare_share:
        of_many = any(link is not None and link.kind == "OF" and p.many for link, p in deed.phrases)  # "half of them"
        parts += meant_by_it(setting, many=thing is None or thing.many or of_many)
    left = deed.verb.value in lexicon.data["third"] or "be" in deed.aux  # "when should it come off", "... be removed"
    if thing is None and subject is None and left:
        parts += meant_by_it(setting)
    if thing is not None and (thing.one or thing.many) and not thing.parts and not thing.findings:
        parts += meant_by_one(setting)
    if thing is not None and thing.names_one:
        parts.append("~one")
    of = subject or thing
    if of is not None and not parts and (of.species or of.name) and not (of.findings or of.states):
        parts.append(TREE)
    deed.phrases += places
    if subject is not None and subject is not thing:
        deed.phrases.append((SUBJECT, subject))  # "would a 6 mm branch take a bend": sizes and place of the subject
    parts += [part for name, part in lexicon.told_by.items() if any(name in p.measures for _, p in deed.phrases)]
    deed.wider = [dict(lexicon.kind_of[part]) for part in parts if part in lexicon.kind_of]
    first = [kind["part"] for kind in deed.wider if "seen" in kind]  # before what else "them" may mean
    deed.parts = first + parts + [kind["part"] for kind in deed.wider if "seen" not in kind]


def name_of(setting: Setting, clause: Clause, deed: Deed) -> str | None:
    """The work that a deed is, or None. What of it is lost on the way goes to the clause's idle words."""
    lexicon, verb, subject = setting.lexicon, deed.verb, deed.subject
    thing = deed.thing
    whole = thing is not None and thing.part in lexicon.length_off  # "take some branches off": whole ones
    some = thing is not None and thing.some and not whole  # "take some of the outer leaves off"
    off = any(particle in lexicon.sense["after_verb"] for particle in deed.particles)
    numbered = off and thing is not None and thing.part in lexicon.amount
    marked = thing is not None and numbered and any(f.kind == "finding" for f in phrase_facts(thing, lexicon)[0])
    if thing is not None and not thing.parts:  # "took the yellow leaves off": the finding names the part
        marked = any(set(lexicon.names.get(token.value, ())) & set(lexicon.amount) for token in thing.findings)
    counted = thing is not None and (marked or (numbered and bool(thing.numbers)))
    hosts = [p for link, p in deed.phrases if link is not None and p is not thing and p.says_place_only]
    leaves = numbered and thing is not None and lexicon.amount.get(thing.part or "") == "leaves"
    if leaves and thing is not None and thing.numbers and hosts and not deed.kept:
        deed.kept, thing.numbers = amount(setting, thing), []  # the number is that of the leaves, not of the shoots
    some = some or counted or spoilt(setting, thing)  # "took three leaves off", "cut the mildewed leaves off"
    come = verb.value in lexicon.data["third"] and (verb.kind == "VED" or "have" in deed.aux)
    if come and not deed.parts_tell(lexicon):
        return None  # "the leaves have come out": nobody's work
    name = work_of(lexicon, verb.value, deed.particles, deed.parts, bool(deed.shares) or some)
    name = _so_much_off(setting, deed) or name
    name = name or next((str(t.value) for _, p in deed.phrases for t in p.events), None)  # "started an air layer"
    carried = verb.value in lexicon.data.get("light", ())
    if name is None and subject is not None and subject.events and carried:  # "repot done", but not "the bend has set"
        name = str(subject.events[0].value)
        clause.facts = [fact for fact in clause.facts if fact.kind != "event" or fact.value != name]
    if name is None and subject is not None and carried and (given := what_is_given(setting, subject)):
        name = given.work  # "would a strong feed help the roots along"
    bare = not any(link is None for link, _ in deed.phrases)
    if verb.value in lexicon.data.get("with_thing", ()) and verb.kind != "VED" and subject is not None and bare:
        name = None  # "the roots are growing out of the bottom"
    if name is None and verb.value == "do-it":
        name = spoken_of(setting)
    if (dropped := lost_particle(setting, verb, deed.particles, deed.posts)) is not None:
        noun = verb.kind == "V" and dropped.value == "off" and dropped.first == verb.end
        name = lexicon.patterns.get(f"take|off|{verb.value}|") if noun else None
        if name is None:  # "wired it off": whatever that is, it is not wiring
            clause.idle.append(dropped)
            name = work_of(lexicon, verb.value, [], deed.parts, bool(deed.shares))
        else:  # "wire off the left branch": the noun, and it is gone
            deed.mood, clause.verbless = Mood(DONE, open=True), True
    if deed.stopped and (ended := lexicon.data["ends"].get(name or "")):  # "quit feeding it" is a work of its own
        return _given_up(setting, deed, ended)
    return name


def _given_up(setting: Setting, deed: Deed, ended: str) -> str:
    """The work that giving another up is; it is done, meant or asked as the giving up is."""
    verb, aux = deed.verb, [word for word in deed.aux if word != "stop"]
    form = "V" if verb.kind == "VING" and {"will", "ask", "let"} & set(aux) else verb.kind
    deed.mood = mood_of(aux, form, verb.value, setting.lexicon, deed.subject is not None, deed.thing is not None)
    return ended


def _so_much_off(setting: Setting, deed: Deed) -> str | None:
    """ "Took half off each candle", "cut 5 cm off the leader": a piece of each thing, and not so many of them."""
    lexicon, thing = setting.lexicon, deed.thing
    if thing is not None and (thing.parts or thing.findings or thing.species):
        return None
    sized = thing is not None and bool(thing.bare or "length_mm" in thing.measures)
    for link, phrase in deed.phrases:
        if link is None or link.value != "off":
            continue
        placed = "~place" if not phrase.parts and (phrase.level or phrase.side) else phrase.part or ""
        work = lexicon.off_each.get(placed) if phrase.each and (deed.shares or sized) else None
        work = work or (lexicon.length_off.get(placed) if sized else None)
        if work is not None:
            if thing is not None:
                settle_bare(thing, lexicon, "length_mm")
            return work
    return None


def spoilt(setting: Setting, thing: Phrase | None) -> bool:
    """ "The black leaves", "the mushy leaves": those that a state tells apart as spoilt, and never all."""
    leaves = thing is not None and setting.lexicon.amount.get(thing.part or "") == "leaves"
    return leaves and any(token.value in setting.lexicon.sense["spoilt"] for token in thing.states)  # type: ignore[union-attr]


def settled_work(setting: Setting, clause: Clause, deed: Deed, name: str) -> str:
    """The work, where what is spared or put off is another than the verb's own. Its amount goes into the deed."""
    thing = deed.thing
    if name == "leave" and thing is not None and thing.part in setting.lexicon.amount and thing.numbers:
        deed.kept, thing.parts = amount(setting, thing), []  # "left three buds on the low branch"
        thing.numbers = []
        for link, phrase in deed.phrases:
            phrase.parts = [] if link is not None and link.kind == "OF" else phrase.parts  # "two pairs of leaves"
        return "shorten"
    tools = [p for link, p in deed.phrases if link is not None and link.kind == "WITH"]
    left = next((p for p in tools if p.part in setting.lexicon.amount and p.numbers), None)
    if name == "leave" and left is not None and thing is not None:  # "left each shoot with two leaves"
        deed.kept, left.parts = amount(setting, left), []
        left.numbers = []
        return "shorten"
    if name == "leave" and thing is not None and thing.events and not thing.parts:  # "leave the repotting till spring"
        deed.mood = Mood(NOT)
        return str(thing.events[0].value)
    off = next((str(t.value) for link, p in deed.phrases if link is not None for t in p.events), None)
    if name == "wait" and off is not None and deed.mood.done in (NOW, LATER):  # "holding off on the feed"
        deed.mood = Mood(NOT)
        return off
    waits = thing is not None and thing is not deed.subject and thing.events
    if name == "wait" and thing is not None and waits and deed.mood.done in (NOW, LATER):
        deed.mood = Mood(LATER)  # "postpone the repot till spring"
        return str(thing.events[0].value)
    put_off = deed.subject.events if name == "wait" and deed.subject is not None else []
    if put_off and deed.mood.done in (NOW, LATER):  # "the repot can wait till August"
        deed.mood = Mood(LATER)
        clause.facts = [fact for fact in clause.facts if fact.kind != "event"]
        return str(put_off[0].value)
    return name
