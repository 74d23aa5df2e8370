"""What is only supposed or waited for: "if I halve the leaves", "when I repot it", "once the buds swell"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from benchmate.value import replace

from ..clauses import Clause
from ..done.doing import AT_ONCE, DONE, LATER, NOT, NOW
from ..reading import Work
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_WAITING = frozenset({"if", "when"})
_BARE = frozenset({"may", "why", "when"})  # questions that may stop short of the work that they ask about


def supposed(before: Clause, clause: Clause) -> bool:
    """ "how much leaf is that if I halve 30 of 50 leaves": the work only belongs to the question."""
    if (
        before.topic != "figure"
        or clause.kind != "decide"
        or not clause.work
        or not {"if", "because"} & set(clause.joined)
    ):
        return False
    before.supposes += clause.work
    before.when = before.when or clause.when
    before.series += clause.series
    for work in clause.work:
        before.measures.update(work.measures)
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    return True


def supposed_first(clauses: list[Clause]) -> list[Clause]:
    """ "if I halve the leaves, how much is gone": what is supposed may stand before the question too."""
    figure = next((clause for clause in clauses if clause.topic == "figure"), None)
    if figure is None:
        return clauses
    return [c for c in clauses if c is figure or not ("if" in c.joined and supposed(figure, c))]


def supposed_alone(clauses: Sequence[Clause]) -> None:
    """ "if I cut the leader off now, what will grow back": work of the grower behind "if" is asked, never told."""
    for clause in clauses:
        told = clause.kind == "decide" and clause.work and "decide" in clause.acts and "if" in clause.joined
        if not told or not clause.led:
            continue
        supposed_work = [replace(work, done=None, denied=work.denied or work.done == NOT) for work in clause.work]
        others = [other for other in clauses if other is not clause and other.topic]
        if all(other.topic in ("advice", "may") and not other.work for other in others):
            clause.acts, clause.topic, clause.work = ["ask"], "what-if", supposed_work
            for other in others:
                other.topic = None
        else:  # "if I take the leaves off today, when are they back"
            clause.acts, clause.work = [], []
            clause.supposes += supposed_work


def supposed_events(clauses: Sequence[Clause], words: Sequence[Word], lexicon: Lexicon) -> None:
    """ "If I prune today will it bleed": work that is named behind "if I" is asked about, and was done on no day."""
    opens = lexicon.sense["supposes"]
    for clause in clauses:
        events = [fact for fact in clause.facts if fact.kind == "event" and fact.span[0] > 1]
        events = [one for one in events if [word.text for word in words[one.span[0] - 2 : one.span[0]]] in opens]
        if events and not clause.work and not clause.topic:
            clause.facts = [fact for fact in clause.facts if fact not in events]
            clause.work = [Work(str(fact.value), fact.spot, span=fact.span) for fact in events]
            clause.acts, clause.topic = ["ask"], "what-if"


def supposed_too(before: Clause, clause: Clause) -> bool:
    """ "what if it had mildew and were weak", "what if I wire it and bend it?": what goes on with "and" is supposed as
    well."""
    if before.kind != "what_if" or not {"and", ","} & set(clause.joined):
        return False
    if clause.topic and not (clause.topic == "may" and clause.asked and clause.kind == "decide"):
        return False
    if clause.kind not in ("observe", "decide") or not (clause.facts or clause.work):
        return False
    if "and" not in clause.joined and clause.by_grower:  # "suppose it is weak, I leave it alone"
        return False
    before.facts += clause.facts
    before.work += [replace(work, done=None, denied=work.denied or work.done == NOT) for work in clause.work]
    before.when = before.when or clause.when
    return True


def left_open(before: Clause, clause: Clause) -> bool:
    """ "what about half bare rooting it", "why did you say wait": the work behind a question that names none itself is
    what it asks about, and none that is told."""
    asks = before.kind in _BARE and "ask" in before.acts and not (before.work or before.facts)
    if asks and before.kind == "why" and clause.kind == "observe" and clause.joined == ("asking",):
        before.facts += clause.facts  # "why did you say the elm is weak": it asks of that, and sees nothing
        return True
    if not asks or clause.kind != "decide" or clause.topic or clause.by_grower or not clause.work:
        return False
    if len(clause.joined) != 1 or clause.joined[0] not in ("pause", "asking"):
        return False
    if clause.mood is None or clause.mood.done != NOW:
        return False
    share = before.phrase.share if before.phrase is not None else None
    own = {"share": share} if share is not None else {}
    before.work = [replace(work, done=None, measures={**own, **work.measures}) for work in clause.work]
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    before.when = before.when or clause.when
    before.refers += clause.refers
    return True


def meanwhile(before: Clause, clause: Clause) -> bool:
    """ "can I feed the elm when I repot it": what would be done then belongs to the question."""
    asks = "ask" in before.acts and before.topic not in ("figure", "meaning", "recall", "list")
    if not asks or clause.kind != "decide" or clause.topic or not _WAITING & set(clause.joined):
        return False
    if clause.mood is None or not (clause.mood.open or clause.mood.done in (NOW, LATER)) or not clause.work:
        return False
    before.supposes += [replace(work, done=None) for work in clause.work]
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    before.when = before.when or clause.when
    return True


def beforehand(before: Clause, clause: Clause) -> bool:
    """ "wire it before I repot it", "pinch it before it gets leggy": what comes later is not so yet; the grower's own
    work in it is still to come, or was done too where all is told of the past."""
    if "before" not in clause.joined or clause.topic or clause.kind not in ("observe", "decide"):
        return False
    own = clause.by_grower or (clause.mood is not None and clause.mood.open)
    work = [one for one in clause.work if own and one.work and one.work not in AT_ONCE]
    if before.topic:
        before.supposes += [replace(one, done=None) for one in work]
    else:
        past = before.mood is not None and before.mood.done == DONE
        told = clause.mood is not None and not clause.mood.open  # "before I cut it" tells of no time
        before.work += [replace(one, done=DONE if past or (told and one.done == DONE) else LATER) for one in work]
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    return True


def before_what_is_asked(clauses: Sequence[Clause]) -> None:
    """ "Before I cut the top, should I wait", "when I repot it, should I prune the roots": what comes at the head of a
    question is only supposed."""
    for before, clause in pairwise(clauses):
        leads = {"before", "when"} & set(before.joined) and not set(clause.joined) - {",", "pause", "?"}
        asks = "ask" in clause.acts and clause.topic in ("may", "when", "compare")
        mood = before.mood
        if not (leads and asks) or before.kind != "decide" or before.topic or not before.work or mood is None:
            continue
        if clause.span[0] - before.span[1] > 1:  # "when I cut it back it bled, is that bad"
            continue
        if mood.event or not (mood.open or mood.done in (NOW, LATER)):
            continue
        clause.supposes += [replace(work, done=None) for work in before.work]
        clause.when = clause.when or before.when
        before.work, before.when, before.taken, before.mood = [], None, True, None
        before.acts = ["observe"] if any(fact.kind != "species" for fact in before.facts) else []


def reminded_when(before: Clause, clause: Clause) -> bool:
    """ "remind me to feed it when the leaves have hardened": what is waited for is not seen yet."""
    if before.kind != "remind" or clause.kind != "observe" or not _WAITING & set(clause.joined):
        return False
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    before.when = before.when or clause.when
    return bool(clause.facts)


def on_condition(before: Clause, clause: Clause) -> bool:
    """ "bring it under cover if it drops below minus 10": meant for then, not done now, and nothing of it seen yet. A
    temperature is when to do it."""
    if not _WAITING & set(clause.joined) or clause.kind != "observe" or before.kind != "decide" or before.mood is None:
        return False
    told = "if" not in clause.joined and (before.mood.open or before.mood.going)  # "cut it back when it was weak"
    if before.mood.done not in ((LATER,) if told else (NOW, LATER, NOT)) or not before.work:
        return False
    before.facts += [fact for fact in clause.facts if fact.kind == "species"]
    before.work = [replace(work, done=LATER) if work.done == NOW else work for work in before.work]
    if "temperature_c" in clause.measures:
        last = before.work[-1]
        before.work[-1] = replace(last, measures={"temperature_c": clause.measures["temperature_c"], **last.measures})
    return True


def left_for_a_reason(before: Clause, clause: Clause) -> bool:
    """ "Slip-potted it, because I didn't want to disturb it": what was spared only tells why, and decides nothing."""
    reason = "because" in clause.joined and clause.kind == "decide" and bool(before.work)
    return reason and not clause.facts and all(work.work in AT_ONCE for work in clause.work)


def only_if(before: Clause | None, clause: Clause) -> None:
    """ "once the buds swell I'll repot it": what must come first is not seen yet."""
    if clause.kind != "decide" or clause.mood is None or clause.mood.done not in (NOW, LATER) or clause.topic:
        return
    condition = next((one for one in (before, clause) if one is not None and "if" in one.joined), None)
    if condition is None or condition.kind not in ("observe", "decide") or not clause.work:
        return
    if condition is before and condition.kind == "decide":
        return
    at = condition.measures.pop("temperature_c", None)
    condition.facts = [fact for fact in condition.facts if fact.kind == "species"]
    condition.acts, condition.taken = [act for act in condition.acts if act != "observe"], True
    condition.phrase = None
    clause.work = [replace(work, done=LATER) if work.done == NOW else work for work in clause.work]
    if at is not None:
        clause.work[0] = replace(clause.work[0], measures={"temperature_c": at, **clause.work[0].measures})
