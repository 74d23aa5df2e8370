"""Words that are kept as said: stuff with the ratio in which it was mixed, what a reminder is of."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from .lattice.search import Found
from .reading import Missed, Reading, Spot
from .vocabulary.lexicon import Lexicon
from .vocabulary.words import Word


def with_ratio(
    text: str, words: Sequence[Word], missed: Sequence[Missed], kept: Sequence[Missed], lexicon: Lexicon
) -> tuple[Missed, ...]:
    """What is kept, the last of it with the numbers that follow and were missed ("akadama and lava, 2:1")."""
    if not kept:
        return ()
    last = kept[-1]
    at = (
        next(n for n, word in enumerate(words) if word.start >= last.span[1])
        if last.span[1] < words[-1].start
        else None
    )
    end = None
    while at is not None and at < len(words):
        numbered = words[at].text.isdigit() or words[at].text in lexicon.numbers.get("number", {})
        lost = any(one.span[0] <= words[at].start < one.span[1] for one in missed)
        if not (numbered and lost) and words[at].text not in lexicon.sense["in_ratio"]:
            break
        end = words[at].end if numbered else end
        at += 1
    if end is None:
        return tuple(kept)
    return (*kept[:-1], Missed(text[last.span[0] : end], (last.span[0], end)))


def reminder_words(reading: Reading, words: Sequence[Word], found: Found) -> Reading:
    """The reading of a reminder that names no work of a tree, with its words to be told on the day: "order akadama"."""
    cue = next((token for token in found.tokens if token.kind == "REMIND"), None)
    unnamed = [work for work in reading.work if work.done is None and work.span == (0, 0)]
    if cue is None or "remind" not in reading.acts or not unnamed or not reading.missed:
        return reading
    first = next((token.end for token in found.tokens if token.kind == "DATE" and token.first == cue.end), cue.end)
    first += words[first].text == "to" if first < len(words) else 0
    stops = {token.first for token in found.tokens if token.kind in ("SEP", "DATE") and token.first >= first}
    end = min(stops, default=len(words))
    if end <= first:
        return reading
    span = (words[first].start, words[end - 1].end)
    lost = [one for one in (*reading.missed, *reading.kept) if span[0] <= one.span[0] and one.span[1] <= span[1]]
    if not any(one.span[0] == span[0] for one in lost):  # the verb is one of a tree's works
        return reading
    work = tuple(replace(one, work="check", spot=Spot()) if one in unnamed else one for one in reading.work)
    kept = tuple(one for one in reading.kept if one not in lost)
    missed = tuple(one for one in reading.missed if one not in lost)
    return replace(reading, note=reading.said[span[0] : span[1]].strip(" .,!"), missed=missed, kept=kept, work=work)
