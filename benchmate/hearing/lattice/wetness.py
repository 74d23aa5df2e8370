"""Wet words that tell of no rain: what something drips with, and how it is once it is wet."""

from __future__ import annotations

from .opening import STOPS
from .sense import Sense


def drips(s: Sense) -> bool:
    """ "It's dripping white sap", "how heavy is it when it's wet": no rain, where a thing is wet, or would be."""
    if s.kind != "WEATHER":
        return False
    before = [word for word in s.texts[max(0, s.at - 2) : s.at] if word != "the"]
    if s.alone and before[-1:] == ["with"] and s.is_one_of("waters"):
        return True  # "I water it with the rain from the barrel"
    if not s.is_one_of("wet_things") or s.alone:
        return False
    if s.texts[s.token.end - 1] in s.lexicon.sense["drips"] and s.after and s.after not in STOPS:
        known = any(token.kind not in ("PART", "FINDING") and not token.guesses for token in s.next)
        return not known or s.after in s.lexicon.sense["drip_colours"]
    supposed = s.at > 0 and s.texts[s.at - 1] in s.lexicon.sense["once"]
    return supposed and any(word in s.lexicon.sense["measured_by"] for word in s.texts[: s.at])
