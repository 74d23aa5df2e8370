"""Times in words, against today: "three weeks ago", "end of July", "next spring", "a week on Tuesday"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchmate.value import replace

from .date_days import DAYS
from .date_seasons import STRETCHES
from .date_spans import SPANS
from .date_words import FIRST_FROST, DateWords, When, add_months, longest_of

__all__ = ["FIRST_FROST", "DateWords", "When", "add_months", "spot_dates"]

_DEADLINE = frozenset({"before", "by", "until", "till"})
# what may stand behind a word that leads into a time: "from about", "by the"; behind "in" and "on" only an article
_BETWEEN = frozenset({"the", "about", "around", "roughly"})
_VERBS_OWN = frozenset({"in", "on"})


def spot_dates(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    """Every time that starts at the word `at`, with and without words that lead into it ("at the end of ...")."""
    if not dw.may_start(words[at]):
        return
    if end := dw.match("frost", words, at):
        yield When(end, FIRST_FROST, FIRST_FROST)
    yield from _core(dw, words, at)
    start, looks_back, deadline = at, False, False
    for _ in range(3):
        after = dw.match("lead", words, start)
        inner = {"the"} if words[start - 1] in _VERBS_OWN else _BETWEEN
        if after is None or after >= len(words) or (start > at and words[start] not in inner):
            return  # "bring it in at the end of October": the "in" is the verb's
        if words[after - 1] in _VERBS_OWN and after - start == 1 and longest_of(dw.day, words, after):
            return  # "brought the ficus in tonight": nothing is "in tonight", so the "in" is the verb's
        looks_back = looks_back or "since" in words[start:after]
        deadline = deadline or bool(_DEADLINE & set(words[start:after]))
        start = after
        if dw.match("place", words, start) and dw.part(words, start)[0] is None:
            return  # "the branch at the back in March": a place, and then a month
        for when in _core(dw, words, start):
            if looks_back:
                when = replace(when, future=when.past, future_day=when.past_day)
            yield replace(when, deadline=deadline, onward=looks_back, last=None, counted=False)


def _core(dw: DateWords, words: Sequence[str], at: int) -> Iterator[When]:
    if not dw.may_start(words[at]):
        return
    for shape in (*DAYS, *SPANS, *STRETCHES):
        try:
            yield from shape(dw, words, at)
        except (OverflowError, ValueError):
            continue  # beyond the years of the calendar nothing is named
