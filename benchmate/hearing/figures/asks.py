"""Whether a statement may ask for a number at all: words that ask, sizes that nothing else explains, headings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..lattice.spotting import Token
from ..reading import Reading
from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word

Asking = Mapping[str, frozenset[str]]
STATES = {"observe", "decide"}
WHEN = frozenset({"when", "what-if", "recall", "compare"})


def sizes_in(words: Sequence[Word], lattice: Sequence[Sequence[Token]]) -> int:
    """How many numbers a statement may hold, in figures or with their unit in words."""
    sized = {token.end for tokens in lattice for token in tokens if token.kind == "MEASURE"}
    return max(len(sized), sum(word.text[0].isdigit() for word in words))


def may_hold(reading: Reading, words: Sequence[Word], numbers: int, missed: bool, lexicon: Lexicon) -> bool:
    """Whether a question for a number may lie in what was understood: nothing else was asked, or not all of it.

    numbers: how many it may hold.
    """
    if reading.topic == "meaning":
        return (reading.term or "") not in lexicon.glossary
    # a whole sentence that asks when may still ask for a figure's day, if the words weigh enough
    least = 0 if any(word.text in lexicon.asking["named"] for word in words) else 1
    works = any(work.work for work in reading.work)
    states = not set(reading.acts) - STATES
    return (
        missed
        or (states and (words[0].text in lexicon.asking["headings"] or (bool(numbers) and _sizes_alone(reading))))
        or (numbers > 1 and not works and states)
        # "would a 10 mm limb take 15 degrees over 20 cm"
        or (asks(words, lexicon.asking) and (reading.topic in WHEN or states or numbers > least))
    )


def _sizes_alone(reading: Reading) -> bool:
    """Whether nothing but sizes was understood: "wire for a 3/16 inch branch"."""
    return not reading.work and not reading.facts and not reading.candidates


def parted(words: Sequence[Word], asking: Asking) -> bool:
    """Whether the statement has more than one clause."""
    return any(word.text in asking["parts"] or word.text == "?" for word in words)


def asks(words: Sequence[Word], asking: Asking) -> bool:
    """Whether a question word stands in the statement, or a clause of it begins as questions do."""
    texts = [word.text for word in words]
    openings = [at for at in range(len(texts) - 1) if at == 0 or texts[at - 1] in asking["parts"]]
    if any(text in asking["words"] and not _joins(texts, at, asking) for at, text in enumerate(texts)):
        return True
    pairs = [(texts[at], texts[at + 1]) for at in openings]
    inverted, subjects = asking["inverted"], asking["subjects"]
    return any(verb in inverted and (of in subjects or of.isdigit()) for verb, of in pairs)


def _joins(texts: Sequence[str], at: int, asking: Asking) -> bool:
    """Whether a question word only joins: "when I came home", "where the sun gets in", "a wound which is closing"."""
    if texts[at] in asking["ordering"] and asking["objects"].intersection(texts[at + 1 : at + 2]):
        return True  # "25 years old, give or take", "give it two litres"
    if texts[at] not in asking["joining"] or at + 1 >= len(texts) or "?" in texts[at:]:
        return False
    behind = texts[at + 1]
    if at == 0 or texts[at - 1] in asking["parts"] - {","}:
        return behind in asking["tellers"]
    return behind in asking["subjects"] | asking["tellers"] or (texts[at] == "which" and behind in asking["finite"])
