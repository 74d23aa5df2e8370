"""Whether the evidence for a figure goes over what the grammar took a statement for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..reading import Reading
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from .asks import STATES, Asking, asks

if TYPE_CHECKING:
    from .choice import Heard, Heardings

OF_THE_TALK = frozenset({"why", "recall", "due", "plan", "list"})
# Evidence that a figure is asked for: where a sentence of the grammar took the statement for something else that is
# asked, where something was told beside it, where nothing was understood, and where nothing is asked in words.
OVER_ASKED, OVER_MISHEARD, OVER_TOLD, ALONE, UNASKED = 6.5, 4.0, 5.0, 3.5, 7.0
OVER_RECALLED = 9.0  # where it was taken for a question about the journal or the plan
OVER_SUPPOSED = 8.0  # where the grammar took it for work that is only supposed
OVER_CONDITION = 7.0  # where work stands behind "if" and a question word behind that
NAMELESS = 2.0
OUTDONE = 4.0  # by so much a figure whose numbers were all said outdoes the one that the question's words open
HEADING = 5.0  # a heading that asks, without a verb
OPENS, OPENS_ALONE = 3, 4  # weight of the phrase with which such a heading begins, and of one that needs nothing more


def is_asked(
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
    if best.groups < 2 or ("new" in reading.acts and not (heardings.asks or asks(words, asking))):
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
    head_lost = passed_over and any(words[at].text in asking["named"] for at in lost)  # "what will I have taken if ..."
    least = OVER_SUPPOSED if passed_over >= 2 or head_lost or not supposed else OVER_RECALLED
    if words[0].text in supposing and asks(words, asking):  # "if I take the leaves off today, when are they back"
        least = OVER_CONDITION
    if reading.topic == "what-if" and not ((best.complete or least == OVER_CONDITION) and best.score >= least):
        return False
    of_talk = OVER_SUPPOSED if len(best.roles.roles) > 1 else OVER_RECALLED
    if reading.topic in OF_THE_TALK and passed_over < 2 and not (best.complete and best.score >= of_talk):
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


def is_told_beside(best: Heard, reading: Reading, lexicon: Lexicon) -> bool:
    """Whether it is asked of work that is told with the figure beside it: "can I bend a 9 mm branch forty degrees"."""
    beside = lexicon.figures.get(best.figure, {}).get("beside", ())
    return reading.topic == "may" and any(work.work in beside for work in reading.work)


def is_headed(best: Heard, lost: frozenset[int], reading: Reading) -> bool:
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
