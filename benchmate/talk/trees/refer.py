"""Words that point back: "that one", "the other", "same again on the right", "do that", "and the back one?", "bend it".

What they point at is looked for in what was said and offered last. Where two things fit, the grower is asked. Where
nothing was said that could be meant, the statement stands as it was said.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.practice.advice import GO, Advice, Ask
from benchmate.talk.asked.same_asked import NO_PLACE
from benchmate.talk.context import Context, spots_of
from benchmate.talk.corrected.amended import IT, OTHER, SAME, moved, opposite
from benchmate.talk.told.did_that import NO_WORK
from benchmate.telling.wording import list_words, spot_words
from benchmate.value import dataclass, replace

_POINTING = r"\b(?:that|this|the same) (?:one|branch|shoot|leader|limb|twig)\b"
_MANY = ("branch", "side-branch", "shoot", "twig", "stub", "spur", "bud", "leaf", "needle", "candle", "flower", "fruit")
_SINGLE = ("branch", "side-branch", "shoot", "twig", "leader", "apex", "stub", "spur", None)


@dataclass(frozen=True, slots=True)
class Resolved:
    """reading: the statement with what it points at filled in. ask: the question where that is not clear."""

    reading: Reading
    ask: Ask | None = None


@dataclass(frozen=True, slots=True)
class Pointing:
    """What the talk lends to pointing words. last: the statement before. offered: options on offer. placed: whether a
    work is done at a place that it does not name itself; somewhere: whether it is done at a place at all. own_part: the
    part that a finding names by itself."""

    last: Reading | None
    offered: Advice | None
    placed: Callable[[str], bool]
    own_part: Callable[[str], str | None]
    somewhere: Callable[[str], bool] = lambda work: False

    @property
    def spots(self) -> list[Spot]:
        """Places spoken of last, each once; else those of the options on offer."""
        found = spots_of(self.last)
        if not found and self.offered:
            found = [option.spot for option in self.offered.options if option.spot != NOWHERE]
        return list(dict.fromkeys(found))

    @property
    def part(self) -> str | None:
        """The one part that the statement before was about, or None where it was about none or several."""
        if self.last is None:
            return None
        parts = {spot.part for spot in spots_of(self.last)}
        parts |= {
            fact.spot.part or self.own_part(str(fact.value)) for fact in self.last.facts if fact.kind == "finding"
        }
        parts.discard(None)
        return parts.pop() if len(parts) == 1 else None


def pointing_of(talk: Context, places: Mapping[str, Any]) -> Pointing:
    """What the talk lends. places: the table of rules/practice/places.toml."""
    whole = places.get("whole_tree_works", ())
    own = {**places.get("work_part", {}), **dict.fromkeys(whole, "tree")}
    own_part = places.get("finding_part", {})
    return Pointing(
        talk.reading,
        talk.advice,
        lambda work: work not in own,
        lambda finding: own_part.get(finding),
        lambda work: work not in whole,
    )


def resolve(reading: Reading, talk: Pointing) -> Resolved:
    """The statement with its pointing words filled in from the talk."""
    if NO_WORK in reading.refers:
        return Resolved(reading, Ask("work", "Which work was done? Say it whole, as in: wired the left branch."))
    if NO_PLACE in reading.refers:
        return Resolved(reading, Ask("part", "Which one is that? Name its side or count it, as in: the second branch."))
    if SAME in reading.refers or _unnamed_question(reading) or _place_alone(reading):
        return _same_again(reading, talk)
    if OTHER in reading.refers or _points(reading):
        return _pointed(reading, talk)
    return Resolved(_with_part(_with_them(_with_it(reading, talk), talk), talk))


def _unnamed_question(reading: Reading) -> bool:
    """ "And the back one?": a question about a place, with no work of its own."""
    return "ask" in reading.acts and reading.topic == "may" and any(work.work is None for work in reading.work)


def _place_alone(reading: Reading) -> bool:
    """ "The right one too": a place, and nothing that is done there."""
    too = bool(re.search(r"\b(?:too|also|as well)\W*$", reading.said, re.IGNORECASE))
    return too and reading.acts == ("decide",) and all(work.work is None for work in reading.work)


def _points(reading: Reading) -> bool:
    return any(work.spot.side is None and _words_point(_words(reading, work)) for work in reading.work)


def _words(reading: Reading, work: Work) -> str:
    return reading.said[work.span[0] : work.span[1]]


def _same_again(reading: Reading, talk: Pointing) -> Resolved:
    """The last work again, at the place that is named now if one is."""
    works = [work for work in talk.last.work if work.work] if talk.last else []
    if not works and talk.offered:
        good = [
            option for option in talk.offered.options if option.verdict == GO and option.work not in ("leave", "wait")
        ]
        works = [Work(good[0].work, good[0].spot)] if len(good) == 1 else []
    named = [work for work in reading.work if work.work]
    if named:
        works = named[:1]
    if len(works) > 1 and len({work.work for work in works}) == 1:
        return Resolved(reading, _which([work.spot for work in works]))  # the same work, at one place or the other
    if len(works) != 1:
        names = list_words([work.work.replace("-", " ") for work in works if work.work], "or")
        return Resolved(reading, Ask("work", f"Which work is meant: {names}?" if names else "Which work is meant?"))
    (before,) = works
    bare = [work for work in reading.work if work.work is None]
    spot = next((work.spot for work in bare if work.spot != NOWHERE), NOWHERE)
    if OTHER in reading.refers:
        other, ask = _the_other(talk.spots)
        if other is None:
            return Resolved(reading, ask)
        spot = other
    measures = dict(before.measures) | (dict(bare[0].measures) if bare else {})
    asks = "ask" in reading.acts
    again = bool(bare) and OTHER not in reading.refers and not (spot.side or spot.level or spot.ordinal or spot.count)
    if again and not asks and before.spot != NOWHERE and (reading.missed or _words_point(reading.said)):
        return Resolved(reading, _which([]))  # "same with that one", where no further one was spoken of
    done = "done" if bare and bare[0].done == "done" else "now"
    work = Work(before.work, moved(before.spot, spot), measures, None if asks else done, before.manner)
    return Resolved(replace(reading, work=(*named, work)))


def _pointed(reading: Reading, talk: Pointing) -> Resolved:
    """ "That one" is the one spoken of; "the other" is its opposite, or the second of two: of what this very statement
    named just before it ("kept the left one and took the other off"), else of what was spoken of last."""
    fits = talk.spots
    if not fits and not any(work.spot.side or work.spot.level for work in reading.work):
        return Resolved(reading)
    works = list(reading.work)
    bare = [n for n, work in enumerate(works) if not (work.spot.side or work.spot.level or work.spot.ordinal)]
    pointing = [n for n in bare if _words_point(_words(reading, works[n]))]
    others = [n for n in bare if OTHER in reading.refers and n not in pointing]
    if pointing and len(fits) > 1:
        return Resolved(reading, _which(fits))
    for number in pointing:
        works[number] = replace(works[number], spot=fits[0])
    for number in others[-1:]:
        own = [work.spot for work in works[:number] if opposite(work.spot) != work.spot][-1:]
        spot, ask = _the_other([replace(own[0], part=own[0].part or _own_part(reading, talk))] if own else fits)
        if spot is None:
            return Resolved(reading, ask)
        works[number] = replace(works[number], spot=spot)
    return Resolved(replace(reading, work=tuple(works)))


def _own_part(reading: Reading, talk: Pointing) -> str | None:
    """The one part that the findings of the statement are about, or None."""
    parts = {fact.spot.part or talk.own_part(str(fact.value)) for fact in reading.facts if fact.kind == "finding"}
    return parts.pop() if len(parts) == 1 else None


def _the_other(fits: Sequence[Spot]) -> tuple[Spot | None, Ask | None]:
    """The opposite of the one that was spoken of."""
    if len(fits) == 1:
        (spot,) = fits
        if (other := opposite(spot)) != spot:
            return other, None
    return None, _which(fits)


def _with_it(reading: Reading, talk: Pointing) -> Reading:
    """ "Bend it", right after one branch was spoken of, means that branch; else it means the tree."""
    fits = talk.spots if talk.last else []
    if IT not in reading.refers or len(fits) != 1 or not _single(fits[0]) or not reading.work:
        return reading
    if any(fact.kind != "species" for fact in reading.facts):
        return reading
    works = tuple(
        replace(work, spot=fits[0]) if work.work and work.spot == NOWHERE and talk.somewhere(work.work) else work
        for work in reading.work
    )
    return replace(reading, work=works)


def _with_them(reading: Reading, talk: Pointing) -> Reading:
    """ "Removed them", right after dead twigs were told of, means these twigs; else it would be the tree."""
    seen = talk.last.facts if talk.last else ()
    parts = {
        fact.spot.part if fact.spot.part in _MANY else talk.own_part(str(fact.value))  # suckers at the base are shoots
        for fact in seen
        if fact.kind == "finding"
    }
    if IT not in reading.refers or len(parts) != 1 or len(talk.spots) > 1 or reading.facts:
        return reading
    (part,) = parts
    spot = next(iter(talk.spots), NOWHERE)
    if part not in _MANY or (spot.count or 2) < 2:
        return reading
    works = tuple(
        replace(work, spot=replace(spot, part=part))
        if work.work and work.spot == NOWHERE and talk.somewhere(work.work) and _says_them(_words(reading, work))
        else work
        for work in reading.work
    )
    return replace(reading, work=works)


def _says_them(words: str) -> bool:
    return bool(re.search(r"\b(?:them|those|these|they)\b", words, re.IGNORECASE))


def _single(spot: Spot) -> bool:
    return (spot.count or 1) == 1 and spot.part in _SINGLE and bool(spot.side or spot.level or spot.ordinal)


def _with_part(reading: Reading, talk: Pointing) -> Reading:
    """ "Cut the left one", right after two leaders were spoken of, means the left leader."""
    part = talk.part
    if part not in _SINGLE or part is None:
        return reading
    works = tuple(
        replace(work, spot=replace(work.spot, part=part))
        if work.work
        and work.spot.part is None
        and work.spot.side
        and talk.placed(work.work)
        and _says_one(reading, work)
        else work
        for work in reading.work
    )
    return replace(reading, work=works)


def _says_one(reading: Reading, work: Work) -> bool:
    return bool(re.search(r"\b(?:one|ones)\b", _words(reading, work), re.IGNORECASE))


def _which(fits: Sequence[Spot]) -> Ask:
    if not fits:
        return Ask("part", "Which one is meant?")
    return Ask("part", f"Which one is meant: {list_words([spot_words(spot) for spot in fits], 'or')}?")


def _words_point(words: str) -> bool:
    plain = words.casefold()
    near = any(word in plain for word in ("that ", "this ", "same "))  # the pattern is built only where it may fit
    return near and re.search(_POINTING, words, re.IGNORECASE) is not None
