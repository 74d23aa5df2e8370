"""What a verb or a state cannot be beside its neighbours: "my hose is dry", "it will not be wired"."""

from __future__ import annotations

from ..vocabulary.lexicon import END
from .opening import JOINERS, STOPS
from .sense import ARTICLES, VERBS, Sense, helpers

_THINGS = frozenset({"PART", "MEANS", "FINDING", "EVENT", "STATE"})
_OBJECTS = frozenset({"DET", "PRON", "PART", "SIDE", "LEVEL"})
_LEADING = frozenset({"DET", "SIDE", "LEVEL", "ORD", "NUM", "POSS"})
_PLACES = frozenset({"SIDE", "LEVEL", "ORD"})
_THING_REACH = 6  # words of a thing that is looked back over
_WORKED_ON = frozenset({"SPECIES", "NAME", "TREEWORD", "PART", "FINDING", "ONE", "LEVEL", "SIDE"})


_DOES = 4  # words behind "do" among which stands the part that it is done to


def owned_verb(s: Sense) -> bool:
    """ "The seal's cracked", "my hose is dry": what owns or is owned is no verb."""
    owns = s.kind in ("V", "VING") and s.after == "'s"
    if s.kind == "V" and s.alone and s.may_be("PART") and not owns:  # "hose frozen solid"
        ends = [t for t in s.next if t.kind in ("STATE", "FINDING", "HARM") and not t.guesses]
        owns = any(t.end == len(s.texts) or s.texts[t.end] in STOPS | {",", "and"} for t in ends)
    return owns or (s.kind == "V" and s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["owners"])


def lies_frozen(s: Sense) -> bool:
    """ "Water in the pot frozen solid": what lies somewhere, and has frozen, is no work."""
    lies = s.after in s.lexicon.sense["frozen"] or any(t.kind == "AT" for t in s.next)
    thing = s.kind in ("V", "EVENT", "PART") and s.alone and s.is_one_of("freezes") and lies
    ends = next((n for n in range(s.at, len(s.texts)) if s.texts[n] in JOINERS | STOPS | {","}), len(s.texts))
    return thing and bool(set(s.lexicon.sense["frozen"]).intersection(s.texts[s.at : ends]))


def base_form(s: Sense) -> bool:
    """ "Black spot is back": behind "is" stands no verb in its base form."""
    if s.kind != "V" or s.at == 0 or s.texts[s.at - 1] == "to" or s.may_be("VED"):
        return False
    if s.alone and (s.texts[s.at - 1] in ARTICLES or s.texts[s.at - 1] in s.lexicon.sense["one_more"]):
        return True  # "hanging by a strip", "tightened it another turn"
    before = s.at
    while before > 1 and END in s.lexicon.filler.get(s.texts[before - 1], {}):
        before -= 1  # "it is still wet"
    return any(helpers([t], before) == {"be"} for t in s.lattice[before - 1]) and not s.helped_by("not", ())


def doing(s: Sense) -> bool:
    """ "I'm not touching it", "I've wired one": what a person does is no state of the tree."""
    if s.kind != "STATE" or not s.may_be("VING", "VED"):
        return False
    kept_up = s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["keeping"]  # "keep nipping the tips"
    return kept_up or s.helped_by("i")


def named_by_article(s: Sense) -> bool:
    """ "Grown from a cutting": behind "a" a form in -ing is a thing, and nothing that goes on."""
    ends = s.after == "" or not s.next or s.after in JOINERS | STOPS
    form = s.kind == "VING" or (s.kind == "STATE" and s.may_be("VING"))
    return form and s.alone and ends and s.at > 0 and s.texts[s.at - 1] in ARTICLES


def wants_done(s: Sense) -> bool:
    """ "The needles want thinning", "no more feeding": such words call for work only before its form in -ing or its
    noun, and end it only before the form."""
    if s.kind != "AUX" or s.token.value not in ("need", "stop") or not s.is_one_of("wanting"):
        return False
    named = ("VING", "EVENT") if s.token.value == "need" else ("VING",)
    return not any(t.kind in named and not t.guesses for t in s.next)


def carried_out(s: Sense) -> bool:
    """ "The tips have been nipped out", "it's been slipped into a bigger pot": done to it, and no state."""
    verb = any(t.kind == "VED" and t.end == s.token.end and not t.guesses for t in s.lattice[s.token.end - 1])
    if s.kind not in ("STATE", "FINDING") or not verb:
        return False
    onward = any(t.kind == "PARTICLE" and t.value in ("off", "out") for t in s.next) or s.after == "into"
    done_to = any(t.kind == "AUX" and t.value == "be" for t in s.lattice[s.at]) or s.helped_by("be")  # "been nipped"
    return onward and done_to


def was_done(s: Sense) -> bool:
    """ "The low branch has been guyed": what was done, where "is guyed" tells what is there."""
    if s.kind not in ("STATE", "FINDING") or not s.at or s.texts[s.at - 1] not in s.lexicon.sense["happened"]:
        return False
    verbs = [t for t in s.lattice[s.at] if t.kind == "VED" and t.end == s.token.end and not t.guesses]
    return any(f"{verb.value}|||" in s.lexicon.patterns for verb in verbs)


def thing_cut(s: Sense) -> bool:
    """ "That big cut from March": a noun, where a size stands between it and its article."""
    sense = s.lexicon.sense
    if s.kind not in VERBS or not s.alone or s.at < 2:
        return False
    if _led_to(s):
        return True
    if not s.is_one_of("cuts"):
        return False
    return s.texts[s.at - 1] in sense["sizes"] and s.texts[s.at - 2] in sense["those"]


def _led_to(s: Sense) -> bool:
    """ "Bleeding from that cut", "recovering from the dig": behind "from the" stands a noun."""
    at = s.at
    if s.kind == "VING" or (s.after and not s.next):
        return False
    before = [t for tokens in s.lattice[max(0, at - 3) : at] for t in tokens if t.end == at]
    kin = next((t.first for t in before if t.kind == "SPECIES"), at)
    if kin < 2 or not any(t.kind == "DET" and t.end == kin for t in s.lattice[kin - 1]):
        return False
    return s.texts[kin - 2] in s.lexicon.sense["sources"] and not any(t.kind == "PART" for t in s.next)


def no_denial(s: Sense) -> bool:
    """ "Nearly cut it off" cut nothing, but "nearly all of it", "almost bare" and "nearly done" tell how much."""
    if s.kind != "AUX" or not s.is_one_of("short_of"):
        return False
    if s.after in s.lexicon.sense["ended"]:
        return True
    ends = {t.end for t in s.next if t.kind == "VED" and not t.guesses and t.end < len(s.texts)}
    return not any(t.kind in _OBJECTS and not t.guesses for end in ends for t in s.lattice[end])


def begins(s: Sense) -> bool:
    """ "It's started digging in": what begins is told by the state behind it."""
    return s.kind == "STATE" and s.alone and s.is_one_of("beginning") and any(t.kind == "STATE" for t in s.next)


def around(s: Sense) -> bool:
    """ "Callus is coming on round the wound": there "round" says where."""
    called_for = s.opening or s.behind("AUX") or (s.at > 0 and s.texts[s.at - 1] in ("to", "and"))
    return s.kind == "V" and s.alone and s.is_one_of("mostly_at") and not called_for


def to_be_done(s: Sense) -> bool:
    """ "Won't wire that one", "please feed this one": behind these stands the verb, not the thing."""
    if s.kind not in _THINGS or not s.may_be("V"):
        return False
    return any(s.helped_by(helper, ("not", "i")) for helper in ("will", "do", "let"))


def will_be(s: Sense) -> bool:
    """ "It will not be wired", "get it wired": what is to come is no state."""
    if s.kind not in ("STATE", "FINDING") or not s.may_be("VED") or not s.behind("AUX"):
        return False
    return s.helped_by("will", ("be", "not")) or s.helped_by("being") or s.helped_by("get", ())


def gets_done(s: Sense) -> bool:
    """ "Get the elm repotted", but "get the elm": a thing is had done only where what is done to it stands behind."""
    that_is = s.kind == "AUX" and " ".join(s.texts[s.at : s.token.end]) in s.lexicon.sense["having_now"]
    if s.kind != "AUX" or not (that_is or (s.alone and (s.token.value == "get" or s.is_one_of("having_done")))):
        return False
    done = any(t.kind == "VED" and not t.guesses for at in _behind_thing(s, s.token.end) for t in s.lattice[at])
    if that_is:  # "that is the elm repotted"
        return not done
    return not done if s.token.value == "get" else done


def had_done(s: Sense) -> bool:
    """ "Get the left branch wired", "I got the top wired": what was or is to be done, and no state of the thing."""
    if s.kind not in ("STATE", "FINDING") or not any(t.kind == "VED" and not t.guesses for t in s.lattice[s.at]):
        return False
    sense = s.lexicon.sense
    for first in range(max(0, s.at - _THING_REACH), s.at):
        gets = s.texts[first] in sense["having_done"] or " ".join(s.texts[first - 1 : first + 1]) in sense["having_now"]
        got = s.texts[first] in sense["had_done"] and (first == 0 or s.texts[first - 1] in sense["people"])
        if (gets or got) and s.at in _behind_thing(s, first + 1):
            return True
    return False


def _behind_thing(s: Sense, start: int) -> set[int]:
    """Where a thing that begins at `start` may end within the statement."""
    ends = {start}
    for kinds in (_LEADING, _LEADING, _LEADING, _WORKED_ON):
        more = {t.end for at in ends if at < len(s.texts) for t in s.lattice[at] if t.kind in kinds and not t.guesses}
        ends = more if kinds is _WORKED_ON else ends | more
    return {end for end in ends if end < len(s.texts)}


def habitual(s: Sense) -> bool:
    """ "I always cut it in March", "before they turn": a habit tells of no one time, and trees do no work."""
    if s.kind not in VERBS | {"EVENT"} or s.at == 0:
        return False
    before, sense = s.texts[: s.at], s.lexicon.sense
    habit = len(before) > 1 and before[-1] in sense["habits"] and before[-2] in sense["people"]
    return habit or (s.kind == "V" and before[-1] in sense["doers"] and not s.may_be("VED"))


def somebody_did(s: Sense) -> bool:
    """ "I packed it in moss": right behind who does it stands what is done, and no state."""
    return s.kind == "STATE" and s.alone and s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["people"]


def put_there(s: Sense) -> bool:
    """ "Put a guy on it": behind a verb the thing is put there, and not seen to be there."""
    last = s.texts[s.at : s.token.end][-2:]
    told = last == ["on", "it"] or (last[-1] == "on" and any(t.kind == "PRON" for t in s.next))
    if s.kind != "FINDING" or s.alone or not told:
        return False
    first = s.at - 1 if s.behind("DET") else s.at
    return first > 0 and any(t.kind in VERBS and t.end == first for t in s.lattice[first - 1])


def looked_at(s: Sense) -> bool:
    """ "Saw the wire biting": what was seen, where no word tells that it was cut away."""
    if s.kind not in ("V", "VED") or not s.is_one_of("sighting") or not s.alone or not (s.opening or s.behind("AUX")):
        return False
    ends = next((n for n in range(s.at, len(s.texts)) if s.texts[n] in JOINERS | STOPS), len(s.texts))
    if set(s.texts[s.at : ends]) & set(s.lexicon.sense["cut_away"]):
        return False
    seen = [t for n in range(s.at + 1, ends) for t in s.lattice[n] if t.kind in ("FINDING", "STATE") and not t.guesses]
    parts = [t for n in range(s.at + 1, ends) for t in s.lattice[n] if t.kind == "PART"]
    healed = any(t.value in s.lexicon.sense["only_seen"] for t in parts)  # nobody saws a scar
    return healed or any(t.kind == "FINDING" or t.end == ends or s.texts[t.first].endswith("ing") for t in seen)


def open_end(s: Sense) -> bool:
    """ "Gave it a bit of a spray": a verb that ends in "a bit" is not whole before "of"."""
    return (
        s.kind in VERBS and not s.alone and s.after == "of" and s.texts[s.token.end - 1] in s.lexicon.sense["amounts"]
    )


def taken_out(s: Sense) -> bool:
    """ "Take the candles out": behind a verb "out" and "off" belong to it."""
    if s.kind != "STATE" or s.alone or s.texts[s.token.end - 1] not in s.lexicon.sense["after_verb"]:
        return False
    for first in range(max(0, s.at - 3), s.at):
        tokens = [t for t in s.lattice[first] if not t.guesses and t.end in (s.at, s.at - 1)]
        if any(t.kind in VERBS for t in tokens) and not any(t.kind == "AUX" for t in tokens):
            return True
    return False


def named_next(s: Sense) -> bool:
    """ "Wired Ratchet", "leaf cut Ratchet", "hard prune the elm": what opens a sentence so was done to it."""
    if s.kind not in _THINGS or not s.may_be("V", "VED") or not s.opening:
        return False
    if s.kind == "STATE" and any(t.kind in _PLACES and not t.guesses for t in s.next) and _with_a_size(s):
        return True
    return any(t.kind == "NAME" or (t.kind == "DET" and s.kind == "EVENT") for t in s.next)


def _with_a_size(s: Sense) -> bool:
    """ "Wired first left with 3", "shortened top by a third": an amount in the same breath, and no "is"."""
    end = next((n for n in range(s.token.end, len(s.texts)) if s.texts[n] in STOPS | {",", "and"}), len(s.texts))
    if any(helpers(s.lattice[n], n + 1) & {"be", "have"} for n in range(s.token.end, end)):
        return False
    return any(t.kind in ("WITH", "MEASURE") and not t.guesses for n in range(s.token.end, end) for t in s.lattice[n])


def brought_in(s: Sense) -> bool:
    """ "Brought in the ficus": nothing is brought inside a tree, so the "in" is the verb's."""
    if s.kind != "AT" or s.word != "in" or not s.alone or not s.behind(*VERBS):
        return False
    before = [t.value for n in range(s.at) for t in s.lattice[n] if t.end == s.at and t.kind in VERBS]
    tree = s.token.end + any(t.kind == "DET" for t in s.next)
    named = tree < len(s.lattice) and any(t.kind in ("SPECIES", "NAME") and not t.guesses for t in s.lattice[tree])
    return named and any(value in s.lexicon.sense["bringing"] for value in before)


def does_a_part(s: Sense) -> bool:
    """ "I'll do half the roots in March", "going to do the roots": "do" is the verb there, not a helper of one."""
    if s.kind != "AUX" or s.token.value != "do" or not s.alone or not s.helped_by("will", ("i",)):
        return False
    for at in range(s.token.end, min(s.token.end + _DOES, len(s.texts))):
        for token in s.lattice[at]:
            if token.kind == "PART" and f"{s.word}||{token.value}|" in s.lexicon.patterns:
                return True
    return False


def tilted(s: Sense) -> bool:
    """ "Tilt it fifteen degrees": by an angle a tree is set, and no pot is drained."""
    if s.kind not in VERBS or not s.is_one_of("tilting"):
        return False
    return any(t.kind == "MEASURE" and t.value.bare == "degree" for n in s.lattice[s.token.end :] for t in n)
