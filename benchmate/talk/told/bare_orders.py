"""Work told in the imperative alone ("bend it 90 degrees in one go"): a thought as well as a report. Where something
stands against it, it is put to the grower before it goes into the record as done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Work
from benchmate.practice.advice import ASK, AVOID, HOLD, Option
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.told.following import near
from benchmate.telling.options import blocks_first

if TYPE_CHECKING:
    from benchmate.hearing import Lexicon
    from benchmate.talk.turns import Turn

_OPENINGS = {HOLD: "Not now", AVOID: "No", ASK: "That depends"}
_VERBS = ("V", "VED", "VING", "VNOW")


def settled_orders(turn: Turn) -> bool:
    """Whether nothing stands against what is told in the imperative; where something does, the question stands in the
    turn."""
    options = turn.advice.options if turn.advice else ()
    if turn.confirmed or not options or "decide" not in turn.acts or {"correct", "pick"} & set(turn.acts):
        return True
    for work in turn.reading.work:
        if work.done != "now" or work.work in LEFT_WORKS or not _bare(turn, work):
            continue
        against = [one for one in options if one.work == work.work and near(one.spot, work.spot)]
        if against and against[0].verdict in _OPENINGS:
            verdict = _OPENINGS[against[0].verdict]
            turn.lapses = True
            turn.confirm = f"{verdict}: {against_words(against[0])} Log it as done all the same? Say yes or no."
            return False
    return True


def against_words(option: Option) -> str:
    """What stands against an option, as a sentence."""
    says = blocks_first(option.against)[0].says if option.against else "What decides is asked below"
    return says.rstrip(".") + "."


def _bare(turn: Turn, work: Work) -> bool:
    """Whether these words tell the work by the bare verb, no past form too ("cut"), of nobody ("I wire it")."""
    said, lexicon = turn.reading.said, turn.house.lexicon
    before = lexicon.split(said[: work.span[0]])
    if before and before[-1] in lexicon.sense["people"]:
        return False
    return is_order(said[slice(*work.span)], lexicon)


def is_order(words: str, lexicon: Lexicon) -> bool:
    """Whether the first verb of the words is a bare one that cannot be past as well."""
    texts = lexicon.split(words)
    forms = {kind: {start: str(value) for start, _, value in phrase_places(texts, kind, lexicon)} for kind in _VERBS}
    first = min((start for places in forms.values() for start in places), default=None)
    if first is None or any(first in forms[kind] for kind in _VERBS[1:]):
        return False
    return forms["V"][first].split("-")[0] not in lexicon.data.get("same_past", ())
