"""Words that are kept as said: stuff with the ratio in which it was mixed."""

from __future__ import annotations

from collections.abc import Sequence

from .lexicon import Lexicon
from .reading import Missed
from .words import Word


def with_ratio(
    text: str, words: Sequence[Word], missed: Sequence[Missed], kept: Sequence[Missed], lexicon: Lexicon
) -> tuple[Missed, ...]:
    """What is kept, the last of it with the numbers that follow and were missed ("akadama and lava, 2:1")."""
    if not kept:
        return ()
    last = kept[-1]
    at = next(n for n, word in enumerate(words) if word.start >= last.span[1]) if last.span[1] < words[-1].start else None
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
