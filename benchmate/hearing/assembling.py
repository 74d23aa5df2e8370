"""From the parse tree to clauses: each clause by the kind of its node."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from benchmate.value import replace

from .asked.asked_tail import TAIL, ask_by_tail
from .asked.asking import asked_indirectly, question, told_of
from .asked.which_kind import which_kind
from .clauses import Clause, Setting, day_alone, take_date
from .done.doing import DONE, LATER, NOW
from .done.working import decide, do, gone, happened
from .lattice.automaton import Node
from .lattice.spotting import Token
from .reading import Spot, Work
from .seen.phrases import HIDDEN, leaves, read_phrase
from .seen.saying import phrase_facts, species_fact
from .seen.seeing import observe
from .seen.sizes import amount
from .settled.not_told import of_others

# Grammar alias -> topic of the contract, and whether its dates lie in the past.
_TOPICS = {
    "may": ("may", False),
    "when": ("when", False),
    "why": ("why", False),
    "what_if": ("what-if", False),
    "compare": ("compare", False),
    "recall": ("recall", True),
    "advice": ("advice", False),
    "due": ("due", False),
    "plan": ("plan", False),
    "list": ("list", True),
    "figure": ("figure", False),
}


def assemble(root: Node, setting: Setting) -> list[Clause]:
    """One Clause a clause node, in order, each with the separators that stood before it."""
    joined: list[str] = []
    because_at: int | None = None
    last = -1  # where a "when" behind the last clause ends
    for child in root.children:
        if child.name == "sep":
            because_at = next((token.first for token in child.children if token.value == "because"), because_at)
            joined += [token.value for token in child.children]
            last = next((token.end for token in child.children if token.value in ("when", "was")), last)
            if setting.before and TAIL in joined:
                ask_by_tail(setting.before[-1], setting.on)
            elif setting.before and {"?", "asked"} & set(joined):
                if {"when", "was"} & set(joined):
                    _asked_when(setting.before[-1], "was" in joined)
                else:
                    first = not any(other.topic for other in setting.before[:-1])
                    _asked(setting.before[-1], outright="asked" in joined, first=first)
                    if len(setting.before) > 1 and {"before", "when"} & set(setting.before[-1].joined):
                        _asked(setting.before[-2])  # "cut it back before it flowers?"
            continue
        clause = Clause(child.name, tuple(joined))
        _fill(setting, clause, child)
        tokens = list(leaves(child))
        clause.span = (tokens[0].first, tokens[-1].end)
        clause.because_at = because_at if because_at is not None else clause.because_at
        of_others(clause, tokens, setting.before)
        told_of(clause)
        asked_indirectly(setting, clause, child)
        _seen_by_now(setting, clause, child)
        day_alone(setting, clause)
        which_kind(setting, clause)
        setting.before.append(clause)
        joined, because_at, last = [], None, -1
    if last >= setting.size - joined.count("?") and setting.before:
        _asked_when(setting.before[-1], "was" in joined)
    return setting.before


def _seen_by_now(setting: Setting, clause: Clause, node: Node) -> None:
    """ "on Monday it was bone dry": what is seen of a tree was so, whatever the day may mean ahead."""
    seen = any(fact.kind in ("health", "stage", "finding", "flush") for fact in clause.facts)
    ahead = clause.when is not None and clause.when > setting.on[: len(clause.when)]
    if clause.kind != "observe" or not seen or not ahead or any(fact.kind == "weather" for fact in clause.facts):
        return
    days = [token.value for token in leaves(node) if token.kind == "DATE" and token.value.future == clause.when]
    clause.when = next((day.past for day in days if day.past), clause.when)


def _asked_when(clause: Clause, past: bool) -> None:
    """ "last fed when?", "defoliation on the elm, when?": the question comes last and is about what stands before."""
    events = [fact for fact in clause.facts if fact.kind == "event" and fact.when is None]
    works = clause.work or [Work(str(fact.value), span=fact.span) for fact in events]
    if not works or clause.topic == "recall":
        return
    clause.acts, clause.topic = ["ask"], "recall" if past or _told_done(clause, works) else "when"
    clause.work = [replace(work, done=None) for work in works]
    clause.facts = [fact for fact in clause.facts if fact not in events]


def _told_done(clause: Clause, works: Sequence[Work]) -> bool:
    return any(work.done == DONE for work in works) and not clause.verbless  # "wire off when?" is still to come


def _fill(setting: Setting, clause: Clause, node: Node) -> None:
    if node.name in _TOPICS:
        topic, past = _TOPICS[node.name]
        question(setting, clause, topic, node, past)
    else:
        _KINDS.get(node.name, _talk)(setting, clause, node)
    happened(setting, clause)
    if clause.kind == "observe" and not clause.acts and set(clause.means) & setting.lexicon.circumstances:
        clause.acts = ["observe"]  # "it sprang back": no finding and no work


def _asked(clause: Clause, outright: bool = False, first: bool = False) -> None:
    """ "bend it forty degrees?": a bare verb with a question mark asks whether one may. outright: "... is that ok?".
    first: nothing was asked before it."""
    clause.asked = True
    if "if" in clause.joined and clause.topic is None and (clause.facts or clause.work):  # "and if it were weak?"
        clause.acts, clause.topic = ["ask"], "what-if"
        clause.work = [replace(work, done=None) for work in clause.work]
        return
    events = [f for f in clause.facts if f.kind == "event" and f.when is None and (outright or not f.denied)]
    if events and (outright or clause.kind == "observe"):  # "full defoliation?"
        clause.work = [Work(str(fact.value), span=fact.span) for fact in events]
        clause.facts = [fact for fact in clause.facts if fact not in events]
        clause.acts, clause.topic = ["ask"], "may"
        return
    nobody = clause.mood is not None and not clause.mood.someone and clause.mood.done in (NOW, LATER)
    if (
        clause.kind == "decide" and clause.mood and (nobody or outright or clause.verbless) and clause.work
    ):  # "need to seal it?"
        clause.acts, clause.topic = ["ask"], "may"
        clause.work = [replace(work, done=None) for work in clause.work]
        return
    if outright and clause.kind == "observe" and any(fact.denied for fact in clause.facts):  # "it isn't dead, is it?"
        clause.acts, clause.topic = ["ask"], "recall"
        clause.facts = [replace(fact, denied=False) for fact in clause.facts]
        return
    past = clause.mood is not None and clause.mood.done == DONE and not (clause.mood.event or clause.verbless)
    if past and first and clause.kind == "decide" and clause.work and not clause.by_grower and not clause.facts:
        clause.acts, clause.topic = ["ask"], "recall"  # "repotted it last spring?"
        clause.work = [replace(work, done=None) for work in clause.work]


def _meaning(setting: Setting, clause: Clause, node: Node) -> None:
    clause.acts, clause.topic, clause.term = ["ask"], "meaning", node.children[1].value


def _talk(setting: Setting, clause: Clause, node: Node) -> None:
    """pick, strike, note, turn, new, farewell."""
    clause.acts = [{"farewell": "leave"}.get(node.name, node.name)]
    for child in node.children:
        if isinstance(child, Node):
            if child.name == "np":
                phrase = read_phrase(child)
                facts, idle = phrase_facts(phrase, setting.lexicon)
                clause.facts += facts
                clause.idle += idle
                clause.tree = phrase.called or phrase.name
        elif child.kind == "TURNTO" and child.value == "passing":
            clause.passing = True
        elif child.kind in ("ORD", "NUM"):
            clause.pick = int(child.value)
        elif child.kind == "WORDS":
            clause.note = child.value
        elif child.kind == "NAME":
            clause.tree = child.value
        elif child.kind == "SPECIES":
            clause.facts.append(species_fact(child))


def _again(setting: Setting, clause: Clause, node: Node) -> None:
    """ "same again on the right": what is meant stands in the talk."""
    clause.acts = ["decide"]
    clause.refers.append("same")
    phrase = next((read_phrase(c) for c in node.children if isinstance(c, Node)), None)
    clause.facts += [species_fact(token) for token in phrase.species] if phrase else []
    clause.work = [Work(None, phrase.spot(count=False) if phrase else Spot(), done=NOW)]


def _correct(setting: Setting, clause: Clause, node: Node) -> None:
    """ "no, the right one": a place or a number laid over what was said last."""
    refused = any(isinstance(child, Token) and child.kind == "REFUSED" for child in node.children)
    for child in node.children:
        if isinstance(child, Token) or child.name == "refused":
            continue
        setting.before.append(Clause("correct"))  # a bare size is that of what was spoken of, not of the tree
        _KINDS["observe" if child.name == "np" else child.name](setting, clause, child)
        setting.before.pop()
        refused = refused and child.name == "observe"
    clause.acts = ["correct"]
    before = setting.before[-1] if setting.before else None
    was = any(isinstance(child, Token) and child.value == "was" for child in node.children)
    if was or (before is not None and any(work.done == DONE for work in before.work)):  # "fed it today, no, on Monday"
        for token in leaves(node):
            if token.kind == "DATE":
                take_date(setting, clause, token, past=True)
    _drop_denied(clause, node)
    if refused and any(fact.kind != "species" for fact in clause.facts):  # "no, not weak"
        clause.facts = [replace(fact, denied=True) for fact in clause.facts]
    elif refused:  # "no, not the front one": what is meant instead follows
        clause.refused, clause.work, clause.measures, clause.facts, clause.candidates = True, [], {}, [], []
    if clause.work or refused:
        return
    phrase = clause.phrase
    spot = phrase.spot(count=False) if phrase else Spot()
    measures = {**clause.measures, **{k: v for c in clause.candidates for k, v in c.measures.items()}}
    if phrase and phrase.numbers and not measures:
        measures = amount(setting, phrase)
    clause.measures, clause.candidates = {}, []
    findings = [fact for fact in clause.facts if fact.kind == "finding"]
    if (spot != Spot() and not findings) or measures:
        if phrase and phrase.part in setting.lexicon.amount:
            spot = replace(spot, part=None)
        clause.work = [Work(None, spot, measures)]


def _drop_denied(clause: Clause, node: Node) -> None:
    """ "it was the hornbeam, not the beech": the kind that is denied is not the one meant."""
    tokens = list(leaves(node))
    denial = next((token.first for token in tokens if token.kind == "AUX" and token.value == "not"), None)
    denied = {
        token.value for token in tokens if token.kind == "SPECIES" and denial is not None and token.first > denial
    }
    if any(fact.kind == "species" and fact.value not in denied for fact in clause.facts):
        clause.facts = [fact for fact in clause.facts if fact.kind != "species" or fact.value not in denied]


def _remind(setting: Setting, clause: Clause, node: Node) -> None:
    """ "remind me to check the wire in three weeks"; without a verb, a part that is named is checked."""
    span: float | None = None
    for child in node.children:
        if isinstance(child, Token) and child.kind == "DATE":
            take_date(setting, clause, child, past=False)
        elif isinstance(child, Token) and child.kind == "MEASURE":
            span = child.value.measures.get("days")  # "remind me 2 weeks check the guy"
        elif isinstance(child, Node) and child.name == "vp":
            do(setting, clause, child, ["will", "i"])
        elif isinstance(child, Node):
            observe(setting, clause, child)
            for token in leaves(child):
                if token.kind == "DATE":
                    take_date(setting, clause, token, past=False)
            events = [fact for fact in clause.facts if fact.kind == "event" and fact.when is None]
            if events and not clause.work:  # "a nudge about the feed"
                clause.work = [Work(str(fact.value)) for fact in events]
                clause.facts = [fact for fact in clause.facts if fact not in events]
            if clause.work and "days" in clause.measures:
                clause.work[-1] = replace(clause.work[-1], measures={"days": clause.measures.pop("days")})
            phrase = clause.phrase
            named = _meant_to(setting, child)
            if named and not clause.work:  # "remind me tomorrow to water": what is also a noun
                clause.work = [Work(named)]
            elif phrase and phrase.part and not clause.work:
                clause.work = [Work("check", Spot(phrase.shown_part, phrase.side, phrase.level))]
    clause.acts, clause.topic = ["remind"], None  # "remind me the oak wants spraying" asks nothing
    if span and clause.work:
        clause.work[-1] = replace(clause.work[-1], measures={"days": span})
    clause.work = [replace(work, done=None) for work in clause.work]


def _meant_to(setting: Setting, node: Node) -> str | None:
    """The work that a noun right behind "to" stands for."""
    tokens = list(leaves(node))
    pairs = pairwise(tokens)
    nouns = [str(noun.value).removeprefix(HIDDEN) for link, noun in pairs if link.kind == "TO" and noun.kind == "PART"]
    return next((setting.lexicon.patterns.get(f"{noun}|||") for noun in nouns), None)


_KINDS: dict[str, Callable[[Setting, Clause, Node], None]] = {
    "observe": observe,
    "decide": decide,
    "gone": gone,
    "meaning": _meaning,
    "again": _again,
    "correct": _correct,
    "remind": _remind,
}
