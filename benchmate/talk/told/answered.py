"""What the grower says to what was just asked and weighed: "no, I'll do it in April" is a plan; "yes, do it" to work
that has to wait is one too; and what was begun and is then told as done is told once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work
from benchmate.practice.advice import ASK, AVOID, HOLD
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.statement import yes_or_no
from benchmate.talk.told.bare_orders import against_words
from benchmate.talk.told.following import near
from benchmate.telling.dates import day_of, day_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context, Logged
    from benchmate.talk.corrected.amended import Short
    from benchmate.talk.turns import Turn

_IT = "it"
COMPARE = "compare"  # the topic of a question which of several to keep


def answered(short: Short, talk: Context) -> Reading | None:
    """ "No I'll do it in April", behind a question: what follows the yes or no is decided, and to do it is to do what
    was asked about. None where the words say something else."""
    last = talk.reading
    if last is None or "ask" not in last.acts or {"remind", "ask", "new", "strike", "note"} & set(short.heard.acts):
        return None
    texts, sense = short.texts, short.lexicon.sense
    at, refused = 0, False
    while at < len(texts) and (
        yes_or_no(texts[at]) is not None or texts[at] in (*sense["openers"], *sense["refusals"])
    ):
        refused = refused or texts[at] in sense["refusals"] or yes_or_no(texts[at]) is False
        at += 1
    helpers = {start: (end, value) for start, end, value in phrase_places(texts, "AUX", short.lexicon)}
    person, will = helpers.get(at), helpers.get(at + 1)
    if not person or person[1] != "i" or not will or will[1] != "will":
        return None
    doing = helpers.get(will[0])
    if doing and doing[1] == "do":
        return _to_do_it(short, last, doing[0])
    rest = short.hear(short.between(at, len(texts))) if refused else None
    if rest is None or "decide" not in rest.acts or not any(work.done == "later" for work in rest.work):
        return None
    works = tuple(replace(work, span=(0, 0)) for work in rest.work)
    return replace(rest, said=short.said, work=works, facts=tuple(replace(fact, span=(0, 0)) for fact in rest.facts))


def _to_do_it(short: Short, last: Reading, behind: int) -> Reading | None:
    """The work that was asked about, as meant for the time that is named behind "I'll do"."""
    tail = short.hear(f"{short.lexicon.sense['refusals'][0]}, {short.between(behind, len(short.parts))}")
    works = [work for work in last.work if work.work]
    if tail.acts != ("correct",) or _IT not in tail.refers or tail.work or tail.facts or tail.missed or not works:
        return None
    meant = tuple(replace(work, done="later", span=(0, 0)) for work in works)
    return Reading(short.said, ("decide",), work=meant, when=tail.when, day=tail.day)


def on_that_day(short: Short, talk: Context) -> Reading | None:
    """ "Yesterday", behind work told as done on a day that could not be, and "it was yesterday" behind any: the day on
    which it was done."""
    last, heard = talk.amends, short.heard
    if last is None or "decide" not in last.acts or heard.acts:
        return None
    opened = next((n for n, text in enumerate(short.texts) if text not in short.lexicon.sense["openers"]), 0)
    if tuple(short.texts[opened : opened + 2]) in (("it", "was"), ("that", "was")):
        rest = short.between(opened, len(short.texts))
        heard = short.hear(f"{short.lexicon.sense['refusals'][0]}, {rest}")
    elif talk.made:
        return None
    if not heard.when or (heard.missed and heard is not short.heard):
        return None
    told = [work for work in last.work if work.work]
    if not told or any(work.done not in ("done", "now") for work in told) or heard.work or heard.facts or heard.tree:
        return None
    return Reading(short.said, ("correct",), when=heard.when)


def told_apart(short: Short, talk: Context) -> Reading | None:
    """ "The left is 14 mm, the right 11, the left goes straight on", behind a question which of the two to keep: what
    tells them apart is that question, asked again with it."""
    last, heard = talk.reading, short.heard
    if last is None or last.topic != COMPARE or "ask" not in last.acts or heard.acts != ("observe",) or heard.work:
        return None
    placed = [fact.spot for fact in (*heard.facts, *heard.candidates) if fact.kind in ("finding", "candidate")]
    if not placed or any(not (spot.side or spot.level or spot.ordinal) for spot in placed):
        return None
    before = tuple(fact for fact in last.facts if fact.kind == "finding" and fact not in heard.facts)
    facts = (*heard.facts, *before)
    return replace(heard, acts=("observe", "ask"), topic=COMPARE, work=last.work, facts=facts)


def go_on(turn: Turn) -> None:
    """Take a yes to work that has to wait as a plan, and the report of work that was begun in that one's stead."""
    as_it_waits(turn)
    if begun := begun_before(turn):
        turn.in_its_stead(begun)


def as_it_waits(turn: Turn) -> None:
    """ "Yes, do it" to work that the bench said has to wait puts down a plan for the day it opens; to work that it
    advised against, or could not judge, it is asked for a yes."""
    offered, asked, reading = turn.before.advice, turn.before.reading, turn.reading
    named = [work for work in reading.work if work.work and work.span != (0, 0)]  # in these very words
    if named or "decide" not in reading.acts or not offered or not asked or turn.confirmed:
        return
    if "ask" not in asked.acts or not turn.tree or offered.tree != turn.tree.name:
        return
    for work in [work for work in reading.work if work.done == "now"]:
        options = (one for one in offered.options if one.work == work.work and near(one.spot, work.spot))
        option = next(options, None)
        if option is None or option.verdict not in (HOLD, AVOID, ASK):
            continue
        opens = day_of(option.opens)
        if option.verdict == HOLD and opens and opens > turn.on and reading.when is None:
            works = tuple(replace(one, done="later") if one is work else one for one in reading.work)
            turn.reading = reading = replace(reading, work=works, when=option.opens)
            turn.aside.append(f"put down as a plan, since it has to wait until {day_words(opens, turn.on)}")
        else:
            turn.confirm = f"{against_words(option)} Log it as done all the same? Say yes or no."


def begun_before(turn: Turn) -> Logged:
    """The entries of the statement before, where it told of work as being done and this one tells the same work as done
    on the same day: it is one work, and what is told now says more of it."""
    before, reading = turn.before.reading, turn.reading
    if before is None or turn.tree is None or "decide" not in reading.acts or "correct" in turn.acts:
        return ()
    begun = [work for work in before.work if work.work]
    told = [work for work in reading.work if work.work and work.done == "done"]
    if reading.when not in (None, turn.on.isoformat()) or not begun or any(work.done != "now" for work in begun):
        return ()
    if not all(any(_is_same(one, other) for other in told) for one in begun):
        return ()
    made = turn.before.made
    done = all(entry.kind == "done" and entry.day == turn.on and name == turn.tree.name for name, entry in made)
    return made if done else ()


def _is_same(one: Work, other: Work) -> bool:
    return one.work == other.work and near(one.spot, other.spot)
