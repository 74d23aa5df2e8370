"""What follows on work that is only asked about yet: "can I wire it", then "when does it come off", "when do I look
again"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work
from benchmate.practice.advice import Advice, Follow
from benchmate.talk.told.following import near
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.wording import small, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def when_undone(turn: Turn) -> bool:
    """Answer when work that is not done yet comes undone, counted from today; False where nothing is supposed so, or
    where no rule says when."""
    reading = turn.reading
    if reading.topic != "when" or "ask" not in reading.acts or not reading.supposes or turn.tree is None:
        return False
    from benchmate.talk.asked.questions import weighed

    told = [replace(work, done="done") for work in reading.supposes]
    advice = weighed(turn, Reading(reading.said, ("decide",), work=tuple(told), tree=reading.tree))
    asked = {work.work for work in reading.work}
    says = [_words(turn, work, one) for work, one in follows(advice, told) if one.work in asked]
    if not says:
        return False
    turn.says += says[:1]
    turn.says += [_words(turn, work, one) for work, one in follows(advice, told) if one.work not in asked][:1]
    return True


def follows(advice: Advice | None, works: list[Work]) -> list[tuple[Work, Follow]]:
    """What the options for these works say to come back for, the soonest first."""
    found = [
        (work, one)
        for work in works
        for option in (advice.options if advice else ())
        if option.work == work.work and near(option.spot, work.spot)
        for one in option.follow
    ]
    return sorted(found, key=lambda pair: pair[1].on)


def look_ahead(turn: Turn) -> list[str]:
    """When to look again after work that was just asked about and is not done yet; empty where none was."""
    last = turn.reading if turn.reading.supposes else turn.before.reading
    advice = turn.before.advice
    if last is None or "ask" not in last.acts or advice is None or turn.tree is None or advice.tree != turn.tree.name:
        return []
    works = list(last.supposes) or [work for work in last.work if work.work]
    return [_words(turn, work, one) for work, one in follows(advice, works)][:1]


def _words(turn: Turn, work: Work, follow: Follow) -> str:
    day = day_of(follow.on)
    when = day_words(day, turn.on) if day else follow.on
    done = work_words(str(work.work), work.spot, done=True)
    return f"Once you have {done}, counted from today: {when}, {small(follow.says)}"
