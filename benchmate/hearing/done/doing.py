"""Verbs: which work "take ... off" is when it is said of a wire, and whether it is done, meant or refused."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import dataclass

from ..vocabulary.lexicon import Lexicon

DONE, NOW, LATER, NOT = "done", "now", "later", "not"
# Works that are a decision in themselves as soon as they are said.
AT_ONCE = frozenset({"leave", "wait"})
# Works of which degrees are an angle.
BENT = frozenset({"bend", "guy", "wire", "turn-tree"})


@dataclass(frozen=True, slots=True)
class Mood:
    """How the verb is meant. done: as in the contract. event: something is told of the tree rather than decided.
    denied: the event did not happen. open: the form alone does not tell past from present ("put", "cut").
    going: it is a form in -ing. someone: it is told who does it ("I need to seal it"). habit: with a word of how often
    it would tell what is done again and again ("I've been watering")."""

    done: str
    event: bool = False
    denied: bool = False
    open: bool = False
    going: bool = False
    someone: bool = False
    habit: bool = False


def mood_of(aux: Sequence[str], form: str, verb: str, lexicon: Lexicon, subject: bool, thing: bool = False) -> Mood:
    """From the small words before the verb and its form (V, VED, VING). subject: something is said to be worked on
    ("it was repotted"). thing: what is worked on stands behind the verb ("never touched the roots")."""
    denied, someone = bool({"not", "stop"} & set(aux)), "i" in aux
    if form == "V" and not someone and {"be", "being"} & set(aux) and _same_past(verb, lexicon):
        form = "VED"  # "the roots were cut"
    if form == "V":
        if denied:
            return Mood(NOT)
        if "done" in aux or ("do" in aux and someone and "not" not in aux):  # "had to chop it", "I did wire it"
            return Mood(DONE)
        if "will" in aux:
            return Mood(LATER, someone=someone)
        past = _same_past(verb, lexicon) and "let" not in aux
        if past and someone and not {"ask", "need"} & set(aux):
            return Mood(DONE, open=True)  # "I cut the candles off"
        return Mood(NOW, open=past, someone=someone)
    if form == "VNOW":  # "the left one goes"
        return Mood(NOT if denied else NOW)
    if form == "VING":
        if denied:
            return Mood(NOT)
        habit = bool({"be", "have"} & set(aux)) and not {"will", "let", "need", "ask"} & set(aux)
        return Mood(DONE if "done" in aux else LATER if "will" in aux else NOW, going=True, habit=habit)
    if "get" in aux or {"let", "have"} <= set(aux):  # "get it wired", "let's have the elm fed"
        if "do" in aux and someone and not denied:
            return Mood(DONE)  # "did I get it wired"
        return Mood(NOT if denied else LATER if "will" in aux else NOW, someone=someone)
    if "being" in aux and not someone:  # "two stubs are being removed"
        return Mood(NOT if denied else NOW)
    if not someone and "be" in aux and ("will" in aux or aux.count("be") > 1):  # "it will be fed", "it is to be fed"
        return Mood(NOT if denied else LATER)
    passive = "be" in aux or (denied and not someone and not thing) or (subject and "have" in aux and not someone)
    if passive and not someone:
        return Mood(DONE, event=True, denied=denied)
    if denied:
        return Mood(NOT)
    return Mood(LATER if "will" in aux else DONE)


def _same_past(verb: str, lexicon: Lexicon) -> bool:
    first, *rest = verb.split("-")
    same = lexicon.data.get("same_past", ())
    return first in same or (len(rest) == 1 and rest[0] in same)  # "cut back", "leaf cut"


def work_of(lexicon: Lexicon, verb: str, particles: Sequence[str], parts: Sequence[str], share: bool) -> str | None:
    """The work that a verb means with what stands around it, or None. The most telling pattern wins: with the share,
    then with particle and part, then the particle, then the part, then the verb alone."""
    patterns = lexicon.patterns
    found = [*particles, ""]
    for with_share in ("share", "") if share else ("",):
        for particle in found:
            for part in [*parts, ""]:
                if work := patterns.get(f"{verb}|{particle}|{part}|{with_share}"):
                    return work
    return None
