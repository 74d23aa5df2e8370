"""What a small word cannot be beside its neighbours: "no" that corrects, "but" that spares, "on" that is no day's."""

from __future__ import annotations

from .opening import JOINERS, STOPS
from .sense import VERBS, Sense, helpers

_SAYING_MORE = frozenset({"WEATHER", "FINDING", "SPECIES", "VED", "VING", "MEASURE"})
_ALL_REACH = 6  # words before "but" within which "all" stands
_HOW_REACH = 4  # words before "before" within which "how" stands
_OWNED = frozenset({"PART", "FINDING", "FLUSH", "EVENT", "MEANS", "ONE", "TREEWORD"})
_OWNED_REACH = 5  # words within which the thing that is owned stands
_LEFT_REACH = 4  # words before "left" within which "no" or "none" stands
_REASON_REACH = 6  # words within which the verb of a sentence stands


def on_a_day(s: Sense) -> bool:
    """ "Potted it on yesterday": nobody says a day so, and "on" belongs to the verb."""
    if s.kind != "DATE" or s.word != "on":
        return False
    behind = {s.after, *(" ".join(s.texts[s.at + 1 : s.at + n]) for n in (2, 3))}
    return bool(behind.intersection(s.lexicon.sense["after_on"]))


def denied_thing(s: Sense) -> bool:
    """ "No the right one", "no two pairs", said without a pause: "no" denies nothing but corrects."""
    if s.kind not in ("AUX", "CORRECT") or not s.alone or not s.is_one_of("refusals"):
        return False
    counted = s.after not in s.lexicon.sense["ones"] and any(t.kind == "NUM" and not t.guesses for t in s.next)
    pointed = s.after in s.lexicon.sense["pointers"] or (counted and s.opening)
    return pointed if s.kind == "AUX" else not (pointed and s.opening)


def one_thing(s: Sense) -> bool:
    """ "The left one to three leaves": behind a place "one" counts nothing."""
    counts = s.kind in ("NUM", "MEASURE", "SHARE") and any(t.kind == "ONE" for t in s.lattice[s.at])
    return counts and s.behind("SIDE", "LEVEL", "ORD")


def adverb(s: Sense) -> bool:
    """ "Right at the top", "black spot is back on the elm": no side, where a preposition follows a bare word."""
    if s.kind == "SIDE" and s.alone and s.is_one_of("returned") and s.behind("AUX"):
        return True
    said = " ".join(s.texts[s.at : s.token.end])
    followed = s.lexicon.sense["before"].get(f"{said} {s.kind}", ())
    behind = [" ".join(s.texts[s.token.end : s.token.end + words]) for words in (1, 2, 3)]
    return any(one in followed for one in behind) and not s.behind("DET", "AT", "TO", "FROM", "OF")


def remaining(s: Sense) -> bool:
    """ "Any scale left", "two buds left on the elm": what remains lies on no side, and nobody left it."""
    if s.kind not in ("SIDE", "VED", "V") or not s.alone or not s.is_one_of("remains"):
        return False
    if s.kind != "SIDE" and s.behind("DET") and any(t.kind == "PART" and not t.guesses for t in s.next):
        return True  # "that left leader"
    if s.kind == "SIDE" and s.opening:
        return False
    breath = next((n for n in range(s.at, 0, -1) if s.texts[n - 1] in JOINERS | STOPS), 0)
    said = s.texts[max(breath, s.at - _LEFT_REACH) : s.at]
    thing = s.at > 0 and any(t.kind in ("FINDING", "PART") and t.end == s.at for t in s.lattice[s.at - 1])
    if thing and set(said).intersection(s.lexicon.sense["denying"]):
        return True  # "no crossing branches left now"
    for first in range(max(1, s.at - 3), s.at):
        numbered = any(t.kind == "NUM" and t.end == first for t in s.lattice[first - 1])
        if not numbered and s.texts[first - 1] not in s.lexicon.sense["denying"]:
            continue
        if any(t.kind in ("FINDING", "PART") and t.end == s.at and not t.guesses for t in s.lattice[first]):
            return True
    return False


def side_names(s: Sense) -> bool:
    """ "The left shoot": behind its place a word is the thing, and belongs to no verb."""
    if s.kind != "PARTICLE" or not s.alone:
        return False
    thing = any(t.kind in ("PART", "FINDING", "ONE") and not t.guesses for t in s.next)
    if s.behind("NUM") or (s.at and s.texts[s.at - 1] == "'s"):  # "Gatepost's two lower branches"
        placed = thing or any(t.kind in ("SIDE", "ORD") and not t.guesses for t in s.next)
        return placed and s.may_be("SIDE", "LEVEL")
    if not s.behind("SIDE", "LEVEL", "ORD"):
        return False
    return s.may_be("PART") or (s.may_be("SIDE", "LEVEL") and thing)  # "take the low back branch off"


def owns(s: Sense) -> bool:
    """ "The elm's roots were cut": where what was done to the thing follows, "'s" owns and helps no verb."""
    if s.kind != "AUX" or s.word != "'s":
        return False
    if s.behind("SPECIES", "TREEWORD", "NAME") and _thing_next(s):
        return True  # "low on the hawthorn's trunk", "wired Gatepost's two lower branches"
    ends = {t.end for t in s.next if t.kind == "PART" and not t.guesses and t.end < len(s.texts)}
    ends = {end + 1 for end in ends if helpers(s.lattice[end], end + 1) & {"be"} and end + 1 < len(s.texts)}
    return any(t.kind in ("V", "VED") and not t.guesses for end in ends for t in s.lattice[end])


def owns_nothing(s: Sense) -> bool:
    """ "The cut on the left's healing": "'s" owns only where a thing follows in the same breath."""
    if s.kind != "POSS":
        return False
    for at in range(s.token.end, min(len(s.texts), s.token.end + _OWNED_REACH)):
        if s.texts[at] in JOINERS | STOPS:
            break
        if any(t.kind in _OWNED and not t.guesses for t in s.lattice[at]):
            return False
    return True


def _thing_next(s: Sense) -> bool:
    """Whether a part follows, with its place or without, and no longer term: "boxwood's root bound"."""
    starts = [s.token.end] if s.token.end < len(s.texts) else []
    for start in starts:  # it grows: "two lower", "second left"
        places = [t for t in s.lattice[start] if t.kind in ("SIDE", "LEVEL", "ORD", "NUM") and not t.guesses]
        starts += [t.end for t in places if t.end < len(s.texts) and t.end not in starts]
    for start in starts:
        ends = {t.kind: t.end for t in s.lattice[start] if t.kind in ("PART", "FINDING", "STATE") and not t.guesses}
        if "PART" in ends and ends["PART"] == max(ends.values()):
            return True
    return False


def farewell(s: Sense) -> bool:
    """ "I'm off on holiday", "good night frost coming": a talk ends where nothing of the same breath follows."""
    if s.kind != "FAREWELL":
        return False
    if " ".join(s.texts[s.at : s.token.end]) in s.lexicon.sense["done_with"] and not s.opening:
        return True  # "turned it, watered it, fed it, all done"
    for at in range(s.token.end, len(s.texts)):
        if s.texts[at] in JOINERS | STOPS | {","}:
            break
        if s.texts[at] in s.lexicon.sense["going_away"] or any(
            t.kind in _SAYING_MORE and not t.guesses for t in s.lattice[at]
        ):
            return True
    return False


def of_others(s: Sense) -> bool:
    """ "A friend repotted his maple": somebody else's work is told only where a verb follows, and so is what they say
    to do ("the book says remove it")."""
    if s.kind == "QMAY" and s.texts[s.token.end - 1] in s.lexicon.sense["saying"]:
        return not any(t.kind == "V" and not t.guesses for t in s.next)
    if s.kind != "AUX" or s.token.value != "others":
        return False
    return not any(t.kind == "VED" and not t.guesses for t in s.next)


def seems(s: Sense) -> bool:
    """ "The stub looks ugly": behind a thing "looks" counts none."""
    if s.kind == "PART" and s.alone and s.is_one_of("ending"):  # "the apex ends in a whorl"
        return s.behind("PART") and s.after in s.lexicon.sense["pointing"]
    return s.kind == "EVENT" and s.alone and s.is_one_of("looks") and s.behind("PART", "PRON", "SPECIES", "ONE")


def compared(s: Sense) -> bool:
    """ "I'd rather guy it than wire it": "than" sets aside what follows only where something is preferred to it."""
    if s.kind != "SEP" or not s.alone or not s.is_one_of("comparing"):
        return False
    return not set(s.lexicon.sense["preferring"]) & set(s.texts[: s.at])


def leads_nowhere(s: Sense) -> bool:
    """ "Growth has stopped on the elm": only "is" and its forms lead to a place, other helpers to a verb."""
    if s.kind == "AT":  # "the candles are out on the pine"
        return not s.alone and s.behind("AUX") and any(t.kind == "STATE" and t.end == s.at + 1 for t in s.lattice[s.at])
    if s.kind != "AUX" or s.token.value == "not" or s.texts[s.token.end - 1] in s.lexicon.sense["being"]:
        return False
    kinds = {t.kind for t in s.next if not t.guesses}
    return "AT" in kinds and not kinds & {"DATE", "V", "VED", "VING"}


def as_reason(s: Sense) -> bool:
    """ "I turned it, as there's a gap at the back": "as" tells why only where a whole sentence follows."""
    if s.kind != "SEP" or s.word != "as" or not s.alone:
        return False
    if s.after not in s.lexicon.sense["reasons"] or "as" in s.texts[max(0, s.at - 2) : s.at]:
        return True
    behind = range(s.at + 2, min(len(s.texts), s.at + _REASON_REACH))
    return s.opening or not any(helpers(s.lattice[at], at + 1) & {"be", "have", "will"} for at in behind)


def earlier(s: Sense) -> bool:
    """ "Wire it before I repot it", "before the buds open": "before" parts what is from what is to come, unless it
    belongs to a day ("before winter") or ends the sentence."""
    if s.kind != "SEP" or s.token.value != "before":
        return False
    near = s.texts[max(0, s.at - _HOW_REACH) : s.at]
    if set(s.lexicon.sense["measuring"]).intersection(near):  # "how many days before it dries out"
        return not any(t.kind in VERBS for tokens in s.lattice[max(0, s.at - 2) : s.at] for t in tokens)
    return not s.after or s.after in STOPS or any(t.kind == "DATE" and not t.guesses for t in s.lattice[s.at])


def as_reason_for(s: Sense) -> bool:
    """ "Leaving it alone as it is weak": where a state follows, "as it is" tells why, not how it is left."""
    return s.kind == "PARTICLE" and s.word == "as" and any(t.kind in ("STATE", "FINDING") for t in s.next)


def came_out(s: Sense) -> bool:
    """ "The leaves are coming out on the maple": there "out" belongs to the state."""
    if s.kind != "AT" or s.alone or s.word not in s.lexicon.sense["after_verb"]:
        return False
    first = range(max(0, s.at - 2), s.at)
    return any(t.kind == "STATE" and t.end == s.at + 1 and not t.guesses for n in first for t in s.lattice[n])


def spares(s: Sense) -> bool:
    """ "Wired everything but the top": where all was named before, "but" spares; else it only joins."""
    if s.kind != "SEP" or s.word != "but" or not s.alone:
        return False
    all_of = any(text in s.lexicon.sense["all"] for text in s.texts[max(0, s.at - _ALL_REACH) : s.at])
    placed = any(t.kind in ("DET", "SIDE", "LEVEL", "ORD", "PART") and not t.guesses for t in s.next)
    spares = all_of and placed and not _has_verb(s)
    return bool((s.token.value == "except") != spares)


def _has_verb(s: Sense) -> bool:
    """Whether a verb stands in what follows, up to the next pause: "all of it is wired but the top is bare"."""
    for at in range(s.token.end, len(s.texts)):
        if s.texts[at] in STOPS | {","}:
            return False
        kinds = {t.kind for t in s.lattice[at] if not t.guesses}
        if kinds & {*VERBS, "AUX"} and not kinds & {"SIDE", "LEVEL", "PART"}:
            return True
    return False


def comes_off(s: Sense) -> bool:
    """ "The wire's coming off" is the grower's work, "the bark is coming off" is not; no state of a wire is meant."""
    sense = s.lexicon.sense
    if s.kind == "OFF" and s.alone:  # "mice have eaten the bark off the hawthorn"
        seen = [t for n in range(s.at) for t in s.lattice[n] if t.kind == "MEANS" and t.end in (s.at, s.token.end)]
        if any(t.value in sense["circumstances"] for t in seen):
            return True
    if s.kind == "OFF" and s.token.value == "coming":
        return s.at == 0 or s.texts[s.at - 1] not in sense["comes_off"]
    return s.kind == "STATE" and s.word == "coming" and s.at > 1 and s.texts[s.at - 2] in sense["comes_off"]
