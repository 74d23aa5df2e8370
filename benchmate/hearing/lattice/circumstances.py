"""Circumstances that stand beside a finding in many orders of words ("half off, still hanging by the bark"), heard by
the patterns under [sense.beside] in rules/words/filler.toml: advice goes by them."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..reading import Reading
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.word_patterns import Classes, starts
from ..vocabulary.words import Word


def with_circumstances(reading: Reading, words: Sequence[Word], lexicon: Lexicon) -> Reading:
    """The reading with the circumstance that its words tell of a finding in it; the first of the file that fits."""
    seen = {str(fact.value) for fact in reading.facts if fact.kind == "finding" and not fact.denied}
    tables = lexicon.sense["beside"]
    if not any(cell["finding"] in seen for cell in tables["of"].values()):
        return reading
    texts, classes = [word.text for word in words], Classes(tables["words"])
    for name, cell in tables["of"].items():
        if cell["finding"] in seen and any(True for _ in starts(cell["told"], texts, classes)):
            return replace(reading, means=tuple(dict.fromkeys([*reading.means, name])))
    return reading
