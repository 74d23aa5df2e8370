"""Words that name a tree and say nothing else: by its name, its kind, or what points at the one at hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.talk.trees.which_tree import fits

if TYPE_CHECKING:
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.talk.bench import Bench


def tree_said(bench: Bench, words: str, whose: Sequence[Word]) -> Reading | None:
    """The reading of these words of a statement, where they name a tree that is here and nothing else; one without a
    tree or a kind where they point at the one at hand, or are none."""
    sense = bench.house.lexicon.sense["renaming"]
    if not whose or " ".join(word.text for word in whose) in sense["points"]:
        return Reading(words)
    heard = bench.house.hear(words[whose[0].start : whose[-1].end], bench.on)
    if heard.work or heard.missed or heard.measures or heard.candidates or heard.several or heard.figure:
        return None
    facts = heard.facts
    if len(facts) + bool(heard.tree) != 1 or any(one.kind != "species" or one.denied for one in facts):
        return None
    said = heard.tree or heard.said[slice(*facts[0].span)]
    own, last = {*bench.house.lexicon.split(said)}, whose[-1].text
    about = {word.text for word in whose} - own
    if about - {*sense["beside"], *sense["heads"]} or not (last in own or last in sense["heads"]):
        return None
    return heard if fits(heard.tree or str(facts[0].value), bench.house.trees(), bench.here) else None
