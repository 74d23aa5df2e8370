"""What words cannot be by the rest of their clause: "the pomegranate flowers now", "what does the cedar need?"."""

from __future__ import annotations

from .opening import JOINERS, STOPS, opens
from .sense import Sense

_TREES = frozenset({"SPECIES", "NAME", "TREEWORD", "PRON"})
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
            return not s.after or s.after in _BREAKS - {"and"} or any(t.kind in ("DATE", "MANNER") for t in s.next)
    return False


def ripens(s: Sense) -> bool:
    """ "The flush will harden off in July": growth hardens by itself, trees are hardened off."""
    if s.kind != "V" or not s.is_one_of("ripening"):
        return False
    start = max((n + 1 for n in range(s.at) if s.texts[n] in _BREAKS), default=0)
    mine = any(word in s.lexicon.sense["people"] for word in s.texts[start : s.at])
    return not mine and any(t.kind in ("FLUSH", "PART") for at in range(start, s.at) for t in s.lattice[at])


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


def needs_what(s: Sense) -> bool:
    """ "What does the cedar need now?" asks for advice, "what does ramify mean?" for a meaning."""
    if s.kind not in ("QADVICE", "QMEANING") or not s.is_one_of("needing_what") or s.token.end != s.at + 2:
        return False
    if s.kind == "QADVICE" and s.texts[s.at + 1] not in ("does", "do", "will", "would"):
        return False
    words = s.texts[s.token.end :]
    end = next((n for n, word in enumerate(words) if word in _BREAKS), len(words))
    wanted = any(word in s.lexicon.sense["needs_it"] for word in words[1:end])
    return wanted == (s.kind == "QMEANING")
