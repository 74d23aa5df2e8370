"""Sizes that point back: "keep the thinner one" behind two leaders that were measured, "it's about 7 mm thick" behind
one branch that was spoken of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Reading, Spot
from benchmate.talk.asked.same_asked import NO_PLACE
from benchmate.talk.context import spots_of
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_CANDIDATE = "candidate"
_OF_A_BRANCH = frozenset({"diameter_mm", "length_mm"})


def by_size(short: Short, talk: Context) -> Reading | None:
    """The work at the place of the one that is thinner, longer and so on of those measured in this talk; a question
    where they were not. None where the words compare nothing, or name no work."""
    sense = short.lexicon.sense["by_size"]
    at = next((n for n, text in enumerate(short.texts) if text in sense["more"] or text in sense["less"]), None)
    if not at or short.texts[at - 1] != "the" or short.heard.acts not in (("decide",), ("ask",), ()):
        return None
    if any(work.spot.side or work.spot.level or work.spot.ordinal for work in short.heard.work):
        return None  # "the thicker branch on the left"
    text, behind = short.texts[at], short.texts[at + 1 : at + 2]
    name = str((sense["more"] | sense["less"])[text])
    spot = _measured(talk, name, most=text in sense["more"])
    placed = " ".join(filter(None, [spot.level, spot.side])) if spot else sense["any_side"]
    named = not behind or behind[0] in (",", ".", "?", "!", "then", "please")
    words = f"{short.between(0, at)} {placed}{' one' if named else ''} {short.between(at + 1, len(short.parts))}"
    heard = short.hear(" ".join(words.split()))
    if len(heard.work) != 1 or not heard.work[0].work or not heard.work[0].spot.side:
        return None
    work = replace(heard.work[0], span=(0, 0))
    if spot is None and not (named or behind == ["one"]):
        return None  # "cut the thinner twigs"
    if spot is None:
        return replace(heard, said=short.said, work=(replace(work, spot=Spot(work.spot.part)),), refers=(NO_PLACE,))
    return replace(heard, said=short.said, work=(work,))


def _measured(talk: Context, name: str, *, most: bool) -> Spot | None:
    """The place of the one that measures most, or least, of two or more of the same statement."""
    told = [fact for fact in talk.facts if fact.kind == _CANDIDATE and name in fact.measures and fact.spot.side]
    sizes = {fact.spot: fact.measures[name] for fact in reversed(told)}
    if len(sizes) < 2 or len(set(sizes.values())) < len(sizes):
        return None
    return (max if most else min)(sizes, key=lambda spot: sizes[spot])


def size_of_it(short: Short, talk: Context) -> Reading | None:
    """ "It's about 7 mm thick", behind one branch that was spoken of: the size is that branch's, and not the tree's."""
    last, heard = talk.amends or talk.reading, short.heard
    beside = heard.facts or heard.work or heard.candidates or heard.tree or heard.figure or heard.several
    if last is None or heard.acts != ("observe",) or beside or not heard.measures or last.several:
        return None
    if "it" not in short.texts[:2] or set(heard.measures) - _OF_A_BRANCH:
        return None
    spots = [spot for spot in spots_of(last) if spot.part and (spot.side or spot.level or spot.ordinal)]
    if len(spots) != 1 or (spots[0].count or 1) > 1:
        return None
    seen = Fact(_CANDIDATE, "one", spots[0], heard.measures, span=(0, len(short.said)))
    return replace(heard, measures={}, candidates=(seen,), refers=())
