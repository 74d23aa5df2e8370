"""What was told as done and is then denied: "sorry, I've not cut anything yet" takes it out of the record again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work
from benchmate.talk.deeds import take_back
from benchmate.talk.told.following import same_deed
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_TOLD = ("now", "done")


def put_right(turn: Turn) -> bool:
    """Whether the statement puts right what was put down before it, as a whole: work or a tree that is taken out, the
    day, a reason told late."""
    if turn.reading.acts == ("correct",):
        from benchmate.talk.corrected.other_tree import swapped
        from benchmate.talk.corrected.redated import put_on_day
        from benchmate.talk.corrected.taken_back import spared

        if swapped(turn) or taken_out(turn) or spared(turn) or put_on_day(turn):
            return True
    elif taken_out(turn):
        return True
    if not (turn.reading.reason and turn.before.made):
        return False
    from benchmate.talk.recorded.why_done import late_reason

    return late_reason(turn)


def taken_out(turn: Turn) -> bool:
    """Take out of the record what this statement denies; what else the statement before said is left in the turn, to be
    carried out anew."""
    rest = what_stands(turn)
    if rest is None:
        return False
    if rest.acts:
        turn.in_its_stead(turn.before.made)
    else:
        take_back(turn, turn.before.made)
    turn.reading = rest
    return True


def what_stands(turn: Turn) -> Reading | None:
    """The statement before without the work that this one denies, its acts empty where nothing of it is left. None
    where this one denies no work that the statement before put into the record."""
    last, reading = turn.before.amends, turn.reading
    if last is None or not turn.before.made or reading.acts not in ((), ("correct",), ("decide",)):
        return None
    denied = _denied(turn, reading)
    told = [work for work in last.work if work.work and work.done in _TOLD]
    book = turn.house.book
    gone = [work for work in told if any(same_deed(str(work.work), work.spot, one, book) for one in denied)]
    if not gone:
        return None
    works = tuple(work for work in last.work if work not in gone)
    said = f"{last.said}; {reading.said}"
    if any(work.work for work in works):
        return replace(last, said=said, work=works)
    seen = "observe" in last.acts and last.facts
    return replace(last, said=said, work=(), acts=("observe",)) if seen else Reading(reading.said)


def _denied(turn: Turn, reading: Reading) -> tuple[Work, ...]:
    """The works that the words deny, and nothing else in them: with "it" where they say "anything"."""
    if not reading.work and reading.missed:
        words, some = turn.house.ear.words(reading.said), turn.house.lexicon.sense["asks"]["any"]
        said = reading.said
        for word in reversed(words):
            if word.text in some:
                said = f"{said[: word.start]}it{said[word.end :]}"
        if said == reading.said:
            return ()
        reading = turn.house.hear(said, turn.on, turn.before.reading)
    plain = not (reading.missed or reading.facts or reading.when)
    return reading.work if plain and all(work.done == "not" for work in reading.work) else ()
