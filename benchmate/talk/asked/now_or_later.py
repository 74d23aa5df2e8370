"""A choice between two times ("repot now or in spring") is answered by when the work may be done; of two works each is
weighed at its own time."""

from __future__ import annotations

from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.value import replace


def now_or_later(reading: Reading, lexicon: Lexicon) -> Reading:
    """The reading as a question of when, weighed today, where it chooses between two times of one work."""
    if reading.topic != "compare" or "ask" not in reading.acts or len(reading.work) != 1 or reading.candidates:
        return reading
    texts, sense = lexicon.split(reading.said), lexicon.sense["choosing"]
    now = next((n for n, text in enumerate(texts) if text in sense["now"]), None)
    either = now is not None and "or" in (texts[now - 1 : now] + texts[now + 1 : now + 2])
    if not either and not (reading.when and "or" in texts):
        return reading
    return replace(reading, topic="when", when=None)


def at_its_time(reading: Reading, lexicon: Lexicon) -> Reading:
    """The reading of a choice to be weighed today, where the time that was said is none of the work to be done: the
    other is for now, or the time is that until which it is left ("snip the wire off now or leave till spring")."""
    works = [work.work for work in reading.work]
    if reading.topic != "compare" or "ask" not in reading.acts or len(works) < 2 or not reading.when:
        return reading
    texts, sense = lexicon.split(reading.said), lexicon.sense["choosing"]
    now = any(text in sense["now"] for text in texts)
    left = {"leave", "wait"} & {str(work) for work in works} and set(texts) & set(sense["till"])
    return replace(reading, when=None) if now or left else reading
