"""What words of the talk cannot be beside their neighbours: "oh no, it's dried out" sets nothing right."""

from __future__ import annotations

from .opening import JOINERS, STOPS, is_filler
from .sense import VERBS, Sense

_THINGS = frozenset({"PART", "FINDING", "FLUSH"})
_NAMED = _THINGS | {"DET", "PRON"}


def clipped(s: Sense) -> bool:
    """ "So that's the one I keep": a clipped verb opens no question; "how long's the" does not ask since when."""
    if s.kind[0] != "Q" or s.kind == "QMEANING":
        return False
    ends = s.texts[s.token.end - 1]
    return s.word == "'s" or (s.kind == "QRECALL" and s.word == "how" and ends == "'s")


def exclaimed(s: Sense) -> bool:
    """ "Oh no, it's dried out" sets nothing right and denies nothing."""
    sense = s.lexicon.sense
    at = next((n for n in range(s.at, s.token.end) if s.texts[n] in sense["refusals"]), None)
    if s.kind not in ("CORRECT", "AUX") or not at or s.texts[at - 1] not in sense["exclaiming"]:
        return False
    behind = [text for text in s.texts[at + 1 :] if text != ","][:2]
    return bool(behind) and behind[0] in sense["reasons"] and not any(text in sense["past"] for text in behind)


def as_wished(s: Sense) -> bool:
    """ "Smaller leaves, which is what I wanted" sets nothing right."""
    return s.kind == "CORRECT" and s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["as_wished"]


def rues(s: Sense) -> bool:
    """ "It's bone dry, oops": nothing comes behind that would set it right."""
    if s.kind != "CORRECT" or not s.is_one_of("ruing") or s.opening:
        return False
    behind = [text for text in s.texts[s.token.end :] if text not in STOPS | {","}]
    worked = any(t.kind in VERBS and not t.guesses for tokens in s.lattice[: s.at] for t in tokens)
    works = any(t.kind in VERBS and not t.guesses for at in range(s.token.end, len(s.texts)) for t in s.lattice[at])
    return not behind or (works and not worked)  # "it's dry, oops, watering it now"


def asks_back(s: Sense) -> bool:
    """ "Left is weak, right is strong": what asks behind a statement stands at its end."""
    asks = s.kind == "SEP" and s.token.value == "asked" and s.word == ","
    return asks and bool(s.after) and s.after not in STOPS | JOINERS


def tags(s: Sense) -> bool:
    """ "It doesn't need water, does it?": what asks at the end, behind a denial or a pause; not "how thick is it"."""
    if s.kind != "SEP" or s.token.value != "asked" or s.texts[s.token.end - 1] not in s.lexicon.sense["tagged"]:
        return False
    if s.token.end != s.at + (3 if s.word == "," else 2):  # "is it too late" is no tag
        return False
    denied = any(t.kind == "AUX" and t.value == "not" for tokens in s.lattice[: s.at] for t in tokens)
    asked = s.at == 0 or any(t.kind[0] == "Q" and t.kind != "QUIT" for t in s.lattice[0])
    return asked or (bool(s.after) and s.after not in STOPS) or not (denied or s.word == ",")


def no_tail(s: Sense) -> bool:
    """Whether words that ask at the end stand elsewhere: opening it, before more of the sentence, behind no work."""
    if s.kind != "SEP" or s.token.value != "tail":
        return False
    end = next((n for n in range(s.token.end, len(s.texts)) if s.texts[n] in STOPS), len(s.texts))
    rest = s.texts[s.token.end : end]
    works = any(
        t.kind in (*VERBS, "EVENT", "PARTICLE", "OFF") and not t.guesses for tokens in s.lattice[: s.at] for t in tokens
    )
    return s.opening or not works or bool(rest and not is_filler(s.lexicon.filler, rest))


def no_question(s: Sense) -> bool:
    """ "Did the repot in March" tells; "should I jin it or remove it" takes nothing back."""
    if s.kind[0] == "Q" and " ".join(s.texts[s.at : s.token.end]) in s.lexicon.sense["asks_first"]:
        return not s.opening and s.texts[s.at - 1] not in JOINERS | STOPS  # "leave anything else"
    if s.kind == "STRIKE" and (_strikes_nothing(s) or s.texts[s.token.end : s.token.end + 1] == ["or"]):
        return True  # "rub it off or leave it on"
    if s.kind == "STRIKE":
        return s.at > 0 and any(t.kind == "SEP" and t.value == "or" and t.end == s.at for t in s.lattice[s.at - 1])
    if s.kind != "QRECALL" or s.texts[s.at : s.token.end] != ["did", "the"] or s.texts[-1] == "?":
        return False
    return any(t.kind == "EVENT" and not t.guesses for t in s.next)


def _strikes_nothing(s: Sense) -> bool:
    """ "Scrap that branch", "strike it off the list", "new bud, rub it off?": only a whole statement takes back what
    was logged, and none that does away with a thing of the tree."""
    sense, last = s.lexicon.sense, s.texts[s.token.end - 1]
    pointed = last in sense["pointers"] and any(t.kind in _THINGS and not t.guesses for t in s.next)
    bare = s.alone and s.is_one_of("does_away") and any(t.kind in _NAMED and not t.guesses for t in s.next)
    behind = s.texts[s.token.end - (last in sense["strikes_from"]) : s.token.end + 2]  # "off the"
    off = len(behind) > 1 and behind[0] in sense["strikes_from"] and behind[1] in (*sense["pointers"], "my", "your")
    if pointed or bare or off:
        return True
    passed = {*sense["openers"], *sense["refusals"], *sense["sorry"], *sense["exclaiming"], *STOPS, ","}
    if all(text in passed for text in s.texts[: s.at]) or not s.is_one_of("does_away"):
        return False
    things = any(t.kind in _THINGS and not t.guesses for tokens in s.lattice[: s.at] for t in tokens)
    worked = any(t.kind in VERBS and not t.guesses for tokens in s.lattice[: s.at] for t in tokens)
    asked = "?" in s.texts[s.token.end :]
    return things and (asked or not worked or last in sense["strikes_from"])


def either_verb(s: Sense) -> bool:
    """ "Larch bare in May, wire or prune": what may be a verb is one beside the other verb of a choice."""
    if s.kind != "PART" or s.after != "or" or not s.may_be("V") or s.token.end + 1 >= len(s.texts):
        return False
    begins = s.at == 0 or s.texts[s.at - 1] in STOPS | {","}
    other = {t.kind for t in s.lattice[s.token.end + 1] if not t.guesses}
    return begins and "V" in other and "PART" not in other  # "wire or guy" names two things


def tells_about(s: Sense) -> bool:
    """ "Tell me about this one" asks what is known, where no day is named to be told on."""
    if s.kind not in ("REMIND", "QWHY", "QRECALLALL"):
        return False
    if " ".join(s.texts[s.at : s.token.end]) not in s.lexicon.sense["telling"]:
        return False
    dated = any(t.kind == "DATE" for tokens in s.lattice[s.token.end :] for t in tokens)
    return dated == (s.kind != "REMIND")
