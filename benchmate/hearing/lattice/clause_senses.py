"""What words cannot be by the rest of their clause: "the pomegranate flowers now", "what does the cedar need?"."""

from __future__ import annotations

from .opening import JOINERS, STOPS, is_filler, opens
from .sense import VERBS, Sense

_TREES = frozenset({"SPECIES", "NAME", "TREEWORD", "PRON"})
_WORKED_ON = frozenset({"PRON", "PARTICLE", "PART", "SPECIES", "NAME", "ONE"})
_LEADS = frozenset({"DET", "POSS"})
_BREAKS = STOPS | JOINERS


def bloomers(s: Sense) -> bool:
    """ "The pomegranate flowers now": what a tree does, where nothing but the tree stands before it in its clause."""
    if s.kind not in ("STATE", "PART") or not s.alone or not s.is_one_of("bloomers"):
        return False
    return _blooms(s) == (s.kind == "PART")


def _blooms(s: Sense) -> bool:
    for first in range(max(0, s.at - 4), s.at):
        tree = any(t.kind in _TREES and t.end == s.at and not t.guesses for t in s.lattice[first])
        start = first - 1 if first and any(t.kind in _LEADS for t in s.lattice[first - 1]) else first
        if tree and (opens(s.lexicon, s.texts, start) or s.texts[start - 1] in _BREAKS):
            ends = not s.after or s.after in _BREAKS - {"and"} or is_filler(s.lexicon.filler, [s.after])
            return ends or any(t.kind in ("DATE", "MANNER") for t in s.next)
    return False


def ripens(s: Sense) -> bool:
    """ "The flush will harden off in July", "once the candles stop": growth does so by itself."""
    halts = s.kind == "AUX" and s.alone and not any(t.kind in VERBS and not t.guesses for t in s.next)
    if not (s.kind == "V" or halts) or not s.is_one_of("ripening"):
        return False
    start = max((n + 1 for n in range(s.at) if s.texts[n] in _BREAKS), default=0)
    mine = any(word in s.lexicon.sense["people"] for word in s.texts[start : s.at])
    return not mine and any(t.kind in ("FLUSH", "PART") for at in range(start, s.at) for t in s.lattice[at])


def worked_next(s: Sense) -> bool:
    """ "To guy it or to wire it": behind "to" and before "it" stands the verb, not the thing."""
    if s.kind != "PART" or not s.at or s.texts[s.at - 1] not in s.lexicon.sense["before_verbs"] or not s.may_be("V"):
        return False
    verbs = s.lattice[s.token.end + 1] if s.after == "or" and s.token.end + 1 < len(s.texts) else ()
    either = any(t.kind == "V" and not t.guesses for t in verbs)  # "whether to wire or guy it"
    return either or any(t.kind == "PRON" and not t.guesses for t in s.next)


def only_thought(s: Sense) -> bool:
    """ "I thought it was dead" tells nothing of the tree, "I thought I'd wire it" of what is to be done."""
    if s.kind != "AUX" or s.token.value != "thought":
        return False
    work = any(t.kind in ("V", "VED", "VING") and not t.guesses for t in s.next)
    return not s.after or s.after in _BREAKS or s.after in s.lexicon.sense["own_thought"] or work


def asks_denied(s: Sense) -> bool:
    """ "Isn't the wire biting?" asks, "isn't biting yet" tells: a question names what it asks about right behind."""
    if s.kind not in ("AUX", "QCAN", "QRECALL") or s.texts[s.at + 1 : s.at + 2] != ["not"]:
        return False
    asks = s.kind != "AUX"
    if (asks and s.token.end != s.at + 2) or not s.is_one_of("asks_denied"):
        return False
    behind = s.lattice[s.at + 2] if s.at + 2 < len(s.texts) else ()
    named = any(t.kind in ("DET", "SPECIES", "TREEWORD", "NAME") or t.value == "it" for t in behind if not t.guesses)
    return (named and s.opening) != asks


def asks_of_doing(s: Sense) -> bool:
    """ "Would defoliating make them smaller": what opens a sentence before a doing asks about it."""
    if not s.alone or s.kind not in ("QMAY", "QCAN", "AUX") or not s.is_one_of("asks_doing"):
        return False
    asked = s.opening and any(t.kind == "VING" and not t.guesses for t in s.next)
    return asked != (s.kind == "QMAY")


def own_body(s: Sense) -> bool:
    """ "My back is killing me": no side of the tree, unless a thing follows."""
    if s.kind != "SIDE" or not s.at or s.texts[s.at - 1] not in s.lexicon.sense["own_body"]:
        return False
    return not any(t.kind in ("PART", "ONE", "FINDING", "SPECIES", "TREEWORD", "STATE") for t in s.next)


def gets_done_when(s: Sense) -> bool:
    """ "When does it get fed" asks for the day of work, "when does it get its next flush" for that of growth."""
    if s.kind != "QWHEN" or s.texts[s.token.end - 1] not in s.lexicon.sense["getting_done"]:
        return False
    return not any(t.kind == "VED" for t in s.next)


def gets_passive(s: Sense) -> bool:
    """ "It will get fed", "it didn't get wired": "get" helps the verb right behind it, where a helper leads."""
    if s.kind != "AUX" or s.token.value != "be" or not s.alone or s.word not in s.lexicon.sense["passive_by"]:
        return False
    return not (any(t.kind == "VED" and not t.guesses for t in s.next) and s.behind("AUX"))


def needs_what(s: Sense) -> bool:
    """ "What does the cedar need now?" asks for advice, "what does ramify mean?" for a meaning."""
    if s.kind not in ("QADVICE", "QMEANING") or not s.is_one_of("needing_what") or s.token.end != s.at + 2:
        return False
    if s.kind == "QADVICE" and s.texts[s.at + 1] not in s.lexicon.sense["needing_by"]:
        return False
    words = s.texts[s.token.end :]
    end = next((n for n, word in enumerate(words) if word in _BREAKS), len(words))
    wanted = any(word in s.lexicon.sense["needs_it"] for word in words[1:end])
    return wanted == (s.kind == "QMEANING")


def of_people(s: Sense) -> bool:
    """ "She gave me a jug of feed", "I'd come in for dinner": what people get and where they go is no work."""
    if s.kind not in ("V", "VED", "VING"):
        return False
    given = s.is_one_of("giving") and s.after in s.lexicon.sense["to_me"]
    return given or (s.is_one_of("coming") and s.after in s.lexicon.sense["indoors"] and s.helped_by("i"))


def let_grow_on(s: Sense) -> bool:
    """ "Letting the leader grow on the elm": behind "let" the verb is the work's, and leads to no place."""
    if s.kind != "AT" or not s.is_one_of("growing_on"):
        return False
    return any(t.kind in ("V", "VED", "VING") and t.value == "let" for tokens in s.lattice[: s.at] for t in tokens)


def tree_or_stuff(s: Sense) -> bool:
    """ "The neem has scale", but "sprayed it with neem"."""
    if s.kind not in ("SPECIES", "MEANS") or not s.alone or not s.is_one_of("tree_or_stuff"):
        return False
    stuff = s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["stuff_behind"]
    return stuff == (s.kind == "SPECIES")


def no_denial_of_order(s: Sense) -> bool:
    """ "No, leave it", "no wire it": a refusal before an order, and no denial of it."""
    if s.kind != "AUX" or s.token.value != "not" or not s.alone or not s.is_one_of("refusals") or not s.opening:
        return False
    order = any(t.kind == "V" and not t.guesses for t in s.next)
    pronoun = s.token.end + 1 < len(s.texts) and s.texts[s.token.end + 1] in s.lexicon.sense["worked_on"]
    return s.after == "," or bool(order and pronoun)


def had_contracted(s: Sense) -> bool:
    """ "I'd wired it" tells what had been done, "I'd wire it" what would be."""
    if s.kind != "AUX" or s.word != "would" or not s.alone or s.token.value not in ("will", "have"):
        return False
    at = s.token.end
    while at < len(s.texts) and is_filler(s.lexicon.filler, [s.texts[at]]):
        at += 1
    behind = s.lattice[at] if at < len(s.texts) else ()
    kinds = {t.kind for t in behind if not t.guesses}
    had = "VED" in kinds and "V" not in kinds
    return bool(had == (s.token.value == "will"))


def taken_back(s: Sense) -> bool:
    """ "I could cut it, but I won't": only where nothing follows that is not done."""
    if s.kind != "SEP" or s.token.value != "undone":
        return False
    return bool(s.after) and s.after not in STOPS | {","}


def left_side(s: Sense) -> bool:
    """ "Left branch wired up", "left shoot's weak": the side, where what is so of the part follows it."""
    if s.kind != "VED" or not s.alone or not s.is_one_of("left_over"):
        return False
    ends = {t.end for t in s.next if t.kind == "PART" and not t.guesses and t.end < len(s.texts)}
    return any(t.kind in ("VED", "STATE") and not t.guesses for end in ends for t in s.lattice[end])


def half_dose(s: Sense) -> bool:
    """ "Half dose of feed": how much of it, and no other work."""
    return s.kind == "V" and s.alone and s.is_one_of("doses") and s.behind("SHARE")


def named_by_owner(s: Sense) -> bool:
    """ "My sprint review", "smells like wet dog": behind whose it is and what it is like stands no verb."""
    if s.kind != "V" or s.at < 1:
        return False
    owned = s.at > 1 and s.texts[s.at - 2] in s.lexicon.sense["owners"] and not s.lattice[s.at - 1]
    return owned or s.texts[s.at - 1] in s.lexicon.sense["likening"]


def mind_changed(s: Sense) -> bool:
    """ "I've changed my mind, I won't wire it": what follows tells it; alone it takes back the last entry."""
    if s.kind != "STRIKE" or s.texts[s.token.end - 1] not in s.lexicon.sense["minds"]:
        return False
    return s.after == "," and s.token.end + 1 < len(s.texts)


def ordered_on_a_day(s: Sense) -> bool:
    """ "Next week repot the elm", "tomorrow water it": behind a day that opens a sentence stands the order."""
    if s.kind not in ("EVENT", "PART", "MEANS", "FINDING", "STATE") or not s.may_be("V"):
        return False
    for first in range(max(0, s.at - 4), s.at):
        day = any(t.kind == "DATE" and t.end == s.at and (t.value.future or t.value.every) for t in s.lattice[first])
        if day and opens(s.lexicon, s.texts, first):
            kinds = ("DET", "PRON", "SPECIES", "NAME", "TREEWORD", "SIDE", "LEVEL", "PART")
            return any(t.kind in kinds and not t.guesses for t in s.next)
    return False


def may_to(s: Sense) -> bool:
    """ "Is the hawthorn ok to wire now": what asks whether one may ends in "to", which leads to no thing."""
    if s.kind != "TO" or not s.at:
        return False
    asks = any(t.kind == "QMAY" and t.end == s.token.end for at in range(max(0, s.at - 3), s.at) for t in s.lattice[at])
    return asks and any(t.kind == "V" and not t.guesses for t in s.next)


def before_the_rest(s: Sense) -> bool:
    """ "Took the wire off first": at the end of its clause and behind what is worked on, the order of works; "wire the
    first" is a place."""
    if s.kind not in ("ORD", "SEP") or not s.is_one_of("in_order") or (s.kind == "SEP" and not s.alone):
        return False
    ends = not s.after or s.after in _BREAKS
    behind = {t.kind for at in range(max(0, s.at - 2), s.at) for t in s.lattice[at] if t.end == s.at and not t.guesses}
    start = max((n + 1 for n in range(s.at) if s.texts[n] in _BREAKS), default=0)
    works = any(t.kind in VERBS for at in range(start, s.at) for t in s.lattice[at])  # "leafing out, low ones first"
    worked_on = works and bool(behind & _WORKED_ON) and not behind & {"DET", "AT", "SIDE"}
    return (ends and worked_on) == (s.kind == "ORD")


def opens_as_work(s: Sense) -> bool:
    """ "Wired ash last Friday", "thin leaves by a quarter": before a day, and before by how much, stands work."""
    if s.kind != "STATE" or not s.alone or not s.opening:
        return False
    for kind, thing, behind in (("VED", ("SPECIES", "NAME"), "DATE"), ("V", ("PART",), "BY")):
        ends = {t.end for t in s.next if t.kind in thing and not t.guesses and t.end < len(s.texts)}
        if s.may_be(kind) and any(t.kind == behind for end in ends for t in s.lattice[end]):
            return True
    return False


def half_off(s: Sense) -> bool:
    """ "Snapped the branch half off" broke it, "took half off" is a share."""
    if s.kind != "PARTICLE" or s.token.value != "half-off":
        return False
    verbs = s.lexicon.sense["breaking"]
    return not any(t.kind in ("V", "VED", "VING") and t.value in verbs for tokens in s.lattice[: s.at] for t in tokens)


def no_inches(s: Sense) -> bool:
    """ "Stuck six in sand": where they stand follows, and "in" measures nothing."""
    return s.kind == "MEASURE" and s.texts[s.token.end - 1] == "in" and s.after in s.lexicon.sense["stands_in"]


def next_to(s: Sense) -> bool:
    """ "The maple next to the wall": where it stands, and no turning to it."""
    return s.kind in ("NEXTUP", "TURN") and s.alone and s.after == "to"


def worked_out(s: Sense) -> bool:
    """ "Work out the guy pull" asks for a figure, "work out the next two years" for a plan: years or a tree are
    planned."""
    if s.kind != "QPLAN" or not s.is_one_of("works_out"):
        return False
    words = s.texts[s.token.end :]
    planned = any(word in s.lexicon.sense["planned_over"] for word in words[:4])
    return bool(words) and not planned and any(t.kind in ("PART", "MEANS", "QFIGURE") for t in s.next)
