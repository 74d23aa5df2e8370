"""Where a box is what a tree stands in, and where it is a Buxus."""

from __future__ import annotations

from .sense import Sense


def boxed(s: Sense) -> bool:
    """ "Put it in a box", "in a wooden box": where a tree is put into it, a box is no Buxus; elsewhere it is no pot."""
    sense = s.lexicon.sense
    last = s.token.end - 1
    if s.kind not in ("SPECIES", "PART") or s.texts[last] not in sense["containers"]:
        return False
    crate = any(t.kind == "PART" and t.end == s.token.end and t.end > t.first + 1 for t in s.lattice[s.at])
    crate = crate or s.behind("MEASURE")  # "a 30 cm box"
    first = s.at - (s.texts[s.at - 1] in sense["owners"] or s.behind("DET")) if s.at else 0
    into = crate or (0 < first < s.at and s.texts[first - 1] in sense["into"] and s.token.end == s.at + 1)
    if into and s.texts[s.at - 1] == "the" and s.texts[first - 1] in sense["at_it"] and not crate:
        into = False  # "scale in the box"
    into = into or _holds_the_tree(s)
    return into if s.kind == "SPECIES" else s.token.end == s.at + 1 and not into


def _holds_the_tree(s: Sense) -> bool:
    """ "In the big box", "leave it in the box", "out of the box": a box with a size, or one that a tree comes out of or
    stands in."""
    sense, at = s.lexicon.sense, s.at
    while at and s.texts[at - 1] in (*sense["sizes"], *sense["crated"]):
        at -= 1
    sized = at < s.at
    at -= bool(at) and s.texts[at - 1] in (*sense["owners"], *sense["those"])
    if at < 2 or s.texts[at - 1] not in sense["into"]:
        return False
    return sized or s.texts[at - 2 : at] == ["out", "of"] or s.texts[at - 2] in sense["held"]
