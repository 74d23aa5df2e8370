""" "What about next week?", "and in May?": the question that was asked last, asked of another day."""

from __future__ import annotations

from collections.abc import Callable

from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.value import replace

_ASKED = frozenset({"advice", "may", "due", "plan"})


def of_another_day(last: Reading | None, said: str, hear: Callable[[str], Reading], lexicon: Lexicon) -> Reading | None:
    """The last question with the day that is only named now, or None where more is said, or nothing was asked."""
    if last is None or "ask" not in last.acts or last.topic not in _ASKED:
        return None
    words = lexicon.split(said)
    head = next((one.split() for one in lexicon.sense["another_day"] if words[: len(one.split())] == one.split()), None)
    if head is None:
        return None
    rest = [word for word in words[len(head) :] if word != "?"]
    day = hear(" ".join(rest)) if rest else None
    bare = day is not None and not (day.facts or day.work or day.measures or day.tree or day.several or day.figure)
    if day is None or not bare or not (day.when or day.ahead) or set(day.acts) - {"observe"} or _more(day, lexicon):
        return None
    works = tuple(replace(work, done=None) for work in last.work)
    return replace(last, said=said, acts=("ask",), when=day.when or day.ahead, work=works, missed=(), guessed=())


def _more(day: Reading, lexicon: Lexicon) -> bool:
    """Whether words were missed that the day itself does not hold."""
    return any(len(lexicon.split(one.words)) < len(lexicon.split(day.said)) for one in day.missed)
