"""Work that is told as done: weighed for what follows on it, and told apart from what is asked beside it ("repotted it
in February, may I feed it")."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.practice.advice import AVOID, HOLD, Advice
from benchmate.talk.asked.questions import bite_checked, weighed
from benchmate.talk.recorded.on_record import when_told
from benchmate.telling.options import blocks_first, option_words
from benchmate.telling.wording import sentence, small
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def beside(turn: Turn, advice: Advice) -> Advice:
    """The advice on what is asked, with what is to be minded of work of today that is told beside it, and what
    stands against that; of older work it is too late to say so."""
    told = _told(turn, turn.reading)
    lexicon = turn.house.lexicon
    said = f" {' '.join(lexicon.split(turn.reading.said))} "
    if "ask" in turn.acts and any(f" {words} " in said for words in lexicon.sense["asks_ill"]):
        advice = replace(advice, turned=True)
    if told is None:
        return advice
    done = weighed(turn, told)
    held = {caution.id for caution in advice.cautions}
    works = {work.work for work in told.work}
    against = [one for one in done.options if one.work in works and one.verdict in (HOLD, AVOID) and one.against]
    today = told.when in (None, turn.on.isoformat())
    if against and today:
        first = against[0]
        words = option_words(first, turn.house.place.units)
        turn.aside.append(sentence(f"{words}, careful: {small(blocks_first(first.against)[0].says)}"))
    more = tuple(caution for caution in done.cautions if today and caution.id not in held)
    return replace(advice, cautions=(*advice.cautions, *more))


def as_done(turn: Turn, reading: Reading, advice: Advice | None) -> Advice | None:
    """The advice as work that was done has it: what to come back for is told of such work even where it had better
    have waited, or where something else is asked."""
    if advice is not None and (told := _told(turn, reading)) is not None:
        return bite_checked(turn, weighed(turn, told))
    now = {work.work for work in reading.work if work.done == "now" and "decide" in reading.acts}
    if advice is None or not any(one.work in now and one.verdict in (HOLD, AVOID) for one in advice.options):
        return advice
    works = tuple(replace(work, done="done") if work.done == "now" else work for work in reading.work)
    return bite_checked(turn, weighed(turn, replace(reading, work=works)))


def as_told(turn: Turn, reading: Reading) -> Reading:
    """The reading with the day of what is told beside a question, where the question names another."""
    return replace(reading, when=when_told(turn, reading)) if reading.told_beside else reading


def _told(turn: Turn, reading: Reading) -> Reading | None:
    """What the reading tells as done beside its question, as a statement of its own; None where it tells nothing so."""
    works = reading.told_beside
    if not works or "decide" not in reading.acts:
        return None
    return replace(reading, acts=("decide",), topic=None, work=works, supposes=(), when=when_told(turn, reading))
