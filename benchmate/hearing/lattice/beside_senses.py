"""What words are not beside others that tell of another thing: "lime in the tap water", "we leave tomorrow", "6 am"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from .opening import JOINERS, STOPS
from .sense import VERBS, Sense

if TYPE_CHECKING:
    from .spotting import Token

_BREAKS = STOPS | JOINERS
_LONGEST = 4  # words of the longest phrase that is looked for right beside a word
_DAY = 10  # characters of a day as ISO
_THINGS = frozenset({"PRON", "DET", "PART", "SPECIES", "NAME", "TREEWORD", "ONE", "SIDE", "LEVEL", "FINDING"})
_GROWING = frozenset({"leaf", "needle", "crown"})


def otherwise(s: Sense) -> bool:
    """ "Lime in the tap water" is no tree, "half way through" no share: rules/words lists the words, what they are not,
    and what stands before, behind or anywhere in the same breath."""
    said = " ".join(s.texts[s.at : s.token.end])
    for one in s.lexicon.sense["otherwise"].get(said, ()):
        if s.kind not in one["kinds"]:
            continue
        left = {" ".join(s.texts[max(0, s.at - n) : s.at]) for n in range(1, _LONGEST)}
        right = {" ".join(s.texts[s.token.end : s.token.end + n]) for n in range(1, _LONGEST)}
        near = left.intersection(one.get("after", ())) or right.intersection(one.get("before", ()))
        if near or _breath(s).intersection(one.get("beside", ())):
            return True
    return False


def _breath(s: Sense) -> set[str]:
    """The words between the two breaks around it, itself aside."""
    start = next((n for n in range(s.at, 0, -1) if s.texts[n - 1] in _BREAKS), 0)
    end = next((n for n in range(s.token.end, len(s.texts)) if s.texts[n] in _BREAKS), len(s.texts))
    return {*s.texts[start : s.at], *s.texts[s.token.end : end]}


def people_go(s: Sense) -> bool:
    """ "I'm going away", "we leave tomorrow for a week", "leaving on Friday": where people go, nothing is taken off the
    tree and nothing is left as it is."""
    away = s.lexicon.sense["absent"]
    if s.kind not in VERBS or not s.alone or s.token.value not in away["verbs"]:
        return False
    person = s.helped_by("i") or (s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["people"])
    if s.token.value in away["moving"]:
        return (person or s.opening) and any(t.kind == "PARTICLE" for t in s.next)
    if not person and s.kind != "VING":
        return False
    if s.after in away["to"]:  # "we leave for Spain", but "leave for now"
        behind = s.texts[s.token.end + 1 : s.token.end + 3]
        timed = any(t.kind in ("DATE", "MEASURE") for t in _row(s, s.token.end + 1))
        return bool(behind) and not timed and not set(behind) & set(away["for_now"])
    if s.after in away["then"]:
        return True
    day = any(t.kind == "DATE" and len(t.value.future or "") == _DAY for t in s.next)
    return day and not any(t.kind in _THINGS and t.end > s.token.end + 1 for t in s.next)


def by_its_article(s: Sense) -> bool:
    """ "Straight off the top", "the wire": behind "the" stands a thing, and no verb that begins a clause."""
    if s.kind != "V" or not s.alone or s.at < 2 or s.texts[s.at - 1] != "the" or not s.may_be("LEVEL", "PART"):
        return False
    led = s.lattice[s.at - 2]
    return s.texts[s.at - 2] in s.lexicon.sense["leads_to_thing"] or any(t.kind in ("AT", "OF", "FROM") for t in led)


def leaves_turn(s: Sense) -> bool:
    """ "When do the beech leaves turn": leaves do so by themselves, and nobody turns the tree."""
    if s.kind not in {*VERBS, "STATE"} or not s.alone or not s.is_one_of("turning"):
        return False
    if s.kind == "STATE" and s.token.value != "turn":
        return False
    asked = any(t.kind.startswith("Q") for tokens in s.lattice[: s.at] for t in tokens)
    before = s.lattice[s.at - 1] if s.at else ()
    growing = any(t.kind == "PART" and t.value in _GROWING and t.end == s.at for t in before)
    own = growing and not set(s.texts[: s.at]) & set(s.lexicon.sense["people"])
    return not (own and asked) if s.kind == "STATE" else own


def of_the_clock(s: Sense) -> bool:
    """ "At 6 am", "7 o'clock": the hour is no number of anything."""
    if s.kind not in ("NUM", "MEASURE", "SHARE"):
        return False
    hours = s.lexicon.sense["hours"]
    behind = (" ".join(s.texts[s.token.end : s.token.end + n]) for n in (1, 2, 3))
    return any(words in hours for words in behind) and s.texts[s.token.end - 1].isalnum()


def of_a_bend(s: Sense) -> bool:
    """ "To a radius of 50 mm": a length that is no thickness of what is bent."""
    if s.kind not in ("MEASURE", "NUM") or not s.at:
        return False
    curve = s.lexicon.sense["curves"]
    return s.after in curve or s.texts[s.at - 1] in curve or (s.texts[s.at - 1] == "of" and s.texts[s.at - 2] in curve)


def up_to_size(s: Sense) -> bool:
    """ "Weak ones below 10": at the end of its breath a number behind "below" counts nothing."""
    if s.kind != "NUM" or not s.at or not s.word.isdigit() or s.texts[s.at - 1] not in s.lexicon.sense["up_to"]:
        return False
    sized = any(t.kind in ("ONE", "PART", "FINDING") and t.end == s.at - 1 for n in (2, 3) for t in _row(s, s.at - n))
    return sized and (not s.after or s.after in _BREAKS)


def _row(s: Sense, at: int) -> Sequence[Token]:
    """What may begin at a place."""
    return s.lattice[at] if 0 <= at < len(s.lattice) else ()


def holds_off(s: Sense) -> bool:
    """ "Hold off on leaf cutting" refuses the work behind it; "holding off on the elm" only waits."""
    if s.kind != "AUX" or s.token.value != "not" or s.texts[s.token.end - 1] not in s.lexicon.sense["off_on"]:
        return False
    ends = {s.token.end, *(t.end for t in s.next if t.kind == "DET")}
    rows = [s.lattice[end] for end in ends if end < len(s.texts)]
    return not any(t.kind in ("VING", "EVENT") and not t.guesses for row in rows for t in row)


def places_left(s: Sense) -> bool:
    """ "Taper at the base where four branches were": what is gone is not counted."""
    if s.kind != "NUM" or not s.at or s.texts[s.at - 1] != "where":
        return False
    end = next((n for n in range(s.at, len(s.texts)) if s.texts[n] in _BREAKS), len(s.texts))
    return s.texts[end - 1] in s.lexicon.sense["past"]


def questioned_warmth(s: Sense) -> bool:
    """ "Is it hot enough to defoliate": whether it is, is asked, and nobody tells of heat."""
    head = next((word for word in s.texts if word not in s.lexicon.sense["openers"]), "")
    return s.kind == "WEATHER" and s.after in s.lexicon.sense["fit_for"] and head in s.lexicon.sense["judges"]
