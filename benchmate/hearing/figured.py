"""Which number a statement asks for, and which words go with its numbers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.value import replace

from .dates import FIRST_FROST, DateWords
from .figure_asks import STATES, Asking, asks, may_hold, parted, sizes_in
from .lexicon import Lexicon
from .opening import JOINERS, STOPS
from .reading import Fact, Reading
from .saying import state_meaning
from .spotting import Spotter, Token
from .words import Word

if TYPE_CHECKING:
    from .figure_choice import Heard, Heardings

_TEMPERATURES = ("temperature_c", "low_c")
_OF_THE_TALK = frozenset({"why", "recall", "due", "plan", "list"})
NOTHING: frozenset[int] = frozenset()
# Evidence that a figure is asked for: where a sentence of the grammar took the statement for something else that is
# asked, where something was told beside it, where nothing was understood, and where nothing is asked in words.
OVER_ASKED, OVER_MISHEARD, OVER_TOLD, ALONE, UNASKED = 6.5, 4.0, 5.0, 3.5, 7.0
OVER_RECALLED = 9.0  # where it was taken for a question about the journal or the plan
OVER_SUPPOSED = 8.0  # where the grammar took it for work that is only supposed
OVER_CONDITION = 7.0  # where work stands behind "if" and a question word behind that
MARGIN = 0.4
NAMELESS = 2.0
OUTDONE = 4.0  # by so much a figure whose numbers were all said outdoes the one that the question's words open
HEADING = 5.0  # a heading that asks, without a verb
OPENS, OPENS_ALONE = 3, 4  # weight of the phrase with which such a heading begins, and of one that needs nothing more


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
    from .figure_choice import figure_words

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
        elif reading.topic in _OF_THE_TALK and best.complete and best.score >= OVER_RECALLED:
            reading = replace(_supposed(reading), topic="figure")  # "I thinned out one in four, how much is that"
        reading = _without_warm_work(reading, known.roles[best.figure])
        if best.figure in known.of_work:
            reading = _without_bare_work(reading, words)
        reading = replace(
            reading, figure=best.figure, measures=_warm(reading.measures, best, heardings, known.roles[best.figure])
        )
        reading, named = _with_lost(reading, lattice, lexicon, best.phrased | best.thing, None)
        either = _either(heardings) if best is heardings.figures[0] else ()
        reading = _apart_from_cues(reading, best, words)
        if "new" in reading.acts:  # "if I call it an oval" names no tree
            reading = replace(reading, acts=tuple(act for act in reading.acts if act != "new"), tree=None)
        return replace(reading, either=either), best.used | named
    reading = _by_itself(reading, best)
    if _is_headed(best, lost, reading) and not set(reading.acts) - STATES:
        acts = tuple(act for act in reading.acts if act != "decide")
        reading = replace(_supposed(reading), acts=acts)  # "tension in a guy that is 20 degrees off the branch"
    elif (not lost and _is_told_beside(best, reading, lexicon)) or not _is_asked(
        best, heardings, reading, words, lost, lexicon.asking, known.numbers.small.supposing
    ):
        return told, NOTHING
    reading = replace(reading, measures=_warm(reading.measures, best, heardings, known.roles[best.figure]))
    reading, named = _with_lost(reading, lattice, lexicon, best.phrased | best.thing, dates.on)
    if "ask" in reading.acts:  # what the question was taken for belongs to it
        reading = replace(_supposed(reading), term=None)
    reading = _apart_from_cues(reading, best, words)
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


def _apart_from_cues(reading: Reading, best: Heard, words: Sequence[Word]) -> Reading:
    """The reading without a species that is the figure's own word: the box that a tree stands in is no Buxus."""
    named = {words[at].start for at in best.thing}
    facts = tuple(fact for fact in reading.facts if fact.kind != "species" or fact.span[0] not in named)
    return reading if len(facts) == len(reading.facts) else replace(reading, facts=facts)


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
    the figure is of no warmth ("a guy at 90 degrees")."""
    measures = {name: value for name, value in measures.items() if name not in _TEMPERATURES or name in roles}
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


def _is_asked(
    best: Heard,
    heardings: Heardings,
    reading: Reading,
    words: Sequence[Word],
    lost: frozenset[int],
    asking: Asking,
    supposing: frozenset[str],
) -> bool:
    """Whether the evidence for a figure goes over what the grammar took the statement for. supposing: words without
    which nothing is supposed."""
    if best.groups < 2:
        return False
    if reading.topic == "advice" and not lost and len(best.roles.roles) < 2:
        return False  # "the soil is dry, what now?", but "60 mm at the base, 30 mm 30 cm up, how's that taper"
    placed = [one for one in reading.candidates if one.spot.side or one.spot.level]
    if reading.topic == "compare" and not lost and placed and len(reading.candidates) > 1:
        return False  # "the left one is 9 mm, the right one 8 mm, which one should I keep"
    passed_over = len(best.used & lost)  # what speaks for the figure is what the grammar could not take in
    if reading.topic == "meaning":
        return best.score >= OVER_MISHEARD
    supposed = any(word.text in supposing for word in words)  # "what would you say it gains" is no what-if
    least = OVER_SUPPOSED if passed_over >= 2 or not supposed else OVER_RECALLED
    if words[0].text in supposing and asks(words, asking):  # "if I take the leaves off today, when are they back"
        least = OVER_CONDITION
    if reading.topic == "what-if" and not ((best.complete or least == OVER_CONDITION) and best.score >= least):
        return False
    of_talk = OVER_SUPPOSED if len(best.roles.roles) > 1 else OVER_RECALLED
    if reading.topic in _OF_THE_TALK and passed_over < 2 and not (best.complete and best.score >= of_talk):
        return False
    sizes = any(number.unit != "date" for number in heardings.numbers)
    heads = any(word.text in asking["named"] for word in words)
    if reading.topic == "may" and reading.work and not sizes and not heads and not best.headed & lost:
        return False  # "it's not biting yet, should I take the wire off?" asks for no number
    understood = not any(words[at].text in asking["named"] for at in lost)
    if reading.topic == "when" and not reading.work and sizes and best.complete:
        return best.score >= OVER_TOLD  # "95 F all week, when is it dry"
    if not lost and reading.topic == "when" and any(work.work != "check" for work in reading.work):
        return best.score >= OVER_RECALLED  # "it is not biting, so when ought I to take it off": when to do it
    if understood and reading.topic == "advice" and any(work.done is None for work in reading.work):
        return best.score >= OVER_RECALLED  # "how do I get the wire off"
    if not lost and reading.topic == "may" and reading.work and any(fact.kind == "finding" for fact in reading.facts):
        return best.score >= OVER_RECALLED  # "it is too thick, 9 mm, may I bend it 40 degrees": may it be done
    if understood and (reading.topic == "advice" or (reading.topic == "may" and reading.work)):
        return best.score >= OVER_ASKED  # "what should I do?", "shall I shorten them?": the bench's first job
    if set(reading.acts) - STATES:
        lost_to = min(2, passed_over + (not understood))  # a question word that was passed over speaks for itself
        return best.score >= OVER_ASKED - lost_to * (OVER_ASKED - OVER_MISHEARD) / 2
    if not (heardings.asks or asks(words, asking)):
        if 0 in best.used and not reading.work and (passed_over or not reading.acts):
            heading = not any(word.text in asking["finite"] for word in words)  # "diameter is now 71 mm" is none
            return (best.complete or heading) and best.score >= OVER_TOLD  # "litres in a round pot 30 cm wide"
        return best.score >= UNASKED and not reading.acts and words[0].text not in asking["tellers"]
    told = reading.facts or reading.work or reading.candidates
    return best.score >= (OVER_TOLD if told and not passed_over else ALONE)


def _is_told_beside(best: Heard, reading: Reading, lexicon: Lexicon) -> bool:
    """Whether it is asked of work that is told with the figure beside it: "can I bend a 9 mm branch forty degrees"."""
    beside = lexicon.figures.get(best.figure, {}).get("beside", ())
    return reading.topic == "may" and any(work.work in beside for work in reading.work)


def _is_headed(best: Heard, lost: frozenset[int], reading: Reading) -> bool:
    """Whether what is wanted stands at the head or the end by itself: where no sentence of the grammar took that in,
    where it took in sizes alone ("wire for a 3/16 inch branch"), or in words that ask in no other sense ("bend radius
    for 9 mm")."""
    if not best.complete:
        return False
    asked = best.headed & lost or (best.ends and (best.used & lost or not reading.work))
    if asked and best.score >= OVER_RECALLED:
        return True
    bare = not reading.facts and not reading.work
    return best.score >= HEADING and (best.opens >= OPENS_ALONE or (bare and best.opens >= OPENS))


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
