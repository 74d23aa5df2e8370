"""From the parse tree to the reading: each clause by its kind, then what one clause leaves to another."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from .automaton import Node
from .dates import FIRST_FROST, When
from .doing import AT_ONCE, DONE, LATER, NOT, NOW, Mood, mood_of, work_of
from .lexicon import Lexicon
from .phrases import HIDDEN, Phrase, leaves, phrase_facts, read_phrase, settle_bare, species_fact, state_meaning
from .reading import Fact, Spot, Work
from .spotting import Token

TRUNKS = ("trunk", "base")


@dataclass
class Clause:
    """What one clause gives. kind: the head of its tree. joined: the separators before it. idle: tokens that turned out
    to say nothing where they stand; they count as missed."""

    kind: str
    joined: tuple[str, ...] = ()
    acts: list[str] = field(default_factory=list)
    topic: str | None = None
    facts: list[Fact] = field(default_factory=list)
    work: list[Work] = field(default_factory=list)
    measures: dict[str, float] = field(default_factory=dict)
    series: list[tuple[str, float]] = field(default_factory=list)
    when: str | None = None
    figure: str | None = None
    tree: str | None = None
    pick: int | None = None
    term: str | None = None
    note: str | None = None
    candidates: list[Fact] = field(default_factory=list)
    refers: list[str] = field(default_factory=list)
    means: list[str] = field(default_factory=list)
    idle: list[Token] = field(default_factory=list)
    phrase: Phrase | None = None
    mood: Mood | None = None
    denied: bool = False
    asked: bool = False
    supposes: list[Work] = field(default_factory=list)
    span: tuple[int, int] = (0, 0)
    taken: bool = False

    @property
    def idle_whole(self) -> bool:
        """Nothing came of this clause, and no other one took it in."""
        gave = (self.acts, self.facts, self.work, self.measures, self.means, self.tree, self.candidates, self.when, self.taken)
        return not any(gave)


class Assembler:
    """Assembles clauses over a lexicon. on: today as ISO text, for dates that only say "now"."""

    def __init__(self, lexicon: Lexicon, on: str, first_frost: str | None) -> None:
        self.lexicon = lexicon
        self.on = on
        self.first_frost = first_frost
        self._said_before: list[Clause] = []

    def clauses(self, root: Node) -> list[Clause]:
        """One Clause a clause node, in order, each with the separators that stood before it."""
        out: list[Clause] = []
        joined: list[str] = []
        self._said_before = out
        for child in root.children:
            if child.name == "sep":
                joined += [token.value for token in child.children]
                if out and "?" in joined:
                    self._asked(out[-1])
                continue
            clause = self._clause(child, tuple(joined))
            tokens = list(leaves(child))
            clause.span = (tokens[0].first, tokens[-1].end)
            out.append(clause)
            joined = []
        return out

    def _clause(self, node: Node, joined: tuple[str, ...]) -> Clause:
        clause = Clause(node.name, joined)
        handler: Callable[[Clause, Node], None] = getattr(self, f"_{node.name}", self._talk)
        handler(clause, node)
        return clause

    def _asked(self, clause: Clause) -> None:
        """ "bend it forty degrees?": a bare verb with a question mark asks whether one may."""
        clause.asked = True
        if clause.kind == "decide" and clause.mood and clause.mood.done == NOW and clause.work:
            clause.acts, clause.topic = ["ask"], "may"
            clause.work = [replace(work, done=None) for work in clause.work]

    # ---- what is seen

    def _observe(self, clause: Clause, node: Node) -> None:
        self._see(clause, node.children[0])
        if not clause.acts and (clause.facts or clause.measures or clause.candidates):
            clause.acts = ["observe"]

    def _see(self, clause: Clause, node: Node) -> None:
        """Walk the chain of phrases, auxiliaries and links from left to right."""
        subject: Phrase | None = None
        aux: list[str] = []
        link: Token | None = None
        place = Spot()  # said before what is found there: "the wire on the left branch is biting"
        for kind, item in _chain(node):
            if kind == "aux":
                aux, link = item, None
            elif kind == "link":
                link, aux = item, []
                if item.kind == "DATE":
                    self._seen_date(clause, item)
            elif kind == "np":
                phrase = read_phrase(item)
                if link is None:
                    before = len(clause.facts)
                    self._said(clause, phrase, subject, aux)
                    if place != Spot():
                        clause.facts[before:] = [self._at(f, place, outright=f.spot.part is None) for f in clause.facts[before:]]
                    subject = phrase if subject is None or phrase.parts or phrase.findings else subject
                else:
                    before = len(clause.facts)
                    self._linked(clause, phrase, link, subject)
                    if link.kind == "AT" and phrase.says_place_only and not before:
                        place = phrase.spot(count=False)
                clause.phrase = clause.phrase or phrase
                if phrase.called:
                    clause.tree = phrase.called
                aux, link = [], None

    def _seen_date(self, clause: Clause, token: Token) -> None:
        """A date said of what is seen belongs to the event before it, if there is one."""
        self._date(clause, token, past=bool(clause.facts))
        if clause.facts and clause.facts[-1].kind == "event" and clause.facts[-1].when is None:
            clause.facts[-1] = replace(clause.facts[-1], when=clause.when)
            clause.when = None

    def _said(self, clause: Clause, phrase: Phrase, subject: Phrase | None, aux: Sequence[str]) -> None:
        part = subject.part if subject else None
        measured = self._measured(clause, phrase, subject)
        clause.denied = clause.denied or ("not" in aux and bool(measured))
        facts, idle = phrase_facts(phrase, self.lexicon, part, seen="have" in aux)
        if "not" in aux:
            facts = [replace(f, denied=True) if f.kind != "species" else f for f in facts]
        if subject is not None and not phrase.parts:
            facts = [self._at(f, subject.spot(), outright=False) for f in facts]
        if measured and facts and any(f.kind == "finding" for f in facts):
            facts = [replace(f, measures=measured) if f.kind == "finding" else f for f in facts]
        elif measured:
            self._loose(clause, measured, subject or phrase)
        clause.facts += facts
        clause.idle += idle
        clause.means += phrase.means
        clause.tree = clause.tree or phrase.name
        if phrase.other or phrase.pronoun:
            clause.refers.append(phrase.other or str(phrase.pronoun))

    def _measured(self, clause: Clause, phrase: Phrase, subject: Phrase | None = None) -> dict[str, float]:
        borrowed = subject is not None and not phrase.parts
        if borrowed and subject is not None:
            parts = subject.parts or ["branch"] * bool(subject.one or subject.side or subject.level or subject.findings)
            phrase.parts = [*parts]
        settle_bare(phrase, self.lexicon, degree_as="temperature_c")
        if borrowed:
            phrase.parts = []
        amount = self.lexicon.amount.get(phrase.part or "")
        measured = dict(phrase.measures)
        if amount and phrase.numbers:
            measured[amount] = phrase.numbers[0]
            phrase.series.append((amount, phrase.numbers[0]))
            phrase.numbers, phrase.parts = [], []
        clause.series += phrase.series
        if phrase.share is not None:
            measured["share"] = phrase.share
        return measured

    def _loose(self, clause: Clause, measured: dict[str, float], holder: Phrase) -> None:
        """A size with no finding: of one branch it is a thing to compare, of trunk or tree a measure of the tree."""
        placed = holder.side or holder.level or holder.ordinal or (holder.part and holder.part not in TRUNKS and holder.one)
        if placed:
            clause.candidates.append(Fact("candidate", holder.part or "one", holder.spot(count=False), measured))
        clause.measures.update({} if placed else measured)

    def _linked(self, clause: Clause, phrase: Phrase, link: Token, subject: Phrase | None = None) -> None:
        facts, idle = phrase_facts(phrase, self.lexicon, seen=link.kind == "WITH")
        where = phrase.spot(count=False)
        if link.kind == "BACKTO" and not facts:
            self._back_to(clause, phrase)
            return
        measured = self._measured(clause, phrase, subject)
        if link.kind == "OF" and phrase.numbers and clause.facts:
            clause.facts[-1] = replace(clause.facts[-1], spot=replace(clause.facts[-1].spot, count=int(phrase.numbers[0])))
        if link.kind in ("AT", "FROM", "OF", "BY", "OVER", "FOR") or phrase.says_place_only:
            clause.facts = [self._at(f, where, outright=True) for f in clause.facts]
        if measured:
            clause.facts = [replace(f, measures={**f.measures, **measured}) if f.kind == "finding" else f for f in clause.facts]
            if not any(f.kind == "finding" for f in clause.facts):
                clause.measures.update(measured)
        if not clause.facts and clause.phrase is None and phrase.says_place_only:
            clause.phrase = phrase
        facts = facts if link.kind != "SINCE" else [replace(f, when=clause.when) if f.kind == "event" else f for f in facts]
        clause.facts += facts
        clause.idle += idle
        clause.means += phrase.means
        clause.tree = clause.tree or phrase.name

    def _back_to(self, clause: Clause, phrase: Phrase) -> None:
        """ "left shoot back to four leaves": shortening, without a verb."""
        spot = clause.phrase.spot() if clause.phrase else Spot()
        clause.facts = [f for f in clause.facts if f.kind == "species"]
        clause.work = [Work("shorten", spot, self._amount(phrase), NOW)]
        clause.acts, clause.mood = ["decide"], Mood(NOW)

    def _at(self, fact: Fact, where: Spot, outright: bool) -> Fact:
        """The finding with a place laid over it. outright: a part said with "on the ..." replaces a part named before."""
        if fact.kind != "finding":
            return fact
        named = self.lexicon.names.get(str(fact.value), ())
        part = fact.spot.part
        if where.part and not where.part.startswith(HIDDEN) and (outright or part is None) and (outright or where.part not in named):
            part = where.part if part is None or outright else part
        return replace(fact, spot=Spot(part, fact.spot.side or where.side, fact.spot.level or where.level,
                                       fact.spot.ordinal or where.ordinal, fact.spot.count or (None if outright else where.count)))

    # ---- what is done

    def _decide(self, clause: Clause, node: Node) -> None:
        subject: Phrase | None = None
        aux: list[str] = []
        for child in node.children:
            if child.name == "auxs":
                aux = [token.value for token in child.children]
            elif child.name == "vp":
                self._do(clause, child, aux, subject)
            else:
                self._see(clause, child)
                subject, clause.phrase = clause.phrase, None
        clause.acts = clause.acts or ["decide"]

    def _do(self, clause: Clause, vp: Node, aux: Sequence[str], subject: Phrase | None = None) -> None:
        """One verb with its object and what hangs on it."""
        verb, things, posts = _verb_phrase(vp)
        mood = mood_of(aux, verb.kind, verb.value, self.lexicon, subject is not None)
        clause.mood = mood
        phrases = [(link, read_phrase(np)) for link, np in things]
        thing = next((p for link, p in phrases if link is None), None)
        if (thing is None or (mood.event and thing.says_place_only and not thing.parts)) and subject is not None:
            thing = subject
        shares = [p.share for _, p in phrases if p.share is not None]
        particles = [t.value for t in posts if t.kind == "PARTICLE"] + ["back" for t in posts if t.kind == "BACKTO"]
        parts = _telling_parts(phrases) + (list(subject.parts) if subject else [])
        if thing is not None and thing.pronoun and not thing.parts:
            parts += self._meant_by_it()
        name = work_of(self.lexicon, verb.value, particles, parts, bool(shares))
        if name is None:
            clause.idle.append(verb)
            return
        cell = self.lexicon.works.get(name, {})
        work = Work(name, self._work_spot(name, thing, phrases), done=mood.done)
        measures = self._work_measures(clause, name, phrases, posts)
        if shares:
            measures["share"] = shares[0]
        manner = [t.value for t in posts if t.kind == "MANNER"] + (["all"] if thing and thing.every else [])
        for post in posts:
            if post.kind == "DATE":
                self._date(clause, post, past=mood.done == DONE or mood.event, drop_now=mood.done not in (DONE,))
        done = self._tense(clause, name, mood)
        for link, phrase in phrases:
            self._beside(clause, phrase, link, done, name)
        for _, phrase in phrases:
            name_of = self.lexicon.amount.get(phrase.part or "", "count")
            clause.series += [(name_of, number) for number in phrase.numbers]
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

    def _meant_by_it(self) -> list[str]:
        """The part that "it" means after a finding of the clause before ("wire's biting, take it off")."""
        facts = self._said_before[-1].facts if self._said_before else []
        return [self.lexicon.pronoun[str(f.value)] for f in facts if f.value in self.lexicon.pronoun and not f.denied]

    def _tense(self, clause: Clause, name: str, mood: Mood) -> str:
        done = mood.done
        ahead = clause.when is not None and clause.when > self.on[: len(clause.when)] and "-w" not in clause.when
        if name in AT_ONCE and done in (LATER, NOW):
            return NOW
        if done == NOW and clause.when and ahead and not _within(self.on, clause.when):
            return LATER
        if done == NOW and mood.open and clause.when and clause.when < self.on[: len(clause.when)]:
            return DONE
        return done

    def _work_spot(self, name: str, thing: Phrase | None, phrases: Sequence[tuple[Token | None, Phrase]]) -> Spot:
        """Where the work is done: the thing's own place, then what "on the ...", "off the ..." add."""
        named = self.lexicon.works.get(name, {}).get("part_named", ())
        amounts = self.lexicon.amount
        spot = Spot()
        if thing is not None:
            spot = thing.spot(count=not (thing.parts and thing.part in amounts and False))
            if spot.part in named:
                spot = replace(spot, part=None)
            spot = self._finding_part(spot, thing, named)
        for link, phrase in phrases:
            if link is None or phrase is thing or link.kind in ("TO", "BACKTO", "BY", "WITH", "SINCE", "DATE", "FOR", "OVER"):
                continue
            part = phrase.shown_part if phrase.shown_part not in named else None
            if link.kind == "OF" and thing is not None and thing.part is None:
                spot = replace(spot, part=spot.part or part)
            spot = Spot(spot.part or (part if link.kind != "OF" else None), spot.side or phrase.side, spot.level or phrase.level,
                        spot.ordinal or phrase.ordinal, spot.count)
        return spot

    def _finding_part(self, spot: Spot, thing: Phrase, named: Sequence[str]) -> Spot:
        """ "the dead one": the branch that the finding names is the part that is worked on."""
        if spot.part is not None or thing.parts:
            return spot
        for token in thing.states:
            meaning = state_meaning(self.lexicon, token.value, "branch") or ""
            if meaning.startswith("finding:") and thing.one:
                return replace(spot, part=None)
        for token in thing.findings:
            parts = self.lexicon.names.get(token.value, ())
            if parts and parts[0] not in named:
                return replace(spot, part=parts[0])
        return spot

    def _amount(self, phrase: Phrase) -> dict[str, float]:
        settle_bare(phrase, self.lexicon, "length_mm")
        if phrase.ordinal and not phrase.numbers and phrase.part in self.lexicon.amount:
            phrase.numbers, phrase.ordinal = [phrase.ordinal], None  # "back to the first pair"
        if phrase.numbers:
            return {self.lexicon.amount.get(phrase.part or "", "leaves"): phrase.numbers[0], **phrase.measures}
        return dict(phrase.measures)

    def _work_measures(self, clause: Clause, name: str, phrases: Sequence[tuple[Token | None, Phrase]], posts: Sequence[Token]) -> dict[str, float]:
        measures: dict[str, float] = {}
        bends = name in ("bend", "guy", "wire")
        for link, phrase in phrases:
            kind = link.kind if link else None
            if kind in ("TO", "BACKTO") and (phrase.numbers or phrase.ordinal) and (phrase.part in self.lexicon.amount or kind == "BACKTO" or not phrase.parts):
                measures.update(self._amount(phrase))
                phrase.parts = []
            else:
                as_length = "length_mm" if kind in ("OVER", "TO", "BACKTO") else None
                settle_bare(phrase, self.lexicon, as_length, "angle_deg" if bends else "temperature_c")
                measures.update(phrase.measures)
            clause.series += phrase.series
        return measures

    def _beside(self, clause: Clause, phrase: Phrase, link: Token | None, done: str, work: str) -> None:
        """What the phrases of a verb say beside the work: species, findings, means, references."""
        facts, idle = phrase_facts(phrase, self.lexicon)
        for fact in facts:
            if fact.kind == "finding":
                gone = done == DONE and phrase.parts and self.lexicon.names.get(str(fact.value))
                counted = fact.value in self.lexicon.counted.values() and not phrase.findings and not phrase.states
                if gone or counted:
                    continue
                fact = replace(fact, spot=replace(fact.spot, count=None)) if False else fact
            if fact.kind == "event" and link is None:
                continue
            clause.facts.append(fact)
        clause.idle += [token for token in idle if link is None or link.kind != "FOR"]
        clause.means += phrase.means
        clause.tree = clause.tree or phrase.name
        if phrase.pronoun and link is None:
            clause.refers.append(phrase.pronoun)
        if phrase.other or (phrase.one and not phrase.side and not phrase.level and not phrase.ordinal):
            clause.refers.append(phrase.other or "one")

    def _date(self, clause: Clause, token: Token, past: bool, drop_now: bool = False) -> None:
        when: When = token.value
        text = when.past if past else when.future
        if text == FIRST_FROST:
            text = self.first_frost
        if text is None or (drop_now and len(text) in (4, 7) and self.on.startswith(text)):
            return
        if drop_now and "-" in text and not text[5:6].isdigit() and text.startswith(self.on[:4]) and when.past == when.future and _running(self.on, text):
            return
        clause.when = text

    # ---- questions

    def _question(self, clause: Clause, topic: str, node: Node, past: bool = False) -> None:
        clause.acts, clause.topic = ["ask"], topic
        aux: list[str] = []
        subject: Phrase | None = None
        for child in node.children:
            if not isinstance(child, Node):
                continue
            if child.name == "auxs":
                aux = [token.value for token in child.children if token.value != "not"]
            elif child.name == "vp":
                self._do(clause, child, [*aux, "i"], subject)
                if past:
                    self._past_dates(clause, child)
            elif child.name == "np":
                subject = read_phrase(child)
                self._subject(clause, subject)
            elif child.name in ("observe", "decide"):
                getattr(self, f"_{child.name}")(clause, child)
            elif child.name == "tail":
                self._tail(clause, child, past)
        clause.acts = ["ask"]
        clause.work = [replace(work, done=None) for work in clause.work]

    def _past_dates(self, clause: Clause, vp: Node) -> None:
        for token in leaves(vp):
            if token.kind == "DATE":
                self._date(clause, token, past=True)

    def _subject(self, clause: Clause, phrase: Phrase) -> None:
        facts, idle = phrase_facts(phrase, self.lexicon)
        clause.idle += idle
        clause.means += phrase.means
        clause.tree = clause.tree or phrase.name
        for fact in facts:
            if fact.kind == "event":
                clause.work.append(Work(str(fact.value)))
            else:
                clause.facts.append(fact)
        if not facts:
            clause.phrase = phrase

    def _tail(self, clause: Clause, node: Node, past: bool) -> None:
        link: Token | None = None
        before = clause.phrase
        for kind, item in _chain(node):
            if kind == "link":
                link = item
                if item.kind == "DATE":
                    self._date(clause, item, past)
                elif item.kind in ("V", "VED", "VING"):
                    work = work_of(self.lexicon, item.value, [], [], False)
                    if work and clause.topic in ("recall", "list"):
                        clause.work.append(Work(work))
            elif kind == "np":
                phrase = read_phrase(item)
                if link is not None and link.kind in ("AT", "OF") and clause.facts and clause.topic != "figure":
                    self._linked(clause, phrase, link)
                else:
                    self._tail_phrase(clause, phrase, link)
                link = None
        clause.phrase = before

    def _tail_phrase(self, clause: Clause, phrase: Phrase, link: Token | None) -> None:
        if clause.topic == "figure":
            cell = self.lexicon.figures.get(clause.figure or "", {})
            length = "diameter_mm" if phrase.part in TRUNKS else cell.get("bare")
            if link is not None and link.kind == "OVER":
                length = "length_mm"
            settle_bare(phrase, self.lexicon, length, cell.get("degree", "angle_deg"))
            for name, value in phrase.measures.items():
                clause.measures.setdefault(name, value)
            if phrase.numbers:
                name = self.lexicon.amount.get(phrase.part or "", "count")
                phrase.series.append((name, phrase.numbers[0]))
                if name != "count":
                    clause.measures.setdefault(name, phrase.numbers[0])
            if phrase.share is not None:
                clause.measures.setdefault("share", phrase.share)
            clause.series += phrase.series
            clause.facts += [species_fact(token) for token in phrase.species]
            clause.means += phrase.means
            clause.tree = clause.tree or phrase.name
            return
        settle_bare(phrase, self.lexicon)
        clause.series += [("count", n) for n in phrase.numbers] + phrase.series
        self._subject(clause, phrase)

    def _may(self, clause: Clause, node: Node) -> None:
        self._question(clause, "may", node)

    def _when(self, clause: Clause, node: Node) -> None:
        self._question(clause, "when", node)

    def _why(self, clause: Clause, node: Node) -> None:
        self._question(clause, "why", node)

    def _what_if(self, clause: Clause, node: Node) -> None:
        self._question(clause, "what-if", node)

    def _compare(self, clause: Clause, node: Node) -> None:
        self._question(clause, "compare", node)

    def _recall(self, clause: Clause, node: Node) -> None:
        self._question(clause, "recall", node, past=True)

    def _advice(self, clause: Clause, node: Node) -> None:
        self._question(clause, "advice", node)

    def _due(self, clause: Clause, node: Node) -> None:
        self._question(clause, "due", node)
        clause.when = None

    def _plan(self, clause: Clause, node: Node) -> None:
        self._question(clause, "plan", node)
        clause.when, clause.measures = None, {}

    def _list(self, clause: Clause, node: Node) -> None:
        self._question(clause, "list", node, past=True)

    def _figure(self, clause: Clause, node: Node) -> None:
        clause.figure = node.children[0].value
        self._question(clause, "figure", node)

    def _meaning(self, clause: Clause, node: Node) -> None:
        clause.acts, clause.topic, clause.term = ["ask"], "meaning", node.children[1].value

    # ---- the talk itself

    def _talk(self, clause: Clause, node: Node) -> None:
        """pick, strike, note, turn, new, farewell."""
        clause.acts = [{"farewell": "leave"}.get(node.name, node.name)]
        for child in node.children:
            if isinstance(child, Node):
                if child.name == "np":
                    phrase = read_phrase(child)
                    facts, idle = phrase_facts(phrase, self.lexicon)
                    clause.facts += facts
                    clause.idle += idle
                    clause.tree = phrase.called or phrase.name
            elif child.kind in ("ORD", "NUM"):
                clause.pick = int(child.value)
            elif child.kind == "WORDS":
                clause.note = child.value
            elif child.kind == "NAME":
                clause.tree = child.value

    def _again(self, clause: Clause, node: Node) -> None:
        """ "same again on the right": what is meant stands in the talk."""
        clause.acts = ["decide"]
        clause.refers.append("same")
        phrase = next((read_phrase(c) for c in node.children if isinstance(c, Node)), None)
        clause.facts += [species_fact(token) for token in phrase.species] if phrase else []
        clause.work = [Work(None, phrase.spot(count=False) if phrase else Spot(), done=NOW)]

    def _correct(self, clause: Clause, node: Node) -> None:
        for child in node.children:
            if isinstance(child, Node):
                getattr(self, f"_{child.name}")(clause, child)
        clause.acts = ["correct"]
        if clause.work:
            return
        phrase = clause.phrase
        spot = phrase.spot(count=False) if phrase else Spot()
        measures = {**clause.measures}
        for candidate in clause.candidates:
            measures.update(candidate.measures)
        if phrase and phrase.numbers and not measures:
            measures = self._amount(phrase)
        clause.measures, clause.candidates = {}, []
        findings = [fact for fact in clause.facts if fact.kind == "finding"]
        if (spot != Spot() and not findings) or measures:
            if phrase and phrase.part in self.lexicon.amount:
                spot = replace(spot, part=None)
            clause.work = [Work(None, spot, measures)]

    def _remind(self, clause: Clause, node: Node) -> None:
        for child in node.children:
            if isinstance(child, Node) and child.name == "vp":
                self._do(clause, child, ["will", "i"])
            elif isinstance(child, Node):
                self._observe(clause, child)
                for token in leaves(child):
                    if token.kind == "DATE":
                        self._date(clause, token, past=False)
                if clause.phrase and clause.phrase.part and not clause.work:
                    clause.work = [Work("check", Spot(clause.phrase.shown_part, clause.phrase.side, clause.phrase.level))]
        clause.acts = ["remind"]
        clause.work = [replace(work, done=None) for work in clause.work]


def _telling_parts(phrases: Sequence[tuple[Token | None, Phrase]]) -> list[str]:
    """The parts that help to tell the work: those of the object, of "a third of the roots", and helpers ("the ~shade")."""
    outright = [p for link, phrase in phrases if link is None or link.kind == "OF" for p in reversed(phrase.parts)]
    return outright + [p for link, phrase in phrases if link is not None for p in phrase.parts if p.startswith(HIDDEN)]


def _within(on: str, when: str) -> bool:
    return on.startswith(when)


def _running(on: str, season: str) -> bool:
    return False


def _verb_phrase(vp: Node) -> tuple[Token, list[tuple[Token | None, Node]], list[Token]]:
    """(verb, noun phrases each with the link before it, all links and particles)."""
    verb: Token | None = None
    things: list[tuple[Token | None, Node]] = []
    posts: list[Token] = []
    link: Token | None = None
    for kind, item in _chain(vp):
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


def _chain(node: Any) -> list[tuple[str, Any]]:
    """A left-branching chain as a flat list: ("np", node), ("aux", [values]), ("link", token)."""
    out: list[tuple[str, Any]] = []
    if isinstance(node, Token):
        return [("link", node)]
    if node.name == "np":
        return [("np", node)]
    if node.name == "auxs":
        return [("aux", [token.value for token in node.children])]
    for child in node.children:
        out += _chain(child)
    return out
