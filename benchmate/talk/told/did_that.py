"""Work told as done by nothing but that it was: "ok did that", "done", "did both", behind a question or advice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Spot, Work
from benchmate.practice.advice import GO
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.statement import yes_or_no
from benchmate.talk.told.following import near
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_SAME, NO_WORK = "same", "no-work"
_WHEN, _LOOK = "when", "check"
_ADVISED = frozenset({"advice", "may", "when", "compare", "what-if"})
ADVICE = "advice"  # the topic of "what now"
COMPARE = "compare"  # the topic of a question which of several to keep


def did_that(short: Short, talk: Context) -> Reading | None:
    """ "Ok did that", "done", "did it yesterday": the work that was asked about was done, or what was put
    forward; behind a question when work comes undone ("when does it come off") the work that it speaks of."""
    last = talk.amends
    if last is None or "ask" not in last.acts or last.topic not in _ADVISED or last.several:
        return None
    texts, sense = short.texts, short.lexicon.sense
    passed = {*sense["openers"], *sense["sorry"]}
    at = next((n for n, text in enumerate(texts) if text not in passed and yes_or_no(text) is not True), len(texts))
    both = _opening(texts, at, sense["did_both"])
    said = both or _opening(texts, at, sense["did"])
    if said is None:
        return None
    rest = short.hear(short.between(at + len(said.split()), len(texts)).strip(" .!,"))
    if rest.acts or rest.tree or (rest.missed and not rest.when):
        return None
    works = _asked_of(last)
    if last.topic == _WHEN and {work.work for work in works} == {_LOOK} and talk.earlier:
        works = _asked_of(talk.earlier) or works  # "when do I look again": it is the work that is looked at
    if both and len(works) < 2:
        works = _two(last, talk.earlier)
        if len(works) != 2:
            return None
    done = [replace(work, spot=_placed(work, talk), done="done", span=(0, 0)) for work in works]
    options = talk.advice.options if talk.advice else ()
    best = options[0] if options else None
    if not works and last.topic == ADVICE and best and best.verdict == GO and best.work not in LEFT_WORKS:
        done = [Work(best.work, best.spot, done="done")]  # what was put forward, whatever was asked about before
    elif len(works) != 1 and last.topic == COMPARE:
        done = [Work(None, done="done")]  # one of several
    elif not works:  # nothing that could be done: work spoken of longer ago is not meant
        return Reading(short.said, ("decide",), work=(Work(None, done="done"),), refers=(NO_WORK,))
    facts = tuple(replace(fact, span=(0, 0)) for fact in last.facts if fact.kind == "species")
    refers = () if done[0].work else (_SAME,)
    return Reading(
        short.said, ("decide",), work=tuple(done), facts=facts, tree=last.tree, when=rest.when, refers=refers
    )


def _asked_of(reading: Reading) -> list[Work]:
    """The works that a question is about: those that it supposes, else those that it names."""
    if "ask" not in reading.acts or reading.topic not in _ADVISED:
        return []
    return list(reading.supposes) or [work for work in reading.work if work.work]


def _opening(texts: list[str], at: int, phrases: list[str]) -> str | None:
    return next((words for words in phrases if texts[at : at + len(words.split())] == words.split()), None)


def _placed(work: Work, talk: Context) -> Spot:
    """Where the work is done: at the one place at which it was weighed, else where it was said."""
    options = talk.advice.options if talk.advice else ()
    places = [one.spot for one in options if one.work == work.work and near(one.spot, work.spot)]
    return places[0] if len(places) == 1 else work.spot


def _two(last: Reading, earlier: Reading | None) -> list[Work]:
    """The works of the last two questions, where each asked about one."""
    if earlier is None or earlier.several:
        return []
    asked = [_asked_of(earlier), _asked_of(last)]
    same_tree = earlier.tree == last.tree or last.tree is None
    return [works[0] for works in asked] if same_tree and all(len(works) == 1 for works in asked) else []
