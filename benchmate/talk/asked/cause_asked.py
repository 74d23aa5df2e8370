"""Whether a work is behind what is seen: "could it be the repotting", "is it because I repotted it". That asks when it
was done; it neither tells work nor asks whether to do it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchmate.hearing.reading import NOWHERE, Missed, Reading, Span, Work
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.hearing.vocabulary.words import Word
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.value import replace

_NEAR = 7  # words between the verb that asks and the words that name a cause
_NAMED = ("EVENT", "VING", "V")
_STOPS = frozenset({",", ".", "!", "?", ";", ":"})


def cause_asked(reading: Reading, words: Sequence[Word], lexicon: Lexicon) -> Reading | None:
    """The question when the work was done that is named as a cause, or None where none is."""
    if reading.several or "remind" in reading.acts:
        return None
    start, begins = next(_causes([word.text for word in words], lexicon), (0, 0))
    if not begins or begins >= len(words):
        return None
    first, last = words[start].start, words[begins].start
    named = [work for work in reading.work if work.work]
    named += [Work(str(one.value), one.spot, span=one.span) for one in reading.facts if one.kind == "event"]
    if not named:
        return _of_something_else(reading, words, (first, last))
    if len(named) != 1 or (named[0].span != (0, 0) and named[0].span[1] <= last):
        return None
    (work,) = named
    spot = NOWHERE if work.span[0] < last else work.spot  # what is seen stands before the work
    facts = tuple(fact for fact in reading.facts if fact.kind != "event")
    told = any(fact.kind != "species" and fact.span[1] <= first for fact in facts)
    missed = tuple(one for one in reading.missed if one.span[1] <= first or one.span[0] >= last)
    return replace(
        reading,
        acts=("observe", "ask") if told else ("ask",),
        topic="recall",
        facts=facts,
        work=(Work(work.work, spot, span=work.span),),
        reason=None,
        missed=missed,
        refers=(),
    )


def _of_something_else(reading: Reading, words: Sequence[Word], span: Span) -> Reading | None:
    """ "Is it because of the frost": what is only suspected was not seen, and no record tells of it."""
    first, last = span
    suspected = [fact for fact in reading.facts if fact.kind in ("weather", "finding") and fact.span[0] >= last]
    if not suspected:
        return None
    end = max(fact.span[1] for fact in suspected)
    facts = tuple(fact for fact in reading.facts if fact not in suspected)
    told = any(fact.kind != "species" and fact.span[1] <= first for fact in facts)
    missed = tuple(one for one in reading.missed if one.span[1] <= first or one.span[0] >= end)
    lost = Missed(reading.said[first:end], (first, end))
    acts = ("observe", "ask") if told else ("ask",)
    return replace(reading, acts=acts, topic="advice", facts=facts, missed=(*missed, lost))


def _causes(texts: Sequence[str], lexicon: Lexicon) -> Iterator[tuple[int, int]]:
    """Where a question after a cause begins, and where the words that name the cause do."""
    sense = lexicon.sense["cause"]
    for at, text in enumerate(texts):
        opens = not at or texts[at - 1] in _STOPS or texts[at - 1] in lexicon.sense["openers"]
        if not opens:
            continue
        for head in sense["may"]:
            end = at + len(head.split())
            if list(texts[at:end]) == head.split() and set(texts[end : end + 1]) & set(sense["of"]):
                yield at, end
        if text in sense["asks"]:
            yield from ((at, end) for end in _behind_cause(texts, at + 1, sense["by"]))
            if _work_did_it(texts, at + 1, lexicon):
                yield at, at + 1


def _work_did_it(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    """ "Might the feed have burnt it", "did the wiring do that": a work that is named as a thing did something."""
    sense = lexicon.sense["cause"]
    if at >= len(texts) or texts[at] not in sense["of"]:
        return False
    for end in range(at + 2, min(at + _NEAR, len(texts))):
        does = any(list(texts[end : end + len(one.split())]) == one.split() for one in sense["did"])
        named = texts[at + 1 : end]
        if does and any(
            place[:2] == (0, len(named)) for kind in _NAMED for place in phrase_places(named, kind, lexicon)
        ):
            return True
    return False


def _behind_cause(texts: Sequence[str], at: int, phrases: Sequence[str]) -> Iterator[int]:
    """The places behind words that name a cause, before the clause ends."""
    for start in range(at, min(at + _NEAR, len(texts))):
        if texts[start] in _STOPS:
            return
        for phrase in phrases:
            end = start + len(phrase.split())
            if list(texts[start:end]) == phrase.split():
                yield end
