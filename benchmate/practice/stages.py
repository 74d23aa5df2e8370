"""The growth stage: what was said of it, else what was seen lately, else what the date suggests.

The date only suggests: what comes of it is marked as taken from the date, is told, and gives way to any word.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from benchmate.practice.almanac import Almanac
from benchmate.practice.facts import SAID, SEASON, Facts, Known
from benchmate.seasons import StageGuess
from benchmate.value import dataclass

# days
_LONG = 100
_NEAR = 10
_LATE = 45
BLOOM = ("flowering", "after-flowering")


@dataclass(frozen=True, slots=True)
class Stages:
    """stages: a truth for every stage that can be told. flush: what follows for the flush. assumed: what was taken from
    the date, in words, or None. turns: the suggested stage is about to turn, or has just done so."""

    stages: tuple[Known, ...]
    flush: tuple[Known, ...] = ()
    assumed: str | None = None
    turns: bool = False


def stage_facts(facts: Facts, almanac: Almanac) -> Stages:
    """Stage and flush as far as statement, record and date tell them."""
    told = [known for known in facts.of("stage") if not _of_next_year(known, facts, almanac)]
    set_already = len(told) < len(facts.of("stage"))
    # what was said of the stage is said of now; what the record saw yields to it as a whole
    basis = [known for known in told if known.origin == SAID] or list(told)
    seen = [known for known in basis if not known.denied]
    denied = {known.value for known in basis if known.denied}
    out = [*basis]
    guess = _not_denied(almanac, denied)
    flush = facts.first("flush")
    # bloom goes with nearly every stage of the leaves, so the date may still tell of those
    seen_leaf = [known for known in seen if known.value not in BLOOM]
    if seen:
        out += _implied(seen, almanac, denied)
    fits = guess is not None and _agrees(guess.stage, guess.flush, seen, denied, flush, almanac)
    assumed = None
    if guess is not None and fits:
        known = {one.value for one in out}
        suggested = Known("stage", guess.stage, origin=SEASON)
        rest = [suggested, *_implied([suggested], almanac, denied)]
        away = [stage for stage in almanac.stages if not _may_be(stage, almanac)]
        rest += [Known("stage", stage, denied=True, origin=SEASON) for stage in away]
        # beside a stage that was told the date may rule out what it allows, and adds nothing of its own; where it says
        # the same for months on end (a tree that never rests) it cannot rule out either
        beside = [one for one in rest if one.denied and _tells(guess)]
        added = [one for one in (beside if seen_leaf else rest) if one.value not in known]
        out += list({one.value: one for one in reversed(added)}.values())
        if not seen_leaf:
            assumed = f"{guess.stage.replace('-', ' ')} is taken from the date, {guess.how}"
            assumed += "; buds that are fat by now are next year's, and no call for root work" if set_already else ""
    elif guess is not None and seen_leaf:
        # a tree ahead of its date is not two stages ahead: what the date rules out and the word leaves open is not so
        known = {one.value for one in out}
        left_open = [one for one in almanac.stages if one not in known and one not in BLOOM]
        late = [one for one in left_open if _ruled_out(guess.stage, one, almanac)]
        out += [Known("stage", one, denied=True, origin=SEASON) for one in late]
    turns = assumed is not None and guess is not None and _turns(guess, almanac.on)
    return Stages(tuple(out), _flush(facts, almanac, guess.flush if guess and fits else None), assumed, turns)


def _of_next_year(known: Known, facts: Facts, almanac: Almanac) -> bool:
    """Whether fat buds tell of no spring: those of a tree that lets its leaves go are set from late summer on, unless
    the leaf was taken off and comes again."""
    tables = almanac.tables["stages"]
    cell = tables["stage"].get(str(known.value), {}).get("set_for_next_year")
    if not cell or known.denied or almanac.traits.get("leaf") not in tables["leaf"]["deciduous"]:
        return False
    stripped = any(
        done.work in cell["but_after"] and not done.denied and (almanac.on - done.last).days <= cell["days"]
        for done in facts.done
    )
    return almanac.guess is not None and almanac.between(*cell["between"]) and not stripped


def _not_denied(almanac: Almanac, denied: set[str | int]) -> StageGuess | None:
    """What the date suggests; where that is said not to be so yet, the stage before it, as far back as a late spring or
    a long autumn may lie."""
    guess = first = almanac.guess
    while guess and any(almanac.implied(guess.stage, str(one)) for one in denied):
        guess = almanac.guess_before(guess)
        if guess is None or guess.until is None or (almanac.on - guess.until).days > _LATE:
            return first
    return guess


def _turns(guess: StageGuess, on: dt.date) -> bool:
    """Whether the suggested stage began or ends so near to today that this year may well differ."""
    return any(day is not None and abs((day - on).days) <= _NEAR for day in (guess.since, guess.until))


def _tells(guess: StageGuess) -> bool:
    return guess.since is not None and guess.until is not None and (guess.until - guess.since).days <= _LONG


def _may_be(stage: str, almanac: Almanac) -> bool:
    """Whether a stage may stand beside the one that the date suggests: only bloom, and that only in its time. What else
    goes with the suggested stage is implied by it."""
    if stage not in BLOOM:
        return False
    window = almanac.window(stage, almanac.on)
    return window is not None and window.holds(almanac.on)


def _implied(seen: Sequence[Known], almanac: Almanac, denied: Iterable[object]) -> list[Known]:
    """What the known stages say of all others. Where one rules out what another brings with it, it is so."""
    out = []
    held = {known.value for known in seen} | set(denied)
    for stage in almanac.stages:
        if stage in held:
            continue
        truths = [almanac.implied(str(known.value), stage) for known in seen]
        if True in truths or False in truths:
            out.append(Known("stage", stage, denied=True not in truths, origin=seen[0].origin, on=seen[0].on))
    return out


def _ruled_out(guessed: str, stage: str, almanac: Almanac) -> bool:
    return almanac.implied(guessed, stage) is False


def _agrees(
    stage: str,
    flush: int | None,
    seen: Sequence[Known],
    denied: set[str | int],
    said_flush: Known | None,
    almanac: Almanac,
) -> bool:
    """Whether the date's suggestion can stand beside what is known."""
    if said_flush and flush and said_flush.value != flush:
        return False
    if any(almanac.implied(stage, str(one)) for one in denied):
        return False
    return all(almanac.implied(str(known.value), stage) is not False for known in seen)


def _flush(facts: Facts, almanac: Almanac, guessed: int | None) -> tuple[Known, ...]:
    if facts.first("flush"):
        return ()
    if almanac.traits.get("flush") == "single":
        return (Known("flush", 1, origin=SEASON),)
    return (Known("flush", guessed, origin=SEASON),) if guessed else ()
