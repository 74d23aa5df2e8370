"""Words that point back: "that one", "the other", "same again on the right", "do that", "and the back one?".

What they point at is looked for in what was said and offered last. Where two things fit, the grower is asked; where
none does, that is said. Nothing is taken at random.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchmate.hearing.reading import NOWHERE, Reading, Spot, Work
from benchmate.practice.advice import Advice, Ask
from benchmate.talk.context import spots_of
from benchmate.telling.wording import list_words, spot_words

THAT, OTHER, SAME = "that", "other", "same"
_OPPOSITE = {
    "side": {"left": "right", "right": "left", "front": "back", "back": "front"},
    "level": {"low": "high", "high": "low", "inner": "outer", "outer": "inner", "top": "bottom", "bottom": "top"},
}


@dataclass(frozen=True, slots=True)
class Resolved:
    """reading: the statement with what it points at filled in. ask: the question where that is not clear."""

    reading: Reading
    ask: Ask | None = None


def kinds_of(refers: tuple[str, ...]) -> set[str]:
    """Which kinds of pointing the words hold."""
    kinds = set()
    for words in refers:
        said = words.casefold()
        if "same" in said or "again" in said or "do that" in said or "do it" in said or said == "and":
            kinds.add(SAME)
        elif "other" in said:
            kinds.add(OTHER)
        else:
            kinds.add(THAT)
    return kinds


def resolve(reading: Reading, last: Reading | None, offered: Advice | None) -> Resolved:
    """The statement with its pointing words filled in from the last statement and the options offered."""
    kinds = kinds_of(reading.refers)
    if not kinds:
        return Resolved(reading)
    if last is None and offered is None:
        return Resolved(
            reading, Ask("part", "Nothing was said before that this could mean. Which branch or part is it?")
        )
    if SAME in kinds:
        return _same_again(reading, last, offered)
    return _pointed(reading, kinds, last, offered)


def _same_again(reading: Reading, last: Reading | None, offered: Advice | None) -> Resolved:
    """The last work again, at the place that is named now if one is."""
    works = [work for work in last.work if work.work] if last else []
    if not works and offered:
        best = [option for option in offered.options if option.work not in ("leave", "wait") and option.verdict == "go"]
        works = [Work(best[0].work, best[0].spot)] if len(best) == 1 else []
    if len(works) != 1:
        names = list_words([work.work.replace("-", " ") for work in works if work.work], "or")
        return Resolved(reading, Ask("work", f"Which work is meant: {names}?" if names else "Which work is meant?"))
    (before,) = works
    placed = [work for work in reading.work if work.work in (None, before.work)]
    spot = placed[0].spot if placed else next((fact.spot for fact in reading.facts if fact.spot != NOWHERE), NOWHERE)
    measures = dict(before.measures) | (dict(placed[0].measures) if placed else {})
    asks = "ask" in reading.acts
    work = Work(before.work, _moved(before.spot, spot), measures, None if asks else "now", before.manner)
    rest = tuple(one for one in reading.work if one not in placed)
    acts = reading.acts if asks else tuple(dict.fromkeys(["decide", *(a for a in reading.acts if a != "observe")]))
    topic = reading.topic or ("may" if asks else None)
    return Resolved(replace(reading, work=(work, *rest), acts=acts, topic=topic))


def _moved(before: Spot, now: Spot) -> Spot:
    """The place of the work before, with what is named now in its stead; a new side drops the old count and order."""
    if now == NOWHERE:
        return before
    return Spot(now.part or before.part, now.side, now.level, now.ordinal, now.count)


def _pointed(reading: Reading, kinds: set[str], last: Reading | None, offered: Advice | None) -> Resolved:
    fits = list(
        dict.fromkeys(
            spots_of(last) or [option.spot for option in offered.options if option.spot != NOWHERE]
            if offered
            else spots_of(last)
        )
    )
    works = list(reading.work)
    bare = [number for number, work in enumerate(works) if work.spot in (NOWHERE, Spot("branch"), Spot("shoot"))]
    if not bare:
        return Resolved(reading)
    if kinds == {THAT, OTHER} and len(bare) == 2:
        return _both(reading, fits, bare)
    if OTHER in kinds:
        spot, ask = _the_other(fits)
    else:
        spot, ask = (fits[0], None) if len(fits) == 1 else (None, _which(fits))
    if spot is None:
        return Resolved(reading, ask)
    for number in bare:
        works[number] = replace(works[number], spot=spot)
    return Resolved(replace(reading, work=tuple(works)))


def _both(reading: Reading, fits: list[Spot], bare: list[int]) -> Resolved:
    """ "Cut that one off, leave the other": clear only where one thing was spoken of that has an opposite."""
    other, ask = _the_other(fits[:1])
    if len(fits) != 1 or other is None:
        return Resolved(reading, ask or _which(fits))
    works = list(reading.work)
    works[bare[0]] = replace(works[bare[0]], spot=fits[0])
    works[bare[1]] = replace(works[bare[1]], spot=other)
    return Resolved(replace(reading, work=tuple(works)))


def _the_other(fits: list[Spot]) -> tuple[Spot | None, Ask | None]:
    """The opposite of the one that was spoken of, or the second of two."""
    if len(fits) == 1:
        (spot,) = fits
        for name, pairs in _OPPOSITE.items():
            if opposite := pairs.get(getattr(spot, name) or ""):
                return (replace(spot, side=opposite) if name == "side" else replace(spot, level=opposite)), None
    return None, _which(fits)


def _which(fits: list[Spot]) -> Ask:
    if not fits:
        return Ask("part", "Which one is meant?")
    return Ask("part", f"Which one is meant: {list_words([spot_words(spot) for spot in fits], 'or')}?")
