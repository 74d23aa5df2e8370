"""What was used for the work told before: "I used copper", "no, seaweed", "it was pumice, not akadama"."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Missed, Reading
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing.vocabulary.lexicon import Lexicon

_COMMA = ","


def stuff_after(words: str, last: Reading, lexicon: Lexicon) -> Reading | None:
    """The statement before with what was used for it in the grower's words, in the stead of what it named for that; of
    what is said not to have been used only that goes. None where the words name anything beside."""
    sense = lexicon.sense["used"]
    texts = [text for text in lexicon.split(words) if text not in ".!"]
    at = _passed(texts, {*lexicon.sense["openers"], *lexicon.sense["sorry"], *lexicon.sense["righting"]})
    undo = _opens(texts[at:], [f"{way} {it}" for way in lexicon.sense["undoes"] for it in ("it", "that")])
    at += undo
    refused = {*lexicon.sense["refusals"], *lexicon.sense["sorry"]}
    at += _passed(texts[at:], {*refused, *lexicon.sense["openers"]})
    refuses = not refused.isdisjoint(texts[:at])
    lead = _opens(texts[at:], sense["leads"])
    rest = texts[at + lead :]
    denial = next((n for n in range(len(rest)) if _opens(rest[n:], sense["denies"])), None)
    denied = rest[denial + _opens(rest[denial:], sense["denies"]) :] if denial is not None else []
    stuff, not_stuff = (_bare(part, sense["small"]) for part in (rest[:denial], denied))
    known = {*lexicon.sense["stuff"], *sense["materials"]}
    if stuff not in known or (not_stuff and not_stuff not in known) or not (lead or refuses or not_stuff):
        return None
    if refuses and stuff in last.said.casefold():
        return None  # "no, copper" of what was copper already
    said = f"{last.said}; {words}"
    start = said.casefold().find(stuff, len(last.said))
    if start < 0:
        return None
    kept = [one for one in last.kept if not_stuff and not_stuff not in one.words.casefold()]
    return replace(last, said=said, kept=(*kept, Missed(said[start : start + len(stuff)], (start, start + len(stuff)))))


def _passed(texts: Sequence[str], small: Collection[str]) -> int:
    """How many of the first words are small ones."""
    return next((n for n, text in enumerate(texts) if text not in small and text != _COMMA), len(texts))


def _opens(texts: Sequence[str], phrases: Collection[str]) -> int:
    """How many words the longest of the phrases that the words open with has; 0 where none does."""
    parts = (phrase.split() for phrase in phrases)
    return max((len(one) for one in parts if list(texts[: len(one)]) == one), default=0)


def _bare(texts: Sequence[str], small: Collection[str]) -> str:
    """The words without small ones at both ends."""
    told = [n for n, text in enumerate(texts) if text not in small and text != _COMMA]
    return " ".join(texts[told[0] : told[-1] + 1]) if told else ""
