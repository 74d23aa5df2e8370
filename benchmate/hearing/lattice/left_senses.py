"""What "left" cannot be before an amount: "shortened the shoots, left two leaves on each" left them standing."""

from __future__ import annotations

from .opening import JOINERS, STOPS
from .sense import VERBS, Sense, helpers

_STATED = frozenset({"STATE", "FINDING"})

_FAR = 4  # words between growth and where it grows from


def left_standing(s: Sense) -> bool:
    """ "Shortened it, left two leaves on each": before an amount of which nothing is said, "left" is no side."""
    if s.kind != "SIDE" or not s.alone or not s.is_one_of("remains") or not _told(s):
        return False
    behind = [" ".join(s.texts[t.end : t.end + 2]) for t in s.next if t.kind == "NUM" and not t.guesses]
    each = any(words in s.lexicon.sense["left_each"] for words in behind)  # "left three on each"
    return each or any(not _said_of_it(s, end) for end in _behind_amount(s))


def left_it(s: Sense) -> bool:
    """ "Cut it flush and left it rough": behind "and", what was left follows; a side is "on the left"."""
    if s.kind != "SIDE" or not s.alone or not s.is_one_of("remains") or s.after not in s.lexicon.sense["worked_on"]:
        return False
    return s.opening or s.texts[s.at - 1] in JOINERS | {","} or s.helped_by("i", ("have",))


def _told(s: Sense) -> bool:
    """Whether a new clause begins here, of which the grower or a verb before tells who left what."""
    if s.opening or s.helped_by("i", ("have",)):
        return True
    breath = s.texts[s.at - 1] in JOINERS | STOPS
    return breath and any(t.kind in VERBS and not t.guesses for tokens in s.lattice[: s.at] for t in tokens)


def _behind_amount(s: Sense) -> set[int]:
    """Where an amount of leaves or buds ends that begins right behind."""
    counted = {t.end for t in s.next if t.kind == "NUM" and t.end < len(s.texts) and not t.guesses}
    ends = {t.end for at in counted for t in s.lattice[at] if t.kind == "PART" and t.value in s.lexicon.amount}
    for at in sorted(ends):  # "two pairs of leaves"
        of = at < len(s.texts) and any(t.kind == "OF" and t.end == at + 1 for t in s.lattice[at])
        if of and at + 1 < len(s.texts):
            ends |= {t.end for t in s.lattice[at + 1] if t.kind == "PART" and not t.guesses}
    return ends


def _said_of_it(s: Sense, end: int) -> bool:
    """Whether the thing is what something is said of ("left two leaves are yellow")."""
    if end == len(s.texts):
        return False
    of_it = any(t.kind in _STATED and not t.guesses for t in s.lattice[end]) and s.texts[end] != "on"
    return of_it or bool({"be", "have"} & helpers(s.lattice[end], end + 1))


def grows_off(s: Sense) -> bool:
    """ "Water shoots off the old cut", "a strong shoot off the third branch": where it grows from, and nothing that was
    taken off."""
    if s.kind not in ("OFF", "PARTICLE", "FROM") or s.word != "off" or not s.alone:
        return False
    return _grows_off(s) == (s.kind != "FROM")


def _grows_off(s: Sense) -> bool:
    """Whether what stands before "off" grows from what stands behind it."""
    ends = [t for tokens in s.lattice[max(0, s.at - 3) : s.at] for t in tokens if t.end == s.at and not t.guesses]
    if any(t.value in s.lexicon.sense["sprouting"] for t in ends):
        return True  # "budding off the trunk"
    if (
        set(s.texts[max(0, s.at - _FAR) : s.at]) & set(s.lexicon.sense["growing_from"])
        and s.after in s.lexicon.sense["pointers"]
    ):
        return True  # "growing straight up off the branches"
    things = [t.first for t in ends if t.kind in ("PART", "FINDING")]
    if not things:
        return False
    before = s.lattice[: min(things)]
    if any(t.kind in (*VERBS, "AUX", "HARM") for tokens in before for t in tokens):
        return False
    from_cut = any(t.kind == "PART" and t.value == "wound" for n in s.lattice[s.token.end : s.token.end + 4] for t in n)
    indefinite = s.texts[0] in ("a", "an") or s.texts[0] in s.lexicon.sense["one_more"]
    return from_cut or (indefinite and any(t.kind == "DET" for t in s.next))
