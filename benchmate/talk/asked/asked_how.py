"""How a thing is asked: for all that was said, of one tree that is pointed at, over which days; where a turn leads.

Only what a reading does not carry; the words are those of rules/words.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import END
from benchmate.talk.dates import span_of
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing import Lexicon
    from benchmate.talk.house import House

_WEEK, _FORTNIGHT = 7, 14
_THOUGHT = r"\b(?:i|we) (?:\w+ )?might\b(?! (?:as well|have)\b)"


def asks_for_all(said: str, lexicon: Lexicon) -> bool:
    """Whether all is asked for, what was decided and planned too ("what did I decide about ...")."""
    return bool(phrase_places(lexicon.split(said), "QRECALLALL", lexicon))


def asks_for_written(said: str, lexicon: Lexicon) -> bool:
    """Whether it is asked what was put down on a day, not what was done on it ("what did you write down today")."""
    return any(value == "written" for _, _, value in phrase_places(lexicon.split(said), "QRECALLALL", lexicon))


def points_at_one(said: str, lexicon: Lexicon) -> bool:
    """Whether a word points at the tree at hand ("to it", "on this one"): "this week" does not."""
    words = lexicon.split(said)
    times = {**lexicon.dates.get("span", {}), **lexicon.dates.get("season", {}), **lexicon.dates.get("month", {})}
    pointing = [(at, end) for at, end, value in phrase_places(words, "PRON", lexicon) if value == "it"]
    return any(end == len(words) or words[end] not in times for _, end in pointing)


def with_days(reading: Reading, on: dt.date, lexicon: Lexicon) -> Reading:
    """The question with the days that it means, as an ISO interval where they are several: "last week" is seven days,
    "in the last ten days" is ten."""
    counted = dict(reading.series).get("days")
    if reading.when is None and counted and not reading.work:
        return replace(reading, when=_interval(on - dt.timedelta(days=round(counted)), on))
    length = _span_said(reading.said, lexicon)
    span = span_of(reading.when) if reading.when else (on, on)
    if length is None or span is None or span[0] != span[1]:
        return reading
    start = span[0] - dt.timedelta(days=span[0].weekday()) if length == _WEEK else span[0]
    end = start + dt.timedelta(days=_WEEK - 1) if length == _WEEK else on
    return replace(reading, when=_interval(start, min(end, on)))


def as_thought(reading: Reading) -> Reading:
    """ "I might repot it next week" is a thought, and no plan: it is weighed as a question."""
    works = [work for work in reading.work if work.work]
    if "decide" not in reading.acts or not works or any(work.done != "later" for work in works):
        return reading
    if not re.search(_THOUGHT, reading.said, re.IGNORECASE):
        return reading
    acts = dict.fromkeys("ask" if act == "decide" else act for act in reading.acts)
    asked = tuple(replace(work, done=None) for work in reading.work)
    return replace(reading, acts=tuple(acts), topic=reading.topic or "may", work=asked)


def turned_to(reading: Reading, house: House) -> Reading:
    """ "Finished with the elm, on to the beech" turns to the beech: to the species said behind the word that turns,
    where several are said."""
    species = [fact for fact in reading.facts if fact.kind == "species" and not fact.denied]
    if "turn" not in reading.acts or len(species) < 2:
        return reading
    words = house.ear.words(reading.said)
    texts = [word.text for word in words]
    found = [*phrase_places(texts, "TURN", house.lexicon), *phrase_places(texts, "TURNTO", house.lexicon)]
    behind = max((words[end - 1].end for _, end, _ in found), default=0)
    meant = next((fact for fact in species if fact.span[0] >= behind), species[-1])
    facts = tuple(fact for fact in reading.facts if fact is meant or fact not in species)
    return replace(reading, facts=facts, several=None)


def _interval(start: dt.date, end: dt.date) -> str:
    return f"{start.isoformat()}/{end.isoformat()}"


def _span_said(said: str, lexicon: Lexicon) -> int | None:
    """Days of the span that is meant as a whole: of "last week", "this week", "the week before last", not "a week
    ago"."""
    words, names = lexicon.split(said), lexicon.dates.get("words", {})
    for at, word in enumerate(words):
        days = lexicon.dates.get("span", {}).get(word)
        if days not in (_WEEK, _FORTNIGHT):
            continue
        before = any(_ends_with(words[:at], lead) for key in ("last", "this") for lead in names.get(key, ()))
        if before or (words[at + 1 : at + 2] == ["before"] and words[at + 2 : at + 3] != ["now"]):
            return int(days)
    return None


def _ends_with(words: Sequence[str], phrase: str) -> bool:
    parts = phrase.split()
    return list(words[-len(parts) :]) == parts


def phrase_places(words: Sequence[str], kind: str, lexicon: Lexicon) -> list[tuple[int, int, object]]:
    """(start, end, value) of every phrase of a type in the words, one for each start: the longest."""
    found = []
    for start in range(len(words)):
        node, longest = lexicon.trie, None
        for end in range(start, len(words) + 1):
            longest = next(((start, end, value) for held, value in node.get(END, ()) if held == kind), longest)
            if end == len(words) or words[end] not in node:
                break
            node = node[words[end]]
        if longest:
            found.append(longest)
    return found
