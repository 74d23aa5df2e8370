"""A choice between now and a time to come ("repot now or in spring") is answered by when the work may be done."""

from __future__ import annotations

from benchmate.hearing.lexicon import Lexicon
from benchmate.hearing.reading import Reading
from benchmate.value import replace


def now_or_later(reading: Reading, lexicon: Lexicon) -> Reading:
    """The reading as a question of when, weighed today, where it chooses between two times of one work."""
    if reading.topic != "compare" or "ask" not in reading.acts or len(reading.work) != 1 or reading.candidates:
        return reading
    texts, sense = lexicon.split(reading.said), lexicon.sense["choosing"]
    now = next((n for n, text in enumerate(texts) if text in sense["now"]), None)
    if now is None or "or" not in (texts[now - 1 : now] + texts[now + 1 : now + 2]):
        return reading
    return replace(reading, topic="when", when=None)
