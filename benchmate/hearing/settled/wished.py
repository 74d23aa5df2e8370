"""A size that is wished for ("I want it at 60 cm tall") is no measurement: the words are kept, and how long it takes to
get there is asked."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..lattice.opening import STOPS
from ..reading import Missed, Reading
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

_GROWN = ("height_mm", "diameter_mm")
_TELLING = frozenset({"observe", "correct"})
_PARTING = (STOPS - {":", "-"}) | {",", "because", "but", "so"}


def wished(reading: Reading, words: Sequence[Word], lexicon: Lexicon) -> Reading:
    """The reading with a wish in place of a measurement of the whole tree, where that is what the words are."""
    if not set(reading.acts) <= _TELLING or reading.candidates:
        return reading
    if any(fact.kind != "species" for fact in reading.facts) or any(work.work for work in reading.work):
        return reading
    measures = {key: size for work in reading.work for key, size in work.measures.items()} | dict(reading.measures)
    wish = _wish_in([word.text for word in words], lexicon)
    if wish is None or (reading.acts and not any(key in measures for key in _GROWN)):
        return reading
    first, end = words[wish[0]].start, words[wish[1] - 1].end
    missed = () if not reading.acts else tuple(one for one in reading.missed if not _within(one, first, end))
    asks = len([key for key in _GROWN if key in measures]) == 1
    return replace(
        reading,
        acts=("note", "ask") if asks else ("note",),
        topic="figure" if asks else None,
        figure="growth-forecast" if asks else None,
        measures=measures if asks else {},
        work=(),
        missed=missed,
    )


def _wish_in(texts: Sequence[str], lexicon: Lexicon) -> tuple[int, int] | None:
    """Where a wish is said of a size, with nothing but a comma-less stretch between the two."""
    sizes = [at for at, text in enumerate(texts) if text[0].isdigit() or text in lexicon.numbers.get("number", {})]
    for at in range(len(texts)):
        for phrase in lexicon.sense["wishes"]:
            parts = phrase.split()
            end = at + len(parts)
            if list(texts[at:end]) != parts:
                continue
            for size in sizes:
                between = texts[end:size] if size >= end else texts[size:at]
                if not _PARTING & set(between):
                    return at, end
    return None


def _within(missed: Missed, first: int, end: int) -> bool:
    return first <= missed.span[0] and missed.span[1] <= end
