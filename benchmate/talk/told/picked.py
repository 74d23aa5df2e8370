"""An option taken in other words than "take the second": "the second then, but next spring", "done the first", "ok take
the first, did it just now"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading, Work
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.statement import yes_or_no
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.practice.advice import Advice
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short
    from benchmate.talk.turns import Turn

PICKED = "picked"  # work that is an option taken
_NOT_DONE = frozenset({"what-if", "why", "compare"})  # questions whose options "done" does not speak of


def picked(short: Short, talk: Context) -> Reading | None:
    """The option that is taken, planned for the time that is named, or told as done. None where the words say more, or
    where no options were just put forward."""
    last, advice = talk.amends, talk.advice
    if last is None or "ask" not in last.acts or last.several:
        return None
    if not talk.due and (advice is None or not advice.options):
        return None
    texts, sense = short.texts, short.lexicon.sense
    passed = {*sense["openers"], *sense["sorry"]}
    at = next((n for n, text in enumerate(texts) if text not in passed and yes_or_no(text) is not True), len(texts))
    done, at = _behind(texts, at, (*sense["picked"]["done"], *sense["did"]))
    at = at if done else _behind(texts, at, sense["picked"]["take"])[1]
    number, at = _ordinal(short, at)
    if number is None:
        return None
    at = _past(texts, at, sense["picked"]["then"])
    told, at = (False, at) if done else _behind(texts, at, sense["did"])
    rest = short.between(at, len(texts)).strip(" .!,")
    when, day = None, None
    put_off = rest in sense["picked"]["not_now"]
    if rest and not put_off and rest not in sense["picked"]["now"]:
        heard = short.hear(f"I will repot it {rest}")
        plain = not (heard.missed or heard.facts or heard.measures or heard.tree) and len(heard.work) == 1
        if not plain or not heard.when or heard.work[0].measures:
            return None
        when, day = heard.when, heard.day
    if "?" in texts or (done and last.topic in _NOT_DONE) or _means_a_place(texts, last):
        return None
    if talk.due:
        return _of_due(short, talk, number, (when, day)) if done else None
    meant = "done" if done or told else "later" if when or put_off else None
    return _of_option(short, talk, number, done=meant, when=(when, day))


def _of_due(short: Short, talk: Context, number: int, when: tuple[str | None, str | None]) -> Reading | None:
    """ "Done the first", behind what is due: that work, on its tree."""
    if number > len(talk.due):
        return None
    name, work = talk.due[number - 1]
    return Reading(short.said, ("decide",), work=(replace(work, done="done"),), tree=name, when=when[0], day=when[1])


def _means_a_place(texts: list[str], last: Reading) -> bool:
    """Whether "the first one" may rather be a branch, since one was asked about."""
    ordinal = any(work.spot.ordinal for work in last.work)
    return ordinal or ("one" in texts and any(work.spot.part for work in last.work))


def _of_option(
    short: Short, talk: Context, number: int, *, done: str | None, when: tuple[str | None, str | None]
) -> Reading | None:
    """The option of that number as work done or meant; as a pick where nothing more is said, or there is none such."""
    advice = talk.advice
    option = advice.options[number - 1] if advice and number <= len(advice.options) else None
    if option is None or advice is None or done is None or (option.work in LEFT_WORKS and not when[0]):
        return Reading(short.said, ("pick",), pick=number)
    done = "now" if option.work in LEFT_WORKS else done
    work = Work(option.work, option.spot, done=done, manner=option.manner)
    refers = (PICKED,)
    return Reading(short.said, ("decide",), work=(work,), tree=advice.tree, when=when[0], day=when[1], refers=refers)


def picked_anew(said: str, offered: Advice, number: int, last: Reading | None) -> Reading | None:
    """ "Actually the first", behind an option that was taken for a time: the other option, for that time. None where
    the option was not taken so."""
    if last is None or PICKED not in last.refers or not 1 <= number <= len(offered.options):
        return None
    option = offered.options[number - 1]
    done = "now" if option.work in LEFT_WORKS else last.work[0].done if last.work[0].work not in LEFT_WORKS else "later"
    work = Work(option.work, option.spot, done=done, manner=option.manner)
    return replace(last, said=said, work=(work,))


def _behind(texts: list[str], at: int, phrases: tuple[str, ...] | list[str]) -> tuple[bool, int]:
    """Whether one of the phrases stands there, and the place behind the longest that does."""
    fits = [len(one.split()) for one in phrases if texts[at : at + len(one.split())] == one.split()]
    return bool(fits), at + max(fits, default=0)


def _past(texts: list[str], at: int, words: list[str]) -> int:
    while at < len(texts) and texts[at] in words:
        at += 1
    return at


def _ordinal(short: Short, at: int) -> tuple[int | None, int]:
    """The number of "the second", "option two", "the first one", and the place behind it."""
    texts, sense, numbers = short.texts, short.lexicon.sense["picked"], short.lexicon.numbers
    start, at = at, _past(texts, at, sense["before"])
    counted = bool(set(texts[start:at]) & set(sense["numbered"]))  # "option two"
    word = texts[at] if at < len(texts) else ""
    number = numbers["ordinal"].get(word) or (numbers["number"].get(word) if counted else None)
    if counted and word.isdecimal():
        number = int(word)
    if not number or set(texts[at + 1 : at + 2]) & set(sense["counts"]) - {"of"}:
        return None, at  # "the second week in May"
    at = _behind(texts, at + 1, sense["behind"])[1]
    return (None, at) if texts[at : at + 1] == ["of"] else (int(number), at)  # "the first of May"


def put_off_by(turn: Turn) -> str | None:
    """Words beside an option taken that may put it off: a time to come, or a denial that was not taken in."""
    lexicon, reading = turn.house.lexicon, turn.reading
    for one in reading.missed:
        if any(value == "not" for _, _, value in phrase_places(lexicon.split(one.words), "AUX", lexicon)):
            return one.words
    later = bool(reading.when) and str(reading.when) > turn.on.isoformat()[: len(str(reading.when))]
    return reading.said if later and "remind" not in reading.acts else None
