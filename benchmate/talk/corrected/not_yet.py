"""What was told as done and is still to come: "actually I haven't done it yet, it's for tomorrow"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_TOLD = ("now", "done")


def not_yet(short: Short, talk: Context) -> Reading | None:
    """The work just put down as done, denied, or meant for the day to come that is named. None where the words say
    anything else."""
    last = talk.amends
    works = [work for work in last.work if work.work and work.done in _TOLD] if last else []
    if not works or not talk.made or any(entry.kind != "done" for _, entry in talk.made):
        return None
    texts, sense = short.texts, short.lexicon.sense
    if _not_now(texts, sense["put_off"]) and all(work.done == "now" for work in works):
        return Reading(short.said, ("correct",), work=tuple(Work(work.work, done="later") for work in works))
    passed = {*sense["openers"], *sense["refusals"], *sense["sorry"], *sense["righting"]}
    at = next((n for n, text in enumerate(texts) if text not in passed), len(texts))
    said = next((words for words in sense["undone"] if texts[at : at + len(words.split())] == words.split()), None)
    if said is None and not {*sense["refusals"], *sense["sorry"], *sense["righting"]} & set(texts[:at]):
        return None
    rest = at + (len(said.split()) if said else 0)
    while rest < len(texts) and texts[rest] in sense["to_come"]:
        rest += 1
    tail = short.between(rest, len(texts)).strip(" .!,")
    if not tail:
        denied = tuple(replace(work, done="not", span=(0, 0)) for work in works)
        return Reading(short.said, ("decide",), work=denied) if said else None
    day = short.hear(tail)
    if day.acts or day.work or day.facts or day.tree or not day.when or day.when <= short.on[: len(day.when)]:
        return None
    if rest == at or "was" in texts[at:] or len(day.missed) > 1:  # "no, tomorrow", "no, it was Saturday"
        return None
    later = tuple(Work(work.work, done="later") for work in works)
    return Reading(short.said, ("correct",), work=later, when=day.when, day=day.day)


def _not_now(texts: Sequence[str], words: Mapping[str, Sequence[str]]) -> bool:
    """ "Not today though", behind work that was told in the imperative: nothing but when it is not to be."""
    ends = {*words["leading"], *words["trailing"]}
    return any(
        texts[at : at + len(phrase.split())] == phrase.split()
        and not set(texts[:at]) - ends
        and not set(texts[at + len(phrase.split()) :]) - ends
        for phrase in words["not_now"]
        for at in range(min(3, len(texts)))
    )
