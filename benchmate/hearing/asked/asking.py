"""Questions: what is asked, and of what."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..amounts.dates import When
from ..clauses import TRUNKS, Clause, Setting, chain, take_date, undone_since
from ..done.doing import DONE, NOT, work_of
from ..done.worked_on import what_is_given
from ..done.working import decide, do
from ..lattice.automaton import Node
from ..lattice.spotting import Token
from ..reading import Fact, Work
from ..seen.phrases import Phrase, leaves, read_phrase, settle_bare
from ..seen.saying import phrase_facts, species_fact
from ..seen.seeing import linked, observe

# Topics that ask about work: a noun that is also a verb ("wire") stands for the work there.
_OF_WORK = frozenset({"compare", "may", "when", "why"})
# What a choice between two comes to; the question itself says it.
_CHOOSING = frozenset({"select-leader", "remove", "leave"})

_CHOSEN_FROM = 4  # words of a question that names what is done with the one that is chosen


def question(setting: Setting, clause: Clause, topic: str, node: Node, past: bool = False) -> None:
    clause.acts, clause.topic = ["ask"], topic
    if topic == "figure":
        heads = [token for token in node.children if isinstance(token, Token)]
        clause.figure = next(token.value for token in heads if token.kind in ("QFIGURE", "HOWMUCH"))
        for token in heads:
            if token.kind == "NPK":
                clause.measures.update(token.value.measures)
                clause.series += token.value.measures.items()
            elif token.kind == "SHARE":
                clause.measures["share"] = token.value
    head = next((token for token in node.children if isinstance(token, Token)), None)
    aux: list[str] = []
    subject: Phrase | None = None
    places: list[tuple[Token, Phrase]] = []
    for child in node.children:
        if not isinstance(child, Node):
            if child.kind == "DATE":  # "would 6 March be too soon to repot?"
                take_date(setting, clause, child, past=False)
            continue
        if child.name == "auxs":
            aux = [token.value for token in child.children if token.value != "not"]
        elif child.name == "vp":
            named = len(clause.work)
            do(setting, clause, child, [*aux, "i", "ask"], subject, places)
            told = {work.work for work in clause.work[named:]}  # "how much feed can I give it" names it twice
            clause.work = [work for n, work in enumerate(clause.work) if n >= named or work.work not in told]
            if past:
                _past_dates(setting, clause, child)
        elif child.name == "chosen":
            do(setting, clause, child.children[1], ["i", "ask"], subject)
            clause.work = [work for work in clause.work if work.work not in _CHOOSING]
        elif child.name == "there":
            subject, places = _thing_there(setting, clause, child)
            if not any(c.name == "vp" for c in node.children if isinstance(c, Node)):
                _asked_there(setting, clause, subject, places)
        elif child.name == "np" and subject is not None and aux:
            _wanted(setting, clause, read_phrase(child), subject)
        elif child.name == "np":
            subject = read_phrase(child)
            _subject(
                setting, clause, subject, alone=not any(c.name == "vp" for c in node.children if isinstance(c, Node))
            )
        elif child.name in ("observe", "decide"):
            (observe if child.name == "observe" else decide)(setting, clause, child)
            past_form = (
                head is not None and head.value == "past" and clause.mood is not None and clause.mood.done == DONE
            )
            if topic == "what-if" and clause.work and not past_form:
                _ahead(setting, clause, child)  # "suppose I left it till autumn"
        elif child.name == "tail":
            _tail(setting, clause, child, past)
    clause.acts = ["ask"]
    said_for = any(token.kind == "FOR" for token in leaves(node))  # "which is better for the larch, this or that"
    whose = topic == "compare" and subject is not None and subject.species and not subject.parts
    chooses = head is not None and head.end - head.first >= _CHOSEN_FROM  # "which one should I keep on the maple"
    if whose and not clause.work and not said_for and not chooses:
        clause.topic = "list"  # "which of the junipers are weak?"
    seen = any(fact.kind in ("finding", "health") for fact in clause.facts)
    if head is not None and head.value == "so" and subject is not None and not clause.work:
        events = [setting.lexicon.states.get(token.value, {}).get("event") for token in subject.states]
        clause.work = [Work(event) for event in events if event]  # "could it be wired"
        if clause.work:
            clause.facts = [fact for fact in clause.facts if fact.kind == "species"]
        elif seen and not clause.measures:
            clause.topic = "recall"  # "could it be mites": nothing of it is told
    if head is not None and head.kind == "QWHATIF":
        if head.value == "past":
            _had_happened(clause)
        _would_be(clause, any(token.kind == "AUX" and token.value == "have" for token in leaves(node)), setting.on)
    if topic == "due":
        dates = [token.value for token in leaves(node) if token.kind == "DATE"]
        clause.ahead = next((when.last or when.future for when in dates), None)
    if topic in ("due", "plan"):
        clause.when, clause.measures = None, {}
    denied = head is not None and head.kind == "QLIST" and head.value == "not"  # "which have not been fed"
    clause.work = [replace(work, done=None, denied=denied or work.done == NOT) for work in clause.work]
    if denied:
        undone_since(setting, clause)
        clause.facts = [replace(f, denied=True) if f.kind != "species" else f for f in clause.facts]
    if topic == "list" and clause.when:
        _done_then(setting, clause)


def asked_indirectly(setting: Setting, clause: Clause, node: Node) -> None:
    """ "I wonder whether I should feed it", "tell me when I may wire it": what would be told is asked."""
    joined = set(clause.joined)
    if clause.topic == "may" and "when" in joined:  # "when, in your view, should I thin it"
        clause.topic = "when"
    if clause.topic or not ("whether" in joined or ("asking" in joined and {"if", "when"} & joined)):
        return
    if clause.kind in ("decide", "gone") and clause.work:
        clause.acts, clause.topic = ["ask"], "when" if "when" in joined else "may"
        clause.work = [replace(work, done=None, denied=work.denied or work.done == NOT) for work in clause.work]
        return
    events = [fact for fact in clause.facts if fact.kind == "event"]
    if events:  # "tell me when the pine was fed", "say if it may be repotted"
        clause.acts, clause.topic = ["ask"], "recall" if "when" in joined else "may"
        clause.work = [Work(str(fact.value), span=fact.span) for fact in events]
        clause.facts = [fact for fact in clause.facts if fact not in events]
        (_past_dates if clause.topic == "recall" else _ahead)(setting, clause, node)
        return
    clause.acts = []  # "I wonder whether it is weak": nobody has seen that it is
    clause.facts = [fact for fact in clause.facts if fact.kind == "species"]


def told_of(clause: Clause) -> None:
    """ "I cut it back, which left a wound": what a thing does is no work of the grower's."""
    if "which" not in clause.joined or clause.kind != "decide" or clause.mood is None or clause.mood.event:
        return
    if clause.topic is None and not clause.by_grower:
        clause.acts, clause.work = ["observe"] if clause.facts else [], []


def _done_then(setting: Setting, clause: Clause) -> None:
    """ "which trees were wired last autumn": with a time, a state asks for the work."""
    works = {cell["alone"]: cell["event"] for cell in setting.lexicon.states.values() if "event" in cell}
    asked = [(fact, works.get(f"{fact.kind}:{fact.value}")) for fact in clause.facts]
    clause.work += [Work(work, fact.spot, denied=fact.denied) for fact, work in asked if work]
    clause.facts = [fact for fact, work in asked if not work]


def _had_happened(clause: Clause) -> None:
    """ "if I'd repotted in April": supposed of the past, so an event and not work that is weighed."""
    if not any(work.done in (DONE, NOT) for work in clause.work):  # "what if I'd wire it", "what if we had frost"
        return
    clause.facts += [
        Fact("event", work.work or "", work.spot, {}, clause.when, work.denied or work.done == NOT, work.span)
        for work in clause.work
    ]
    clause.work, clause.when = [], None


def _would_be(clause: Clause, had: bool, on: str) -> None:
    """ "what if a third of the roots were taken off": what is supposed in the passive is work to be weighed, but "had
    been" and a past day tell of an event."""
    for work, event in clause.passive:
        if event in clause.facts and not had and (event.when is None or event.when >= on[: len(event.when)]):
            clause.facts.remove(event)
            clause.work.append(work)
            clause.when = clause.when or event.when
    clause.passive = []


def _ahead(setting: Setting, clause: Clause, node: Node) -> None:
    for token in leaves(node):
        if token.kind == "DATE":
            take_date(setting, clause, token, past=False)


def _past_dates(setting: Setting, clause: Clause, vp: Node) -> None:
    for token in leaves(vp):
        if token.kind == "DATE":
            take_date(setting, clause, token, past=True)


def _wanted(setting: Setting, clause: Clause, phrase: Phrase, subject: Phrase) -> None:
    """ "is the beech overdue for a repot", "should the back branch be wired": the work is a noun or a state here."""
    events = [str(token.value) for token in phrase.events]
    events += [setting.lexicon.states.get(token.value, {}).get("event", "") for token in phrase.states]
    named = setting.lexicon.patterns.get(f"{phrase.part}|||")
    for work in [*events, named or ""]:
        if work:
            spot = subject.spot()
            known = setting.lexicon.works.get(work, {}).get("part_named", ())
            clause.work.append(Work(work, replace(spot, part=None) if spot.part in known else spot))
    if not clause.work and (given := what_is_given(setting, phrase)):
        clause.work.append(replace(given, spot=replace(subject.spot(), part=subject.shown_part)))
    if not clause.work:
        _subject(setting, clause, phrase)


def _subject(setting: Setting, clause: Clause, phrase: Phrase, alone: bool = True) -> None:
    """What is asked about. alone: no verb follows it, so that "wire" may be the work."""
    if clause.topic == "recall":  # "when was it last wired"
        done = [(token, setting.lexicon.states.get(token.value, {}).get("event")) for token in phrase.states]
        clause.work += [Work(work) for _, work in done if work]
        phrase.states = [token for token, work in done if not work]
    facts, idle = phrase_facts(phrase, setting.lexicon, seen=clause.topic == "list")
    clause.idle += idle
    clause.means += phrase.means
    clause.tree = clause.tree or phrase.name
    if alone and clause.topic in _OF_WORK and (named := setting.lexicon.patterns.get(f"{phrase.part}|||")):
        clause.work.append(Work(named))  # "better to wire or guy it": the noun of the same word
    if alone and clause.topic in _OF_WORK and (given := what_is_given(setting, phrase)):
        clause.work.append(given)
    for fact in facts:
        if fact.kind == "event":
            clause.work.append(Work(str(fact.value)))
        else:
            clause.facts.append(fact)
    if not facts:
        clause.phrase = phrase


def _thing_there(setting: Setting, clause: Clause, node: Node) -> tuple[Phrase, list[tuple[Token, Phrase]]]:
    """ "the branch on the left": the thing, and what is said of its place, each with its link."""
    steps = chain(node)
    thing = read_phrase(steps[0][1])
    places: list[tuple[Token, Phrase]] = []
    link: Token | None = None
    for kind, item in steps[1:]:
        if kind == "link":
            link = item
        elif link is not None:
            places.append((link, read_phrase(item)))
    _subject(setting, clause, thing, alone=False)
    return thing, places


def _asked_there(setting: Setting, clause: Clause, thing: Phrase, places: Sequence[tuple[Token, Phrase]]) -> None:
    """ "can the wire on the left branch?" has no verb: the places are those of what is named."""
    for link, phrase in places:
        linked(setting, clause, phrase, link, thing)


def _tail(setting: Setting, clause: Clause, node: Node, past: bool) -> None:
    link: Token | None = None
    before = clause.phrase
    last: Phrase | None = None
    for kind, item in chain(node):
        if kind == "link":
            link = item
            if item.kind == "DATE" and not (clause.topic == "figure" and _goes_without(setting, item.value)):
                take_date(setting, clause, item, past)
            elif item.kind in ("V", "VED", "VING"):
                work = work_of(setting.lexicon, item.value, [], [], False)
                if work and clause.topic in ("recall", "list"):
                    clause.work.append(Work(work))
        elif kind == "np":
            phrase = read_phrase(item)
            if link is not None and link.kind in ("AT", "OF") and clause.facts and clause.topic != "figure":
                linked(setting, clause, phrase, link)
            else:
                of_trunk = link is not None and link.kind == "OF" and last is not None and last.part in TRUNKS
                _tail_phrase(setting, clause, phrase, link, of_trunk)  # "a trunk of 8 cm"
            link, last = None, phrase
    clause.phrase = before


def _goes_without(setting: Setting, when: When) -> bool:
    """ "how thick will it be in five years", "day length today": no day that the sum is made for, or today's."""
    return when.counted or when.future == setting.on or (when.future or "") == setting.on[:4]


def _tail_phrase(setting: Setting, clause: Clause, phrase: Phrase, link: Token | None, of_trunk: bool = False) -> None:
    if clause.topic == "figure":
        cell = setting.lexicon.figures.get(clause.figure or "", {})
        length = "diameter_mm" if phrase.part in TRUNKS or of_trunk else cell.get("bare")
        if link is not None and link.kind == "OVER":
            length = "length_mm"
        settle_bare(phrase, setting.lexicon, length, cell.get("degree", "angle_deg"))
        for name, value in phrase.measures.items():
            clause.measures.setdefault(name, value)
        if phrase.numbers:
            name = setting.lexicon.amount.get(phrase.part or "", "count")
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
    settle_bare(phrase, setting.lexicon)
    clause.series += [("count", n) for n in phrase.numbers] + phrase.series
    _subject(setting, clause, phrase)
