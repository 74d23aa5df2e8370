"""Which number a statement asks for, and which words go with its numbers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.value import replace

from ..amounts.dates import FIRST_FROST, DateWords
from ..done.doing import DONE
from ..lattice.opening import JOINERS, STOPS
from ..lattice.spotting import Spotter, Token
from ..reading import Fact, Reading
from ..seen.saying import state_meaning
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .asks import STATES, may_hold, parted, sizes_in
from .evidence import (
    NAMELESS,
    OF_THE_TALK,
    OUTDONE,
    OVER_ASKED,
    OVER_RECALLED,
    is_asked,
    is_headed,
    is_told_beside,
)

if TYPE_CHECKING:
    from .choice import Heard, Heardings

_TEMPERATURES = ("temperature_c", "low_c")
# what the contract calls the measures that a figure's roles may hold by the same name
_MEASURED = frozenset(
    {
        *("diameter_mm", "length_mm", "height_mm", "width_mm", "depth_mm", "gap_mm", "angle_deg", "volume_l"),
        *("ppm", "temperature_c", "days"),
    }
)
NOTHING: frozenset[int] = frozenset()
MARGIN = 0.4  # by so much one figure must outdo the next to be meant alone


def with_figure(
    reading: Reading,
    words: Sequence[Word],
    lost: frozenset[int],
    spotter: Spotter,
    lattice: Sequence[Sequence[Token]],
    dates: DateWords,
) -> tuple[Reading, frozenset[int]]:
    """The reading with the figure that its words ask for, and the places of words that this took in.

    lost: places of words that were passed over, in which a question may lie. lattice: what each word may be.
    """
    lexicon = spotter.lexicon
    if not reading.figure and not may_hold(reading, words, sizes_in(words, lattice), bool(lost), lexicon):
        return reading, NOTHING
    from .choice import figure_words

    known = figure_words(spotter)
    heardings = known.heard(words, dates, reading.figure)
    if not heardings.figures:
        return reading, NOTHING
    reading, best = _apart_from_dates(reading, heardings, words), heardings.figures[0]
    told = reading
    if "correct" in reading.acts and not known.numbers.small.takes_back([word.text for word in words], 0):
        reading = _without_correction(reading)  # "18 mm and the other 11, no, sorry, ten": a number said anew
    if reading.figure:
        own = next((one for one in heardings.figures if one.figure == reading.figure), None)
        least = own.score + OUTDONE if own else OVER_ASKED
        outdone = best.complete and best.score >= least
        if not (best.named or outdone):  # nothing names another figure than the question's own words
            if own is None or (reading.topic == "may" and best.score < NAMELESS):
                return replace(reading, figure=reading.figure if reading.topic == "figure" else None), NOTHING
            best = own
        reading = _by_itself(reading, best)
        if not reading.work:  # "compare the leaders, 13 and 15 mm, what ratio"
            reading = replace(reading, topic="figure")
        elif reading.topic == "may" and (best.score >= OVER_ASKED or not parted(words, lexicon.asking)):
            reading = replace(_supposed(reading), topic="figure")  # "what gauge should I wrap round it"
        elif reading.topic in OF_THE_TALK and best.complete and best.score >= OVER_RECALLED:
            reading = replace(_supposed(reading), topic="figure")  # "I thinned out one in four, how much is that"
        reading = _without_warm_work(reading, known.roles[best.figure])
        if best.figure in known.of_work:
            reading = _without_bare_work(reading, words)
        reading = replace(
            reading, figure=best.figure, measures=_warm(reading.measures, best, heardings, known.roles[best.figure])
        )
        reading, named = _with_lost(reading, lattice, lexicon, best.phrased | best.thing, None)
        either = _either(heardings) if best is heardings.figures[0] else ()
        reading = _apart_from_cues(reading, best, heardings, words)
        if "new" in reading.acts:  # "if I call it an oval" names no tree
            reading = replace(reading, acts=tuple(act for act in reading.acts if act != "new"), tree=None)
        return replace(reading, either=either), best.used | named
    reading = _by_itself(reading, best)
    if is_headed(best, lost, reading) and not set(reading.acts) - STATES:
        acts = tuple(act for act in reading.acts if act != "decide")
        reading = replace(_supposed(reading), acts=acts)  # "tension in a guy that is 20 degrees off the branch"
    elif (not lost and is_told_beside(best, reading, lexicon)) or not is_asked(
        best, heardings, reading, words, lost, lexicon.asking, known.numbers.small.supposing
    ):
        return told, NOTHING
    reading = replace(reading, measures=_warm(reading.measures, best, heardings, known.roles[best.figure]))
    reading, named = _with_lost(reading, lattice, lexicon, best.phrased | best.thing, dates.on)
    if "ask" in reading.acts:  # what the question was taken for belongs to it
        reading = replace(_besides_done(reading), term=None)
    reading = _apart_from_cues(reading, best, heardings, words)
    acts = (*(act for act in reading.acts if act in STATES), "ask")
    return replace(reading, acts=acts, topic="figure", figure=best.figure, either=_either(heardings)), (
        best.used | named
    )


def _apart_from_dates(reading: Reading, heardings: Heardings, words: Sequence[Word]) -> Reading:
    """The reading without facts that were heard in the words of a date ("in the first week": no weak tree)."""
    days = [one for one in heardings.numbers if one.unit == "date"]
    spans = [(words[one.first].start, words[one.end - 1].end) for one in days]
    facts = tuple(fact for fact in reading.facts if not any(a <= fact.span[0] < fact.span[1] <= b for a, b in spans))
    return reading if len(facts) == len(reading.facts) else replace(reading, facts=facts)


def _apart_from_cues(reading: Reading, best: Heard, heardings: Heardings, words: Sequence[Word]) -> Reading:
    """The reading without a species that is the figure's own word (the box that a tree stands in is no Buxus), and
    without a finding that is the name of its size ("if the gap is 1 mm")."""
    named = {words[at].start for at in best.thing}
    sizes = {name.partition("_")[0] for name in reading.measures}
    kept = (one for one in reading.facts if one.kind != "species" or not one.span[1] or one.span[0] not in named)
    kept = (one for one in kept if one.kind != "finding" or one.value not in sizes)
    sized = _behind_sizes(best, heardings, words)  # "150 and 180 long" tells no leggy branch
    kept = (one for one in kept if one.kind != "finding" or one.span[0] not in sized)
    facts = tuple(kept)  # one without a span was found among the lost words, apart from the figure's own
    return reading if len(facts) == len(reading.facts) else replace(reading, facts=facts)


def _behind_sizes(best: Heard, heardings: Heardings, words: Sequence[Word]) -> set[int]:
    """Where the words begin that stand right behind a length which the figure took: "long" of "180 mm long"."""
    told = [heardings.numbers[role.number] for role in best.roles.roles] if best.complete else []
    ends = {number.end for number in told if number.unit in ("length", "")}
    return {words[at].start for at in ends if at < len(words)}


def _without_warm_work(reading: Reading, roles: Mapping[str, object]) -> Reading:
    """The reading with work that was heard with a temperature as supposed, where the figure is of no warmth: "the guy
    comes off at 30 degrees" takes no guy off."""
    warm = [work for work in reading.work if any(name in work.measures and name not in roles for name in _TEMPERATURES)]
    if not warm:
        return reading
    cool = tuple(
        replace(work, measures={name: v for name, v in work.measures.items() if name not in _TEMPERATURES})
        for work in warm
    )
    rest = tuple(work for work in reading.work if work not in warm)
    acts = tuple(act for act in reading.acts if act != "decide" or rest)
    return replace(reading, work=rest, supposes=(*reading.supposes, *cool), acts=acts)


def _without_bare_work(reading: Reading, words: Sequence[Word]) -> Reading:
    """The reading with work told in the imperative as supposed: "snip the tips off, how much leaf do I lose"."""
    opening = {word.start for n, word in enumerate(words) if n == 0 or words[n - 1].text in STOPS | JOINERS}
    bare = tuple(work for work in reading.work if work.done == "now" and work.span[0] in opening)
    rest = tuple(work for work in reading.work if work not in bare)
    acts = tuple(act for act in reading.acts if act != "decide" or rest)
    return replace(reading, work=rest, supposes=(*reading.supposes, *bare), acts=acts)


def _warm(
    measures: Mapping[str, float], best: Heard, heardings: Heardings, roles: Mapping[str, object]
) -> dict[str, float]:
    """The measures with the temperatures that the figure heard, where one scale was named for all; without any where
    the figure is of no warmth ("a guy at 90 degrees"); those of the figure alone where the grammar took none."""
    measures = {name: value for name, value in measures.items() if name not in _TEMPERATURES or name in roles}
    held = {r.name: r.value for r in best.roles.roles if r.name in _MEASURED and isinstance(r.value, int | float)}
    if not measures:  # "what's the right dilution for a quart of it"
        measures = held
    elif "ppm" in held:
        measures = {"ppm": held["ppm"], **measures}  # "feed dose for a 10 litre can at 120 ppm"
    if not heardings.fahrenheit:
        return measures
    heard = {role.name: role.value for role in best.roles.roles if role.name in _TEMPERATURES}
    return {name: heard.get(name, value) for name, value in measures.items()}


def _either(heardings: Heardings) -> tuple[str, ...]:
    """The two figures that a statement may equally ask for, or none where one is clear."""
    if len(heardings.figures) < 2:
        return ()
    best, second = heardings.figures[:2]
    clear = best.score - second.score >= MARGIN or (best.complete and not second.complete)
    return () if clear else (best.figure, second.figure)


def _by_itself(reading: Reading, best: Heard) -> Reading:
    """The reading of a figure question with all its numbers without what would need the talk before it: a place or a
    size alone is no work ("1/8 in aluminium wire, what ..."), "what holds the same" no work once more."""
    if not best.complete or "correct" in reading.acts:
        return reading
    return replace(reading, refers=(), work=tuple(work for work in reading.work if work.work is not None))


def _without_correction(reading: Reading) -> Reading:
    """The reading without what was heard as setting right something said before it."""
    work = tuple(work for work in reading.work if work.work is not None)
    return replace(reading, acts=tuple(act for act in reading.acts if act != "correct"), work=work)


def _supposed(reading: Reading) -> Reading:
    """The reading with its work as what the question supposes."""
    return replace(reading, supposes=(*reading.supposes, *reading.work), work=())


def _besides_done(reading: Reading) -> Reading:
    """The reading with its work as what the question supposes, but for what is told as done: "I wired the trunk today,
    when will that start to bite"."""
    told = tuple(work for work in reading.work if work.done == DONE and "decide" in reading.acts)
    supposed = tuple(work for work in reading.work if work not in told)
    return replace(reading, supposes=(*reading.supposes, *supposed), work=told)


def _inside(token: Token, tokens: Sequence[Token]) -> bool:
    """Whether a token is part of a longer one: "that deep box" is no Buxus."""
    return any(
        one.first <= token.first and token.end <= one.end and one.end - one.first > token.end - token.first
        for one in tokens
        if one.kind == "PART"
    )


def _with_lost(
    reading: Reading,
    lattice: Sequence[Sequence[Token]],
    lexicon: Lexicon,
    phrased: frozenset[int],
    on: dt.date | None,
) -> tuple[Reading, frozenset[int]]:
    """The reading with the tree, the species, the health ("a weak tree") and with `on`, today, the date that its words
    name and no sentence took in; and the places of the words that name them. phrased: words that are part of the
    figure's own phrases ("lime sulphur" is no lime)."""
    exact = [token for tokens in lattice for token in tokens if not token.guesses]
    exact = [one for one in exact if not phrased.issuperset(range(one.first, one.end))]
    exact = [one for one in exact if one.kind != "SPECIES" or not _inside(one, exact)]
    longest = sorted(exact, key=lambda token: token.first - token.end)
    trees = {token.first for token in exact if token.kind in ("SPECIES", "TREEWORD")}
    named = {str(token.value) for token in exact if token.kind == "NAME"}
    if reading.tree is None and len(named) == 1:
        reading = replace(reading, tree=named.pop())
    found: dict[str, Fact] = {}
    places: dict[str, range] = {}
    for token in longest:
        if token.kind == "SPECIES" and not str(token.value).startswith("group:"):
            found.setdefault("species", Fact("species", token.value))
            places.setdefault("species", range(token.first, token.end))
        elif token.kind == "STATE" and token.end in trees:
            kind, _, value = (state_meaning(lexicon, token.value, None) or "").partition(":")
            if kind == "health":
                found.setdefault(kind, Fact(kind, value))
                places.setdefault(kind, range(token.first, token.end))
    for fact in reading.facts:
        found.pop(fact.kind, None)
    # a single word may be a day and something else ("may", "march", "now")
    when = next((one.value.future for one in longest if one.kind == "DATE" and one.end > one.first + 1), None)
    if on is None or when in (FIRST_FROST, str(on.year)):  # "this year" is no other day than today
        when = None
    reading = replace(reading, facts=(*reading.facts, *found.values()), when=reading.when or when)
    return reading, frozenset(place for kind in found for place in places[kind])
