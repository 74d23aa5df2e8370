"""A narrower or later word for what was just said: "only on the right side", "sorry, 66", "actually in February"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

_TOLD = ("now", "done")
_NUMBER = re.compile(r"(?<![\w.])\d+(?:[.,]\d+)?(?![\w.,]*\d)")


def narrowed(short: Short, talk: Context) -> Reading | None:
    """The correction that the words are, or None where they say more, or nothing was put down that they could mean."""
    last, heard = talk.amends, short.heard
    if last is None or not talk.made or {"ask", "remind", "note", "new", "strike"} & set(heard.acts):
        return None
    texts, sense = short.texts, short.lexicon.sense
    passed = {*sense["openers"], *sense["refusals"], *sense["sorry"], *sense["righting"]}
    at = next((n for n, text in enumerate(texts) if text not in passed), len(texts))
    tail = short.between(at, len(texts)).strip(" .!")
    if not tail:
        return None
    only = texts[at] in sense["only"]
    rights = bool((passed - set(sense["openers"])) & set(texts[:at]))
    if only and (tree := _on_one_tree(short, talk)):
        return tree
    if only:
        return _there_only(short, last, short.between(at + 1, len(texts)).strip(" .!"))
    if not rights:
        return None
    return _another_number(short, last, tail) or _another_day(short, last, tail)


def _on_one_tree(short: Short, talk: Context) -> Reading | None:
    """ "Only Scotty", behind work on several trees: on none of the others."""
    fix = short.hear(f"{short.lexicon.sense['refusals'][0]}, {short.said}")
    if len({name for name, _ in talk.made}) < 2 or fix.acts != ("correct",) or fix.tree is None:
        return None
    more = fix.work or fix.facts or fix.measures or fix.missed or fix.several
    return None if more else replace(fix, said=short.said)


def _there_only(short: Short, last: Reading, tail: str) -> Reading | None:
    """ "Only on the right side", "just the top ones": the place of the one work just told."""
    works = [work for work in last.work if work.work and work.done in _TOLD]
    place = short.change(tail) if len(works) == 1 and not short.heard.work else None
    if place is None or place.spot == NOWHERE or works[0].spot.side not in (None, place.spot.side):
        return None
    return Reading(short.said, ("correct",), work=(replace(place, span=(0, 0)),))


def _another_number(short: Short, last: Reading, tail: str) -> Reading | None:
    """ "Sorry, 66": in the stead of the one number that a finding or a size was told with."""
    said = _NUMBER.findall(last.said)
    number = _NUMBER.match(tail)
    if last.work or len(said) != 1 or number is None or len(tail.split()) > 2:
        return None
    anew = short.hear(_NUMBER.sub(number.group().replace(",", "."), last.said))
    unit = tail[number.end() :].strip()
    if (unit and unit not in last.said) or anew.work or anew.missed != last.missed:
        return None
    if set(anew.measures) != set(last.measures) or anew.acts != last.acts:
        return None
    return Reading(short.said, ("correct",), facts=anew.facts, measures=anew.measures)


def _another_day(short: Short, last: Reading, tail: str) -> Reading | None:
    """ "Actually in February": another day for what is planned, or a day gone by for what was done."""
    works = [work for work in last.work if work.work]
    fix = short.hear(f"{short.lexicon.sense['refusals'][0]}, {tail}")
    more = fix.work or fix.facts or fix.missed or fix.measures or fix.tree
    if not works or fix.acts != ("correct",) or not fix.when or more or short.heard.acts == ("correct",):
        return None
    ahead = fix.when > short.on[: len(fix.when)]
    if any(work.done not in (("later",) if ahead else _TOLD) for work in works):
        return None
    return Reading(short.said, ("correct",), when=fix.when, day=fix.day)
